"""Units on the walls of a garage, held against where vehicles come in plan."""

from random import Random

import pytest

from service.checks.clearance.answer import ClearanceAnswer
from tests.checks.clearance.garage_path import Plan, exposed
from tests.checks.clearance.requests import answer, body, exactly, finding, garage, unit

WIDE = (24, 216, 96)
NARROW = (60, 180, 96)
LOW = (24, 216, 84)
#: Opening (from, to, height), plan of the unit (x1, x2, y1, y2), its bottom, wall, exposed [in].
CASES = [
    (WIDE, (100, 126, 229, 239), 18, "back", True),  # K1: in the path
    (WIDE, (100, 126, 229, 239), 48, "back", False),  # K2: at the top of the path
    (WIDE, (100, 126, 229, 239), 47, "back", True),
    (LOW, (100, 126, 229, 239), 36, "back", False),  # K3: opening of 84 within 90, unit at 36
    (LOW, (100, 126, 229, 239), 35, "back", True),  # K3: one inch lower
    ((24, 216, 90), (100, 126, 229, 239), 36, "back", False),
    ((24, 216, 90.5), (100, 126, 229, 239), 36, "back", True),
    (WIDE, (0, 26, 229, 239), 18, "back", True),  # K4: 24 to 26 in the path
    (NARROW, (34, 60, 229, 239), 18, "back", True),  # touches the path
    (NARROW, (0, 26, 229, 239), 18, "back", True),  # 34 from the path
    (NARROW, (0, 24, 229, 239), 18, "back", False),  # exactly 36 from it: not within
    (WIDE, (1, 11, 100, 126), 18, "left", False),  # K7: 13 from the path, 114 from the back
    (WIDE, (1, 11, 191, 217), 18, "left", True),  # 13 and 23
    (WIDE, (229, 239, 191, 217), 18, "right", True),  # the same on the other side
    (WIDE, (1, 11, 190, 216), 18, "left", False),  # exactly 24 from the back: not within
    (NARROW, (1, 11, 191, 217), 18, "left", False),  # 49 from the path
    ((11, 216, 96), (1, 11, 100, 126), 18, "left", False),  # touches the path, not in it
    ((6, 234, 96), (1, 11, 100, 126), 18, "left", True),  # K8: 6 to 11 in the path
    ((6, 234, 96), (229, 239, 100, 126), 18, "right", True),
]
#: Right end of a unit beside a path that begins at 60 in, and whether it is at the very edge.
EDGES = [(24.0, True), (23.51, True), (23.5, False), (23.0, False)]


def placed(plan: Plan) -> ClearanceAnswer:
    """Return the answer for the unit of a plan, hung there by hand; no length is in error."""
    back = plan.wall == "back"
    across, out = (plan.x2 - plan.x1, 240 - plan.y2) if back else (plan.y2 - plan.y1, plan.x1)
    # Facing a wall from inside: of the left one the back wall is at the right end.
    left = {"back": plan.x1, "left": plan.y1, "right": 240 - plan.y2}[plan.wall]
    if plan.wall == "right":
        out = 240 - plan.x2
    depth = plan.y2 - plan.y1 if back else plan.x2 - plan.x1
    first, last, height = plan.opening
    made = garage(
        side=plan.wall,
        vehicle_opening={"left": first, "width": last - first, "height": height},
        placed=[{"unit": "unit-a", "left": left}],
    )
    kind = unit(width=across, depth=depth, standoff=out, bottom=plan.bottom)
    return answer(body(exactly(made), units=[kind]))


def protected(found: ClearanceAnswer) -> bool:
    """Return whether the answer asks for barriers."""
    barriers = found.places[0].barriers is not None
    assert barriers is ("bollards" in finding(found, "vehicle-protection").statement)
    return barriers


@pytest.mark.parametrize("opening, plan, bottom, wall, expected", CASES)
def test_a_garage_worked_out_by_hand(
    opening: tuple[float, float, float],
    plan: tuple[float, float, float, float],
    bottom: float,
    wall: str,
    expected: bool,
) -> None:
    """Whether barriers are asked for; exact. 2022 CRC R328.8.1, from memory, not verified."""
    made = Plan(opening, *plan, bottom, wall)
    assert protected(placed(made)) is expected
    assert exposed(made) is expected


@pytest.mark.parametrize("x2, edge", EDGES)
def test_a_unit_at_the_edge_of_a_reach_is_told_of(x2: float, edge: bool) -> None:
    """Half an inch on the safe side; derived."""
    found = placed(Plan(NARROW, 0, x2, 229, 239, 18, "back"))
    assert not protected(found)
    assert ("half an inch" in finding(found, "vehicle-protection").statement) is edge


@pytest.mark.parametrize("seed", range(6))
def test_random_garages_are_read_as_in_plan(seed: int) -> None:
    """60 garages a seed, in whole inches: the three walls, every opening, high and low."""
    rng = Random(700 + seed)
    some = 0
    for _ in range(60):
        first = rng.randint(0, 100)
        opening = first, rng.randint(first + 80, 240), rng.choice([84, 90, 91, 96])
        wall, out, depth = rng.choice(["back", "left", "right"]), rng.randint(0, 3), 10
        along = rng.randint(0, 214)
        if wall == "back":
            where = along, along + 26, 240 - out - depth, 240 - out
        elif wall == "left":
            where = out, out + depth, along, along + 26
        else:
            where = 240 - out - depth, 240 - out, along, along + 26
        plan = Plan(opening, *where, rng.choice([12, 18, 35, 36, 47, 48]), wall)
        assert protected(placed(plan)) is exposed(plan), plan
        some += exposed(plan)
    assert 10 < some < 50
