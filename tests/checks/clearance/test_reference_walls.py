"""Invented walls worked out by hand: where one unit may stand, and how many fit and where."""

from collections.abc import Sequence

import pytest

from service.checks.clearance.arrange import arrange, largest_count
from service.checks.clearance.door_sweep import door_sweep
from service.checks.clearance.left_edges import left_edges
from service.checks.clearance.walkway_left import walkway_left
from service.checks.clearance.wall_lane import KeepOut, Unit, Wall
from tests.checks.clearance.walls import IN, keep_out, panel, solid, strip, unit, wall

A = unit()
NEAR = unit(gap=6)
DEEP = unit(depth=14)
FENCE = strip(0, 240, 60)
Spans = Sequence[tuple[float, float]]


def swept(side: str, angle: float) -> KeepOut:
    """Return the sweep of the door at 50 to 86, its leaf 36 wide."""
    found = door_sweep(50 * IN, 86 * IN, side, 36 * IN, angle, 1 * IN)
    assert found
    return keep_out(found[0] / IN, found[1] / IN, 0, 80)


DOOR_180 = (keep_out(50, 86, 0, 80, 36), swept("right", 180))
DOOR_90 = (solid(50, 86, 0, 80), swept("right", 90))
CASES = [
    # id, wall, unit, left edges of one unit, positions of the most units [in]
    ("G1: 4 x 26 + 3 x 36 = 212 of 240", wall(240, FENCE), A, [(0, 214)], [0, 62, 124, 186]),
    (
        "G1b: 32 n - 6 within 240",
        wall(240, FENCE),
        NEAR,
        [(0, 214)],
        [0, 32, 64, 96, 128, 160, 192],
    ),
    (
        "G2: window 36 in away at the same height",
        wall(240, FENCE, keep_out(100, 136, 36, 84, 36)),
        A,
        [(0, 38), (172, 214)],
        [0, 172],
    ),
    (
        "G4: sill exactly 36 in above the unit",
        wall(240, FENCE, keep_out(100, 136, 94, 120, 36)),
        A,
        [(0, 214)],
        [0, 62, 124, 186],
    ),
    ("G5: dwelling door, 180 degrees", wall(150, *DOOR_180), A, [(122, 124)], [122]),
    (
        "G5b: door of a separated garage, 90 degrees",
        wall(150, *DOOR_90),
        A,
        [(0, 24), (86, 124)],
        [0, 86],
    ),
    (
        "G6: vent of a gas regulator",
        wall(240, keep_out(60, 60, 30, 30, 36, (8, 8))),
        A,
        [(96, 214)],
        [96, 158],
    ),
    (
        "G6c: the same, 60 in",
        wall(240, keep_out(60, 60, 30, 30, 60, (8, 8))),
        A,
        [(120, 214)],
        [120, 182],
    ),
    (
        "G7: 11 + 36 = 47 of 48",
        wall(240, strip(0, 240, 48)),
        A,
        [(0, 214)],
        [0, 62, 124, 186],
    ),
    ("G7b: 15 + 36 = 51 of 48", wall(240, strip(0, 240, 48)), DEEP, [], []),
    (
        "G8: fence nearer from 80 to 150",
        wall(240, strip(0, 80, 60), strip(80, 150, 44), strip(150, 240, 60)),
        A,
        [(0, 54), (150, 214)],
        [0, 150, 212],
    ),
    (
        "G9: working space of a panel slides to 26 to 56",
        wall(120, panel(40, 54)),
        A,
        [(0, 14), (54, 94)],
        [0, 62],
    ),
    (
        "G10: condenser with its sides",
        wall(240, solid(108, 182, 0, 36)),
        A,
        [(0, 82), (182, 214)],
        [0, 62, 182],
    ),
    (
        "G11: window round the corner, 9 in farther out than the unit",
        wall(240, keep_out(0, 0, 40, 80, 36, (20, 50))),
        A,
        [((36**2 - 9**2) ** 0.5, 214)],
        [34.8568501158667, 96.8568501158667, 158.8568501158667],
    ),
    (
        "G11c: the same, 36 in farther out",
        wall(240, keep_out(0, 0, 40, 80, 36, (47, 80))),
        A,
        [(0, 214)],
        [0, 62, 124, 186],
    ),
]


@pytest.mark.parametrize(
    "where, kind, spans, row", [c[1:] for c in CASES], ids=[c[0] for c in CASES]
)
def test_a_wall_worked_out_by_hand(
    where: Wall, kind: Unit, spans: Spans, row: Sequence[float]
) -> None:
    """Places and row to 1e-9 m; derived by hand."""
    found = left_edges(where, kind).allowed
    assert len(found) == len(spans)
    for place, expected in zip(found, spans, strict=True):
        assert place == pytest.approx([end * IN for end in expected], abs=1e-9)
    stood = arrange(where, (kind,), (9,), None)
    assert [x for _, x in stood.positions] == pytest.approx([x * IN for x in row], abs=1e-9)
    assert largest_count(where, kind, 9) == len(row)
    assert not stood.complete


@pytest.mark.parametrize(
    "clear, before, after",
    [
        (((0, 240, 60),), 60, 49),  # G1: 60 - 11
        (((0, 240, 48),), 48, 37),  # G7: 48 - 11
        (((0, 80, 60), (80, 150, 44), (150, 240, 60)), 44, 44),  # G8: nothing stands before 44
    ],
)
def test_what_way_is_left(
    clear: Sequence[tuple[float, float, float]], before: float, after: float
) -> None:
    """The way left before the wall in the cases of the same name; derived by hand."""
    where = wall(240, *(strip(*piece) for piece in clear))
    row = arrange(where, (A,), (9,), None).positions
    found = walkway_left(where, (A,), row)
    assert found == pytest.approx((before * IN, after * IN), abs=1e-9)
