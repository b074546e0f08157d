"""What schemathesis must know beside the contract: rules that JSON Schema cannot say.

Data that it makes *inside* the contract are
mended where they break one of the rules below, so that the service may be held to accept every one
of them. Data outside the contract are left alone, and no case is filtered out.

- A text with a unit lies within the field's bounds, which the contract can say of numbers alone.
- The numbers of a range are in order: low <= likely <= high.
- Own watts are in order: watts_low <= watts <= watts_high.
- A load is in use no longer than its windows are open.
- The candidates of a list have ids of their own.
- A document is the export of a meter, in JSON and raw.
- A year has all its hours.
- A year's standard time is near that of the sun, and its light is that of its place's sun.
- A generator stops at a higher charge than it starts at, and burns less at half load.
- An inverter has one continuous rating, and surge ratings that fall with time; the facts of a motor
  agree; there is a source, and 120 V are no 240 V.
- Heat leaves no more at the worst than at the low end, and there no more than at the high end; it
  speaks of an inverter that is stated.
- What is on a wall or placed on it lies within it, openings beside each other; a garage has each
  wall once, and its vehicles fit; handles and pieces are those of their box; a trench is no longer
  than its way, and every rule is confirmed once.
- A circuit has amps or kW, no breaker above its nameplate's, terminals whose range is one.

Of the bodies whose outage is a matter of the date one in sixty stays so, since each runs a year,
and of the assessments one in 480;
the others lose the facts that make it one, and are held to everything else; of a site's candidates
one in four keeps the size of its unit. So does a body that
the service itself predicts to take too long.

Beside schemathesis's own checks, an answer is held to the contract in its closed form: published
answers are open, so that a field the contract lacks would pass otherwise.
"""

from __future__ import annotations

import json
from typing import Any

import msgspec
import schemathesis
from schemathesis import GenerationMode, HookContext

from service.app import operations
from service.check import JSON, MSGPACK
from service.http.answering import Answering
from service.http.problem import Problem
from service.http.problem_types import PROBLEM_TYPES
from tests.contract.mending import mend, readable, thinned, undated
from tests.contract.subject import validator

RAW = "application/octet-stream"


#: Structs of a site that are drawn at the operation that reads them alone.
_DRAWN_ELSEWHERE = (
    ("Home", "existing_storage"),
    ("Home", "siting_readings"),
    ("Home", "anchorage"),
    ("Home", "motors"),
    ("Home", "battery_place"),
    ("Home", "battery_run"),
    ("Candidate", "siting"),
    ("Candidate", "unit"),
    ("Candidate", "derating"),
    ("Candidate", "inverter"),
    ("Equipment", "generator"),
)


@schemathesis.hook
def before_load_schema(_context: HookContext, raw_schema: dict[str, Any]) -> None:
    """Draw what one check reads at its own operation: a site tells places by telephone.

    The same structs stand in both, every field of them takes some tens of requests, and a whole
    assessment takes a hundred times as long as one check.
    """
    schemas = raw_schema["components"]["schemas"]
    for struct, field in _DRAWN_ELSEWHERE:
        del schemas[struct]["properties"][field]
    # What is on a wall is the same list on every kind of wall: all of it is drawn on one of them.
    for struct in ("GarageWall", "SitingRoom"):
        schemas[struct]["properties"]["objects"]["items"] = {"$ref": "#/components/schemas/Opening"}
    told = {name: schemas["CoarsePlace"]["properties"][name] for name in ("kind", "id", "where")}
    schemas["Home"]["properties"]["battery_spots"]["items"] = {
        "type": "object",
        "properties": told,
        "required": ["kind", "id"],
        "additionalProperties": False,
    }


@schemathesis.hook
def map_case(context: HookContext, case: Any) -> Any:
    """Mend the body of a case that is meant to be accepted."""
    operation = context.operation
    positive = case.meta and case.meta.generation.mode is GenerationMode.POSITIVE
    if operation is None or not positive:
        return case
    document = operation.schema.raw_schema
    content = operation.definition.raw.get("requestBody", {}).get("content", {})
    if case.media_type == RAW:
        case.body = readable(repr(case.body)).encode()
    elif case.media_type in content:
        made = mend(document, content[case.media_type]["schema"], case.body)
        case.body = _taken(operation.path, thinned(made))
    return case


@schemathesis.hook
def before_call(context: HookContext, case: Any, _kwargs: Any) -> None:
    """Mend a case of the contract's own examples, and thin all: some phases call no other hook."""
    if not case.meta or case.meta.generation.mode is not GenerationMode.POSITIVE:
        return
    map_case(context, case)
    case.body = _taken(case.operation.path, thinned(case.body))


def _taken(path: str, body: Any) -> Any:
    """Return the body, without what runs a year where that would be too much work."""
    if path not in _TAKING or not isinstance(body, dict):
        return body
    try:
        _TAKING[path].take(json.dumps(body).encode())
    except Problem as problem:
        if problem.type.uri == PROBLEM_TYPES["too-much-work"].uri:
            return undated(body)
    return body


_TAKING = {operation.path: Answering(operation) for operation in operations()}


@schemathesis.deserializer(MSGPACK)
def from_msgpack(_context: Any, response: Any) -> Any:
    """Return a MessagePack answer as the value that its JSON twin holds."""
    return msgspec.msgpack.decode(response.content)


@schemathesis.check
def no_field_beyond_the_contract(_context: Any, response: Any, case: Any) -> None:
    """Fail where an answer has a field that the contract does not describe."""
    answer = _ANSWERS.get(case.operation.path)
    media = response.headers.get("content-type", [""])[0]
    if answer is None or response.status_code != 200 or media != JSON:
        return
    errors = list(validator(answer, closed_answers=True).iter_errors(response.json()))
    assert not errors, errors[0].message


_ANSWERS = {operation.path: operation.answer.__name__ for operation in operations()}
