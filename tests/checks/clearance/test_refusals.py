"""Requests that fit the contract and cannot be: which field is refused, and what remedies it."""

from __future__ import annotations

import msgspec
import pytest

from service.checks.clearance.refusals import refusals
from service.checks.clearance.request import ClearanceRequest
from service.facts.siting_spans import SPANS
from service.http.schema import Components
from tests.checks.clearance.contradictions import (
    CLEAN,
    DOOR,
    ON,
    OUT,
    PANEL,
    REFUSED,
    Body,
    Change,
    G,
    W,
    changed,
)


def refused(body: Body) -> list[str]:
    found = refusals(msgspec.convert(body, ClearanceRequest))
    assert all(error.detail.endswith(".") and len(error.detail) > 15 for error in found)
    return [error.pointer for error in found]


def test_a_clean_request_is_taken() -> None:
    assert refused(CLEAN) == []


@pytest.mark.parametrize("change, pointer, remedy", REFUSED, ids=[case[1] for case in REFUSED])
def test_a_contradiction_is_named_once_and_goes_with_its_remedy(
    change: Change, pointer: str, remedy: Change
) -> None:
    bad = changed(CLEAN, change)
    assert refused(bad) == [pointer]
    assert refused(changed(bad, remedy)) == []


TAKEN: list[tuple[str, Change]] = [
    ("a unit larger than the wall", {"/units/1/width": 240, f"{G}/walls/0/placed": []}),
    ("a vent beyond the wall's end", {f"{ON}/4/left": -40}),
    ("a condenser before the wall's end", {f"{ON}/3/left": 230}),
    ("equipment over equipment", {f"{ON}/3": PANEL | {"what": "electric_meter"}}),
    ("two doors hinged away from each other",
     {f"{ON}/0": DOOR | OUT | {"hinge": "left"}, f"{ON}/1": DOOR | OUT | {"left": 76}}),
    ("openings that overlap by no more than the errors",
     {f"{ON}/1/left": 45.5, f"{ON}/2/left": 100}),
    ("estimates that overlap", {f"{W}/measured_by": None, f"{ON}/1/left": 30}),
    ("a corner opening where nothing is said of the end",
     {f"{ON}/5/end": "right", f"{W}/right_end": None}),
    ("a place of which nothing is known", {W: {"kind": "by_telephone", "id": "x"}}),
]  # fmt: skip


@pytest.mark.parametrize("what, change", TAKEN, ids=[case[0] for case in TAKEN])
def test_what_may_be_is_taken(what: str, change: Change) -> None:
    assert refused(changed(CLEAN, change)) == [], what


def test_every_length_that_cannot_be_negative_is_held_to_it() -> None:
    components = Components()
    components.request(ClearanceRequest)
    for struct, spans in SPANS.items():
        fields = components.schemas[struct.__name__]["properties"]
        bare = {name: field["oneOf"][0] for name, field in fields.items() if "oneOf" in field}
        spanning = {name for name, form in bare.items() if form.get("minimum") == 0}
        assert spanning <= {*spans.above_0, *spans.not_below_0}, struct.__name__
    held = {struct.__name__ for struct in SPANS}
    assert {n for n, s in components.schemas.items() if "MeasuredLength" in str(s)} <= held | {
        "PlacedUnit"
    }
