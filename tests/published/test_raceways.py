"""Raceways, against geometry and pipe dimensions, and their fill."""

import math
from pathlib import Path

import numpy as np
import pytest

from service.published.burial_cover import BurialLocation
from service.published.loader import load
from service.published.parse import parse
from service.published.raceways import fill_limit, fill_row, raceway_row, raceways
from service.published.source import Standing

PIPES = parse(
    "pipe_dimensions",
    (Path(__file__).parents[1] / "reference" / "pipe_dimensions.csv").read_text(encoding="utf-8"),
)
SQUARE_INCH = 0.0254**2

# raceway | trade size | inside diameter [in] | area [in2] | standing. Source: Chapter 9, Table 4:
# EMT public transcriptions; PVC re-derived from ASME B36.10, Schedule 40 of 3 in with a published
# 40 percent of 2.907; RMC a textbook, 4 in from memory; the rest one transcription.
PINNED = (
    ("emt", "1/2", 0.622, 0.304, Standing.PUBLISHED),
    ("emt", "1", 1.049, 0.864, Standing.PUBLISHED),
    ("emt", "4", 4.334, 14.753, Standing.SECONDARY),
    ("pvc40", "1", 1.029, 0.832, Standing.DERIVED),
    ("pvc40", "3", 3.042, 7.268, Standing.PUBLISHED),
    ("pvc80", "1-1/4", 1.255, 1.237, Standing.DERIVED),
    ("pvc80", "4", 3.786, 11.258, Standing.PUBLISHED),
    ("rmc", "2", 2.083, 3.408, Standing.SECONDARY),
    ("rmc", "4", 4.050, 12.882, Standing.FROM_MEMORY),
    ("imc", "1", 1.105, 0.959, Standing.SECONDARY),
    ("fmc", "3/8", 0.384, 0.116, Standing.SECONDARY),
    ("lfmc", "3/4", 0.830, 0.541, Standing.SECONDARY),
    ("lfnc_a", "1", 1.043, 0.854, Standing.SECONDARY),
    ("ent", "2", 2.020, 3.205, Standing.SECONDARY),
)


@pytest.mark.parametrize("kind, trade_size, inches, square_inches, standing", PINNED)
def test_each_trade_size_has_its_inside(
    kind: str, trade_size: str, inches: float, square_inches: float, standing: Standing
) -> None:
    found = raceways()[kind]
    place = found.trade_sizes.index(trade_size)
    assert found.inside_diameters[place] == pytest.approx(inches * 0.0254, rel=1e-12)
    assert found.inside_areas[place] == pytest.approx(square_inches * SQUARE_INCH, rel=1e-12)
    assert load("raceway_sizes").cite(raceway_row(kind, trade_size)).standing is standing


@pytest.mark.parametrize("key", load("raceway_sizes").rows)
def test_an_area_is_that_of_the_circle(key: str) -> None:
    table = load("raceway_sizes")
    circle = math.pi / 4 * table.number(key, "inside_diameter") ** 2
    assert table.number(key, "area") == pytest.approx(circle, abs=0.00051)


@pytest.mark.parametrize("schedule", ["40", "80"])
@pytest.mark.parametrize("trade_size", PIPES.rows)
def test_pvc_conduit_is_pipe_of_its_schedule(schedule: str, trade_size: str) -> None:
    # Source: ASME B36.10 dimensions; the wall is a least wall, to which half of the tolerance of
    # ASTM D1785 comes on each side: the larger of 0.020 in and 12 percent.
    outside = PIPES.number(trade_size, "outside_diameter")
    thick = PIPES.number(trade_size, f"wall_{schedule}")
    inside = outside - 2 * thick - max(0.020, 0.12 * thick)
    found = load("raceway_sizes").number(f"pvc{schedule}/{trade_size}", "inside_diameter")
    assert found == pytest.approx(inside, abs=0.0011)


def test_every_raceway_has_sizes_that_rise() -> None:
    assert list(raceways()) == list(load("raceways").rows)
    assert sum(len(kind.trade_sizes) for kind in raceways().values()) == 91
    for kind in raceways().values():
        assert (np.diff(kind.inside_diameters) > 0).all()
        assert (np.diff(kind.inside_areas) > 0).all()
        assert kind.trade_sizes[-1] in ("2", "4")


def test_the_thicker_wall_leaves_less_room() -> None:
    thin, thick = raceways()["pvc40"], raceways()["pvc80"]
    assert thin.trade_sizes == thick.trade_sizes
    assert (thick.inside_areas < thin.inside_areas).all()


def test_a_kind_says_which_columns_of_other_tables_are_its() -> None:
    for key, kind in raceways().items():
        assert kind.material == ("pvc" if key[:3] in ("pvc", "lfn", "ent") else "steel")
        assert kind.cover is None or kind.cover in BurialLocation.__dataclass_fields__
    assert (raceways()["rmc"].cover, raceways()["pvc40"].cover) == ("rigid_metal", "nonmetallic")
    assert raceways()["emt"].cover is None


# conductors | nipple | part | row. Source: Chapter 9, Table 1, three public transcriptions; note 4
# a published code calculation.
@pytest.mark.parametrize(
    "conductors, nipple, part, row",
    [
        (1, False, 0.53, "one"),
        (2, False, 0.31, "two"),
        (3, False, 0.40, "over-two"),
        (40, False, 0.40, "over-two"),
        (1, True, 0.60, "nipple"),
        (5, True, 0.60, "nipple"),
    ],
)
def test_each_number_of_conductors_has_its_fill(
    conductors: int, nipple: bool, part: float, row: str
) -> None:
    assert float(fill_limit(conductors, nipple=nipple)) == part
    assert fill_row(conductors, nipple=nipple) == row


def test_an_unknown_number_has_no_fill() -> None:
    assert math.isnan(fill_limit(math.nan))
    assert fill_limit(np.array([[1, 2], [3, 4]])).tolist() == [[0.53, 0.31], [0.40, 0.40]]


# raceway | sum of conductors [in2] | nipple | trade size. Source: a textbook on commercial wiring;
# a published code calculation, read on from its sum.
@pytest.mark.parametrize(
    "kind, total, nipple, trade_size",
    [("rmc", 0.1442, False, "3/4"), ("rmc", 1.0106, True, "1-1/2")],
)
def test_trade_sizes_of_worked_examples(
    kind: str, total: float, nipple: bool, trade_size: str
) -> None:
    found = raceways()[kind]
    room = found.inside_areas * float(fill_limit(5, nipple=nipple))
    assert found.trade_sizes[int(np.argmax(room >= total * SQUARE_INCH))] == trade_size


def test_bands_of_fill_follow_one_another() -> None:
    table = load("conductor_fill")
    assert [table.number(key, "least") for key in table.rows] == [1.0, 2.0, 3.0, 1.0]
    assert [table.number_or_none(key, "most") for key in table.rows] == [1.0, 2.0, None, None]
