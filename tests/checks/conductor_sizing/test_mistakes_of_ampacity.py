"""Mistakes often made on ampacity, each shown by a whole answer not to be made."""

import pytest

from service.findings import Finding
from tests.checks.conductor_sizing.requests import MARKED, Body, answer, body, both, rules

NEAR: Body = {"length": 10, "place": "indoors", "ambient": 86, "way": "pvc40"}
INVERTER: Body = {"kind": "inverter_output", "most_breaker_a": None, "neutral": "none"}
STORAGE: Body = {"most_breaker_a": None, "neutral": "none"}


def sizes(circuit: Body, **part: float) -> list[str | None]:
    """Return copper and aluminum of 10 ft indoors."""
    return [row.phase for row in both(body(circuit, NEAR | part))]


def told(made: Body, rule: str) -> Finding:
    """Return what a rule says of the copper."""
    return next(one for one in both(made)[0].findings if one.rule == rule)


def test_mistake_1_the_90_degree_column_is_no_final_ampacity() -> None:
    """110 A: 2 AWG has 115 A at 75 degC, 3 AWG at 90; aluminum 1/0 has 120 A, 1 AWG 115 at 90."""
    marked = MARKED | {"marked": 90}
    rows = both(body(INVERTER | {"amps": 88, "near": marked, "far": marked}, NEAR))
    assert [(row.phase, row.ampacity_a) for row in rows] == [("2", 115), ("1/0", 120)]


def test_mistake_2_factors_start_at_90_degrees_and_stand_alone() -> None:
    """150 A, four conductors: 3/0 has 225 x 0.8 = 180 A, above the 175 A below its 200 A.

    From 75 degC 200 x 0.8 = 160 A would not be protected; 187.5 A through 0.8 would ask for 234 A.
    Source: 225 x 0.8 = 180 A by a specification that is public, its section 16112.
    """
    copper, _ = both(body(INVERTER | {"amps": 150}, NEAR | {"other_conductors": 2}))
    assert (copper.phase, copper.ampacity_a, copper.breaker_a) == ("3/0", 180, 200)


def test_mistake_2_a_quarter_is_added_once() -> None:
    """45.8 and 33.65 A: 99.31 A take 3 AWG; 124.1 A would take 1 AWG. Source: a published case."""
    found = answer(body(INVERTER | {"amps": 45.8 + 33.65}, NEAR))
    assert found.raised_a == pytest.approx(99.31, abs=0.005)
    assert found.materials[0].phase == "3"


# Amps, material, size, what its ampacity alone would take. Source: NEC 2023 (NFPA 70) 240.4(D) and
# Table 310.16 at 75 degC: 26 A raised are 32.5 A, 35 A of 10 AWG carry them, its cap is 30 A.
CAPS = [(26, 0, "8", "10"), (16, 0, "12", "14"), (16, 1, "10", "12")]


@pytest.mark.parametrize("amps, material, size, uncapped", CAPS)
def test_mistake_4_small_conductors_are_capped(
    amps: float, material: int, size: str, uncapped: str
) -> None:
    row = both(body(INVERTER | {"amps": amps}, NEAR))[material]
    assert (row.phase, row.governing) == (size, "small-conductor")
    terminal = next(one for one in row.findings if one.rule == "terminal-temperature")
    assert f"takes {uncapped} AWG" in terminal.statement


# Amps, copper of three sets. Source: NEC 2023 (NFPA 70) 240.4(B) and (C), 240.6(A). 570 A stand
# behind 800 A: 3 x 255 A of 250 kcmil are above 700 A, the next rating below. 700 A stand behind
# 1,000 A: 3 x 310 A of 350 kcmil are above 800 A, and no round-up is left: 3 x 335 A.
SETS = [(570, "250"), (700, "400")]


@pytest.mark.parametrize("amps, copper", SETS)
def test_mistake_5_the_next_size_up_ends_at_800_a(amps: float, copper: str) -> None:
    assert sizes(INVERTER | {"amps": amps, "sets": 3})[0] == copper


# Volts, neutral, other conductors beside, copper. 48 A of storage behind 60 A at 104 degF: 6 AWG
# has 75 x 0.91 = 68 A, with more than three conductors 55 A. The equipment ground is always there.
COUNTS = [
    (240, "none", 1, "6"),
    (240, "unbalance", 1, "6"),
    (240, "unbalance", 2, "4"),
    (208, "unbalance", 1, "4"),
    (240, "unbalance_and_source", 1, "4"),
]


@pytest.mark.parametrize("volts, neutral, others, copper", COUNTS)
def test_mistake_6_what_counts_as_current_carrying(
    volts: float, neutral: str, others: int, copper: str
) -> None:
    """Neither a ground nor the neutral of 120/240 V; the neutral beside two phases of a wye."""
    part = NEAR | {"ambient": 104, "other_conductors": others}
    assert both(body({"volts": volts, "neutral": neutral}, part))[0].phase == copper


def test_mistake_13_a_roof_adds_60_degrees_close_above_it_and_nothing_higher() -> None:
    """8 AWG THWN, 90 degF and 1/2 in: 150 degF, 0.33 and 16.5 A. Source: a published case of 2023.

    By the table of 2014 and before 1 in would add 40 degF and 12 in 30: 0.58 and 0.67, not 0.94.
    """
    roof: Body = {"length": 10, "place": "rooftop", "ambient": 90, "way": "emt"}
    circuit = INVERTER | {"amps": 12}
    low, high, higher = (
        body(circuit, roof | {"roof_height": inches}, insulation="thwn") for inches in (0.5, 1, 12)
    )
    assert (both(low)[0].phase, both(low)[0].ampacity_a) == ("8", 16.5)
    assert "0.33 of the ampacity" in told(low, "conditions-of-use").statement
    for made in (high, higher):
        assert both(made)[0].phase == "14"
        assert "0.94 of the ampacity" in told(made, "conditions-of-use").statement


# Amps, both terminals, ambient [degF], others beside, material, size, what a table of before 2011
# would take. Of storage, so that the conductors carry as much as the breaker. Source: Table 310.16
# as harmonised and as transcribed of the 1990s: 1 AWG copper 145 and 150 A at 90 degC, through
# 0.96 x 0.7; 6 AWG aluminum 55 and 60 A at 90 degC, through 0.87; 8 AWG 35 and 30 A at 60 degC.
OLD_VALUES = [
    (80, 75, 95, 5, 0, "1/0", "1"),
    (40, 75, 113, 0, 1, "4", "6"),
    (28, 60, 86, 0, 1, "8", "6"),
]


@pytest.mark.parametrize("amps, marked, ambient, others, material, size, before", OLD_VALUES)
def test_mistake_14_ampacities_of_before_2011(
    amps: float, marked: int, ambient: float, others: int, material: int, size: str, before: str
) -> None:
    end = MARKED | {"marked": marked}
    circuit = STORAGE | {"amps": amps, "near": end, "far": end}
    assert sizes(circuit, ambient=ambient, other_conductors=others)[material] == size != before


# Ambient [degF], copper. 120 A of storage behind 150 A: 1/0 has 170 A at 90 degC, 154.7 A through
# 0.91 up to 40 degC and 147.9 A through 0.87 above; between both bands 41 degC would leave 153 A.
BANDS = [(104, "1/0"), (105.8, "2/0"), (113, "2/0")]


@pytest.mark.parametrize("ambient, copper", BANDS)
def test_mistake_15_bands_of_temperature_are_not_interpolated(ambient: float, copper: str) -> None:
    assert sizes(STORAGE | {"amps": 120}, ambient=ambient)[0] == copper


@pytest.mark.parametrize("kind", ["storage_output", "inverter_output", "backup_feeder"])
def test_mistake_16_the_83_percent_of_a_service_are_not_for_these_circuits(kind: str) -> None:
    """200 A: 3/0 and 250 kcmil; 2/0 and 4/0 are those of Table 310.12 for a whole dwelling."""
    assert sizes(STORAGE | {"kind": kind, "amps": 160}) == ["3/0", "250"]


def test_mistake_17_no_sets_in_parallel_below_1_0() -> None:
    """Two sets of 100 A raised: 3 AWG would carry them."""
    rows = both(body(INVERTER | {"amps": 160, "sets": 2}, NEAR))
    assert [(row.phase, row.governing) for row in rows] == [("1/0", "parallel-sets")] * 2
    assert rules(rows[0])["parallel-sets"] == "pass"
