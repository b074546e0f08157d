"""The paths of the contract that calculate nothing: health, metrics, the contract, its page."""

from __future__ import annotations

from typing import Any

from service.http.contract_problems import ProblemMeaning, refused
from service.http.contract_responses import answered
from service.http.problem_types import PROBLEM_TYPES
from service.http.schema import Components

Json = dict[str, Any]

_STATE: Json = {
    "type": "object",
    "description": "State of the process.",
    "properties": {
        "status": {
            "type": "string",
            "description": "`ok`, or why not.",
            "examples": ["ok"],
        }
    },
    "required": ["status"],
}
_KEPT: Json = {
    "304": {"description": "The one whose ETag was sent is still the right one."},
    **refused(503),
}


def pages(components: Components) -> dict[str, Json]:
    """Return the paths, with the schema of the health answers kept in the components."""
    state = components.put("State", _STATE)
    return {
        "/livez": _get("livez", "Whether the process lives", answered("It lives.", state)),
        "/readyz": _get(
            "readyz",
            "Whether requests may be sent",
            answered("The tables are loaded.", state),
            refused(503),
        ),
        "/metrics": _get(
            "metrics",
            "Counters in the Prometheus text format",
            _text("Counters.", "text/plain", "# TYPE requests counter\n"),
        ),
        "/openapi.json": _get(
            "openapi",
            "This contract",
            answered(
                "The pinned document.",
                {"type": "object", "description": "An OpenAPI 3.1 document."},
                cached=True,
            ),
            _KEPT,
            etag=True,
        ),
        "/docs": _get(
            "docs",
            "This contract as a page",
            _text("The page.", "text/html", "<!doctype html>"),
            _KEPT,
            etag=True,
        ),
        "/problems/{id}": _problem_page(components),
    }


def _problem_page(components: Components) -> Json:
    meaning = components.answer(ProblemMeaning)
    path = _get(
        "problem",
        "What a problem type means",
        answered("The problem type.", meaning, cached=True),
        {**_KEPT, **refused(404)},
        etag=True,
    )
    name = {
        "name": "id",
        "in": "path",
        "description": "Last part of the `type` of a problem document.",
        "required": True,
        "schema": {"type": "string", "enum": list(PROBLEM_TYPES)},
        "example": "invalid",
    }
    path["get"]["parameters"].insert(0, name)
    return path


def _get(
    name: str,
    summary: str,
    ok: Json,
    further: Json | None = None,
    *,
    etag: bool = False,
) -> Json:
    parameters = [{"$ref": "#/components/parameters/RequestId"}]
    if etag:
        parameters.append({"$ref": "#/components/parameters/IfNoneMatch"})
    return {
        "get": {
            "operationId": name,
            "summary": summary,
            "description": f"{summary}.",
            "tags": ["service"],
            "parameters": parameters,
            "responses": dict(sorted({"200": ok, **(further or {}), **refused(406, 422)}.items())),
        }
    }


def _text(words: str, media: str, example: str) -> Json:
    response = answered(words, {"type": "string"}, cached=media == "text/html")
    content = {"schema": {"type": "string"}, "example": example}
    return {**response, "content": {media: content}}
