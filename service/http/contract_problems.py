"""Problem documents (RFC 9457) as the contract shows them."""

from __future__ import annotations

from typing import Annotated, Any

from msgspec import Struct

from service.check import FieldError
from service.http.contract_responses import header
from service.http.problem import PROBLEM_JSON
from service.http.problem import Problem as Raised
from service.quantities.fields import said

Json = dict[str, Any]


class ProblemError(Struct, kw_only=True, forbid_unknown_fields=True):
    """One bad field, and what to do about it."""

    pointer: Annotated[
        str,
        said(
            "JSON Pointer (RFC 6901) of the field; empty: the whole body.",
            example="/battery/count",
        ),
    ]
    detail: Annotated[
        str, said("What is wrong and the remedy.", example="Give a whole number from 1 to 20.")
    ]


class Problem(Struct, kw_only=True, forbid_unknown_fields=True):
    """Why a request was not answered (RFC 9457)."""

    type: Annotated[
        str, said("Which problem it is: a path that explains it.", example="/problems/invalid")
    ]
    title: Annotated[str, said("Its fixed title.", example="Request is outside the contract")]
    status: Annotated[int, said("HTTP status.", example=422)]
    detail: Annotated[
        str,
        said(
            "What happened and what to do.", example="1 field is outside the contract; see errors."
        ),
    ]
    errors: Annotated[list[ProblemError], said("Every bad field at once.", example=[])]


class ProblemMeaning(Struct, kw_only=True, forbid_unknown_fields=True):
    """What a problem type means."""

    type: Annotated[str, said("The `type` of its documents.", example="/problems/invalid")]
    title: Annotated[str, said("Its fixed title.", example="Request is outside the contract")]
    status: Annotated[int, said("HTTP status.", example=422)]
    meaning: Annotated[
        str,
        said(
            "When it is answered.",
            example="The body was read, and a field or a query parameter is outside the contract.",
        ),
    ]


_SHOWN = (
    Raised("malformed", "The body ends inside a JSON text; send all of it."),
    Raised("not-found", "Nothing answers at this path; /openapi.json lists every path."),
    Raised(
        "not-acceptable",
        "Accept names neither application/json nor application/vnd.msgpack; name one of them.",
    ),
    Raised("too-large", "The body is longer than 2 MiB; send fewer rows, or shorter texts."),
    Raised("unsupported-media-type", "Content-Type is text/plain; send application/json."),
    Raised(
        "invalid",
        "2 fields are outside the contract; see errors.",
        [
            FieldError("/battery/count", "is 0; give a whole number from 1 to 20"),
            FieldError("/target_hour", 'is no field here; the nearest is "target_hours"'),
        ],
    ),
    Raised("busy", "The service has no room for this request now; send it again in 1 s."),
)
_NAMES = {
    400: "Malformed",
    404: "NotFound",
    406: "NotAcceptable",
    413: "TooLarge",
    415: "UnsupportedMediaType",
    422: "Invalid",
    503: "Busy",
}


def refused(*statuses: int) -> Json:
    """Return references to the responses of problem statuses, by status."""
    return {str(s): {"$ref": f"#/components/responses/{_NAMES[s]}"} for s in statuses}


def problem_responses() -> Json:
    """Return one response a problem status, each with an example."""
    return {_NAMES[problem.type.status]: _response(problem) for problem in _SHOWN}


def _response(problem: Raised) -> Json:
    waits = {"Retry-After": header("Retry-After")} if problem.type.status == 503 else {}
    return {
        "description": f"{problem.type.title}. {problem.type.meaning}",
        "headers": {**waits, "X-Request-ID": header("X-Request-ID")},
        "content": {
            PROBLEM_JSON: {
                "schema": {"$ref": "#/components/schemas/Problem"},
                "example": problem.document(),
            }
        },
    }
