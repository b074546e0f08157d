"""The lists of conductors and raceways, against printed and derived numbers from outside."""

import math
from typing import Any, get_args

import pytest

from service.app import operations
from service.facts.run import SizeId
from service.http.reference_lists import reference_lists
from service.http.wiring_rows import ConductorRow, RacewayRow
from service.published.raceways import raceways
from tests.checks.conductor_sizing.requests import body, both
from tests.checks.conductor_sizing.test_published_cases import LONGEST


def rows(name: str) -> list[Any]:
    found = next(listed for listed in reference_lists(operations()) if listed.id == name)
    return list(found.content.rows)  # type: ignore[attr-defined]  # every list has its rows


CONDUCTORS: dict[str, ConductorRow] = {row.id: row for row in rows("conductors")}
RACEWAYS: dict[str, RacewayRow] = {row.id: row for row in rows("raceways")}


def test_every_size_that_a_request_may_name_is_listed_in_both_materials() -> None:
    copper = [row.size for row in CONDUCTORS.values() if row.material == "copper"]
    aluminum = [row.size for row in CONDUCTORS.values() if row.material == "aluminum"]
    assert copper[: len(get_args(SizeId))] == list(get_args(SizeId))
    # Table 310.16 has no aluminum of 14 AWG.
    assert aluminum == copper[1:]


@pytest.mark.parametrize("size", LONGEST.rows)
def test_ampacity_at_75_degrees(size: str) -> None:
    """The published table of longest runs states 80 % of it, of small conductors of their cap."""
    cap = {"14": 15.0, "12": 20.0, "10": 30.0}.get(size, math.inf)
    amps = min(CONDUCTORS[f"copper/{size}"].ampacity_75_a, cap)
    assert amps * 0.8 == pytest.approx(LONGEST.number(size, "amps"))


# Resistivity at 75 degC of copper of 100 and aluminum of 61 % IACS, 2 % longer in strand
# [ohm cmil/ft]. Source: IACS, 10.371 and 17.002 at 20 degC with 0.00393 and 0.00403 a kelvin.
RESISTIVITY = {
    "copper": 10.371 * (1 + 55 * 0.00393) * 1.02,
    "aluminum": 17.002 * (1 + 55 * 0.00403) * 1.02,
}


@pytest.mark.parametrize("row", CONDUCTORS.values(), ids=CONDUCTORS)
def test_the_resistance_is_that_of_the_metal(row: ConductorRow) -> None:
    expected = RESISTIVITY[row.material] / row.area_cmil * 1000
    assert row.dc_ohm_per_kft == pytest.approx(expected, rel=0.0055)


@pytest.mark.parametrize("row", CONDUCTORS.values(), ids=CONDUCTORS)
def test_the_area_is_that_of_the_gauge(row: ConductorRow) -> None:
    """0.005 in x 92 to the power of a thirty-ninth for each size. Source: ASTM B258."""
    inches = 0.001 * row.area_cmil**0.5
    if row.unit == "AWG":
        gauge = 1 - int(row.size[0]) if row.size.endswith("/0") else int(row.size)
        inches = 0.005 * 92 ** ((36 - gauge) / 39)
    assert row.area_mm2 == pytest.approx(math.pi / 4 * (25.4 * inches) ** 2, rel=0.003)


def test_a_number_that_no_table_prints_is_null() -> None:
    """Table 9 leaves out 700 kcmil and Table 5 ends at 1000; direct current has them all."""
    row = CONDUCTORS["copper/700"]
    assert row.ac_pvc_ohm_per_kft is row.reactance_steel_ohm_per_kft is None
    assert row.room_thhn_in2 is not None
    row = CONDUCTORS["aluminum/2000"]
    assert row.diameter_xhhw_in is row.room_thhn_in2 is None


def test_every_kind_of_raceway_is_listed() -> None:
    assert list(dict.fromkeys(row.way for row in RACEWAYS.values())) == list(raceways())


# Row, field, room [in2]. Source: NEC Chapter 9, Table 4, as printed in a published problem and in
# transcriptions: 3/4 in rigid metal conduit at 40 %; its 1-1/2 in nipple; 1 in EMT at 31 and 40 %.
ROOMS = [
    ("rmc/3/4", "more_in2", 0.220),
    ("rmc/1-1/2", "nipple_in2", 1.243),
    ("emt/1", "two_in2", 0.268),
    ("emt/1", "more_in2", 0.346),
]


@pytest.mark.parametrize("row, field, room", ROOMS)
def test_the_room_of_a_raceway(row: str, field: str, room: float) -> None:
    assert getattr(RACEWAYS[row], field) == pytest.approx(room, abs=0.0006)


@pytest.mark.parametrize("row", RACEWAYS.values(), ids=RACEWAYS)
def test_the_room_is_a_part_of_the_inside_and_never_rounded_up(row: RacewayRow) -> None:
    parts = [(row.one_in2, 0.53), (row.two_in2, 0.31), (row.more_in2, 0.4), (row.nipple_in2, 0.6)]
    for room, part in parts:
        assert -1e-9 <= row.inside_area_in2 * part - room < 1.0001e-4
    area = math.pi / 4 * row.inside_diameter_in**2
    assert row.inside_area_in2 == pytest.approx(area, rel=0.002, abs=0.0006)


def test_what_an_answer_takes_is_marked_so() -> None:
    """The trade size of an answer is the first that is taken and has the room listed."""
    copper, _ = both(body({"neutral": "none"}))
    (part,) = copper.raceways
    phase, ground = (CONDUCTORS[f"copper/{size}"] for size in (copper.phase, copper.ground))
    assert phase.room_thhn_in2 is not None
    assert ground.room_thhn_in2 is not None
    needed = 2 * phase.room_thhn_in2 + ground.room_thhn_in2
    fits = [r for r in RACEWAYS.values() if r.way == part.way and r.taken and r.more_in2 >= needed]
    assert part.trade_size == fits[0].trade_size
    assert [row.id for row in RACEWAYS.values() if not row.taken] == [
        row.id for row in RACEWAYS.values() if row.trade_size == "3/8"
    ]
