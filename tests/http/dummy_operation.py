"""Operations that calculate nothing: what they cost and answer is the frame's alone."""

from __future__ import annotations

import time
from typing import Annotated, Any, Literal

from msgspec import UNSET, Meta, Struct, UnsetType, structs

from service.check import FieldError, Includes, Operation, Refused
from service.facts import FactOneOf, FactRange, FactUnknown, Load
from service.quantities.fields import SAFE_REFERENCE, choice, number, out, quantity, said, text

_Length = Annotated[float, quantity("ft", "Length of the run.", ge=0, le=500, example=30.0)]
_Colour = Literal["red", "blue"]


class DummyRequest(Struct, forbid_unknown_fields=True, kw_only=True):
    """A little of everything that a request may have."""

    loads: Annotated[list[Load], Meta(description="Loads.", min_length=1, max_length=60)]
    length: _Length | FactRange[_Length] | FactOneOf[_Length] | FactUnknown | None = None
    colour: Annotated[_Colour, choice("Colour.", example="red")] = "red"
    note: Annotated[str, text("A note.", example="north wall", max_length=80)] | None = None
    tags: Annotated[
        dict[
            Annotated[str, text("Name.", example="a", max_length=8)],
            Annotated[int, Meta(ge=0, le=9)],
        ],
        Meta(description="Numbers by name.", max_length=4),
    ] = {}
    predicted_ms: Annotated[
        float, number("What `work` says.", ge=0, le=10_000, example=1.0, unit="ms")
    ] = 0.0
    busy_ms: Annotated[
        float, number("How long it computes.", ge=0, le=2000, example=1.0, unit="ms")
    ] = 0.0
    fault: Annotated[
        Literal["none", "refused", "refusals", "raised", "nan"],
        choice("How it fails.", example="none"),
    ] = "none"
    reference: (
        Annotated[str, text("Echoed.", example="lead-1", max_length=64, pattern=SAFE_REFERENCE)]
        | None
    ) = None


class DummyRow(Struct, forbid_unknown_fields=True, kw_only=True):
    """One row of the answer, as a finding has it."""

    rule: Annotated[str, said("Rule.", example="dummy")]
    statement: Annotated[str, said("Sentence.", example="It is so.")]
    actual: Annotated[float, out("h", "Number found.", example=14.2, decimals=4)]
    limit: Annotated[float | None, out("h", "Limit.", example=24.0, decimals=4)] = None
    sources: Annotated[list[str], said("Sources.", example=["dummy"])] = []


class DummyAnswer(Struct, forbid_unknown_fields=True, kw_only=True):
    """An answer with the members that the frame itself touches."""

    verdict: Annotated[str, said("Verdict.", example="pass")]
    headline: Annotated[str, said("Headline.", example="sign")]
    rows: Annotated[list[DummyRow], said("Rows.", example=[])]
    reference: Annotated[str | None, said("Echo.", example="lead-1")] = None
    working: Annotated[list[DummyRow] | UnsetType, said("Working.", example=[])] = UNSET
    series: Annotated[list[float] | UnsetType, out("h", "Series.", example=[0.5], decimals=2)] = (
        UNSET
    )


def _row(place: int) -> DummyRow:
    return DummyRow(
        rule=f"dummy-rule-{place}",
        statement=f"Invented row {place}: the chosen loads are held 14.2 h of 24 h at high use.",
        actual=14.21234567 + place,
        limit=24.0,
        sources=["dummy/row/column"],
    )


_ANSWER = DummyAnswer(
    verdict="conditional",
    headline="sign, subject to nothing at all.",
    rows=[_row(place) for place in range(14)],
)


def run(request: Any, includes: Includes) -> DummyAnswer:
    """Return the answer, after as much computing as the request asks for."""
    if request.fault == "raised":
        raise RuntimeError("secret detail of the fault")
    if request.fault == "refused":
        raise Refused([FieldError("/note", "write another note")])
    until = time.perf_counter() + request.busy_ms / 1000.0
    while time.perf_counter() < until:
        sum(range(200))
    given = structs.replace(_ANSWER, reference=request.reference)
    if request.fault == "nan":
        given.rows = [structs.replace(_row(0), actual=float("nan"))]
    if "working" in includes:
        given.working = [_row(0)]
    if "series" in includes:
        given.series = [0.125, 1.0]
    return given


def refusals(request: Any) -> list[FieldError]:
    """Return the rule between fields that the dummy has."""
    if request.fault == "refusals":
        return [FieldError("/colour", "write red"), FieldError("/note", "leave it out")]
    return []


def operation(**changed: Any) -> Operation:
    """Return the operation, some of its record changed."""
    record: dict[str, Any] = {
        "id": "dummy",
        "title": "Dummy",
        "description": "Calculates nothing.",
        "tag": "Checks",
        "request": DummyRequest,
        "answer": DummyAnswer,
        "run": run,
        "work": lambda request: request.predicted_ms,
        "refusals": refusals,
        "limit": 64 * 1024,
    }
    return Operation(**(record | changed))


#: A body of about 3 kB: fifteen invented loads with everything stated.
BODY: dict[str, Any] = {
    "loads": [
        {
            "kind": "own",
            "name": f"Invented load {place}",
            "watts": 100.0 + place,
            "watts_low": 80.0,
            "watts_high": 150.5,
            "quantity": 1,
            "hours_per_day": 5.25,
            "duty": 0.5,
            "tier": "normal",
            "season": "all",
            "windows": [{"start_hour": 17, "end_hour": 23}],
        }
        for place in range(15)
    ],
    "length": {"as": "range", "low": 5, "high": 50},
    "reference": "lead-0042",
}
