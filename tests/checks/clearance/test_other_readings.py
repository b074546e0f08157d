"""Readings in which authorities differ: what each comes to, and that both results are shown."""

from typing import Any, get_args, get_type_hints

import pytest

from service.checks.clearance.other_readings import DOUBTS
from service.codes.siting_switches import siting_switches
from service.facts.siting_readings import SitingReadings
from tests.checks.clearance.requests import answer, body, exactly, garage, rules, unit


def test_every_switch_is_a_reading_of_the_request_and_is_doubted() -> None:
    """The table, the contract and the alternatives name the same switches and choices."""
    fields = get_type_hints(SitingReadings)
    for name, switch in siting_switches().items():
        assert set(get_args(get_args(fields[name])[0])) == set(switch.choices), name
    assert set(DOUBTS) == set(siting_switches())


def told(made: dict[str, Any], name: str) -> str | None:
    """Return the verdict under a reading; None where it is not among the alternatives."""
    found = [one for one in answer(made).alternatives if one.id == name]
    return str(found[0].verdict) if found else None


@pytest.mark.parametrize("there, shown", [(50, None), (70, "fail")])  # 24 more, 80 kWh allowed
def test_garages_may_share_one_limit_of_energy(there: float, shown: str | None) -> None:
    """IRC R328.5, from memory: how it groups garages is not known, so both are told."""
    made = body(
        exactly(garage(attached=False)),
        units=[unit(count=2)],
        existing=[{"where": "attached_garage", "energy": there}],
    )
    assert told(made, "garage-energy-reading") == shown
    read = made | {"readings": {"garage_energy": "together"}}
    assert rules(answer(read))["location-energy"] == (shown or "pass")


@pytest.mark.parametrize(
    "left, exposed",
    [(214, (True, True)), (0, (False, True)), (0.5, (True, True))],
)
def test_a_unit_at_the_very_edge_of_the_path_is_in_or_out(
    left: float, exposed: tuple[bool, bool]
) -> None:
    """A path from 62 to 178 in: 36 in beside it end at 26, the right side of a unit at 0."""
    opening = {"left": 62, "width": 116, "height": 96}
    if left == 214:
        opening = {"left": 62, "width": 117, "height": 96}
    place = exactly(garage(vehicle_opening=opening))
    place["walls"][0]["placed"] = [{"unit": "unit-a", "left": {"value": left, "within": 0}}]
    found = []
    for edge in ("less", "not_more"):
        made = body(place, readings={"vehicle_edge": edge})
        found.append(answer(made).places[0].barriers is not None)
    assert tuple(found) == exposed


def test_a_garage_may_need_the_door_that_closes_by_itself() -> None:
    """IRC 2024 R330.4, item 4: contested for garages, secondary; not in the 2021 code."""
    made = body(exactly(garage(side="left")))
    assert rules(answer(made)).get("room-door") is None
    read = made | {"readings": {"utility_door": "garages_too"}}
    assert rules(answer(read))["room-door"] == "conditional"
    older = read | {"edition": "ca-2022"}
    assert rules(answer(older)).get("room-door") is None
