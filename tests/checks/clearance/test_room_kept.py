"""Room above units and equipment, and the working space before a condenser, in whole answers."""

import msgspec
import pytest

from service.check import BRIEF
from service.checks.clearance import CHECK
from service.checks.clearance.request import ClearanceRequest
from tests.checks.clearance.random_requests import Facts

UNIT: Facts = {
    "id": "unit-a",
    "width": 8,
    "height": 30,
    "depth": 10,
    "standoff": 1,
    "bottom": 18,
    "worked_on_live": False,
    "clearances": {"top": 12},
}
LIGHT: Facts = {"kind": "equipment", "what": "light", "left": 40, "width": 6, "height": 6}
GAS_METER: Facts = LIGHT | {"what": "gas_meter", "bottom": 0}
CONDENSER: Facts = {
    "kind": "condenser",
    "left": 24,
    "width": 30,
    "out": 50,
    "depth": 30,
    "height": 36,
    "service_side": "front",
}
#: A vent that is known, and far away.
FAR_VENT: Facts = {"kind": "gas_vent", "left": 900, "out": 4, "height": 40}
FREE = [(0.0, 112.0)]
BESIDE = [(0.0, 32.0), (46.0, 112.0)]


@pytest.mark.parametrize(
    "thing, unit, expected",
    [
        # The unit's top is at 48 in, and its maker asks 12 in above: up to 60 in.
        (LIGHT | {"bottom": 60}, {}, FREE),
        (LIGHT | {"bottom": 59.5}, {}, BESIDE),
        (LIGHT | {"bottom": 59.5}, {"clearances": {}}, FREE),
        # 6 in stay above a gas meter; service standards of a gas utility.
        (GAS_METER | {"height": 12}, {}, FREE),
        (GAS_METER | {"height": 12.5}, {}, BESIDE),
        # 36 + 60 in stay free over a condenser; common practice, no source.
        (CONDENSER, {"bottom": 96}, FREE),
        (CONDENSER, {"bottom": 95.5}, [(0.0, 16.0), (54.0, 112.0)]),
    ],
)
def test_what_is_above_keeps_its_room(
    thing: Facts, unit: Facts, expected: list[tuple[float, float]]
) -> None:
    """Left edges to 1/16 in; derived by hand: a unit of 8 in on a wall of 120 in."""
    assert permitted(thing, unit) == expected


@pytest.mark.parametrize(
    "volts, expected",
    [
        # 11 + 36 = 47 of 50 in before the condenser: only its sides of 12 in are kept.
        (150, [(0.0, 4.0), (66.0, 112.0)]),
        # 11 + 42 = 53: no 30 in are left between the corner and the condenser at 24 in.
        (151, [(66.0, 112.0)]),
    ],
)
def test_a_condenser_is_grounded_metal_opposite(
    volts: float, expected: list[tuple[float, float]]
) -> None:
    """Left edges to 1/16 in; NEC 2023, Table 110.26(A)(1), condition 2."""
    assert permitted(CONDENSER, {"worked_on_live": True, "volts_to_ground": volts}) == expected


def permitted(thing: Facts, unit: Facts) -> list[tuple[float, float]]:
    wall = {"kind": "wall", "id": "side", "length": 120, "objects": [thing, FAR_VENT]}
    request = msgspec.convert({"units": [UNIT | unit], "places": [wall]}, ClearanceRequest)
    places = CHECK.run(request, BRIEF).places[0].units[0]
    return [(place.from_in, place.to_in) for place in places.permitted]
