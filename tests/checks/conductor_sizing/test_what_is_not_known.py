"""What nobody stated of a circuit is said, asked and never passed over."""

import pytest

from service.findings import Verdict
from tests.checks.conductor_sizing.requests import Body, answer, body, refused, rules

FAIL, OPEN, IF, PASS = Verdict
SUN = {"length": 60, "place": "rooftop", "ambient": 110, "way": "emt", "roof_height": 0.8}


def test_a_distance_alone_hangs_on_where_the_run_leads() -> None:
    """The same 60 ft take 6 AWG along a wall and 1/0 AWG on a roof: that is asked."""
    found = answer(body(run={"kind": "distance", "length": 60}))
    assert found.verdict is IF
    assert any("attic" in condition for condition in found.conditions)
    assert found.materials[0].phase == "6"
    roof = answer(body({}, {"length": 60, "place": "rooftop"}))
    assert roof.materials[0].phase == "1/0"
    asked = {question.pointer: question for question in found.questions}
    assert "It can change the size." in asked["/run"].why


def test_the_largest_breaker_of_a_nameplate_decides() -> None:
    found = answer(body({"most_breaker_a": None}))
    (asked,) = [q for q in found.questions if q.pointer == "/circuit/most_breaker_a"]
    assert asked.range == [50, 60]
    assert asked.can_change_verdict
    assert answer(body({"most_breaker_a": 50})).verdict is FAIL
    assert answer(body({"most_breaker_a": 60})).verdict is PASS


def test_a_feeder_has_no_nameplate() -> None:
    feeder = {"kind": "backup_feeder", "amps": 80, "most_breaker_a": None}
    assert answer(body(feeder)).verdict is PASS


def test_two_unmarked_terminals_are_tried_together() -> None:
    """Either at 75 degC leaves the other at 60; both together let a smaller size do."""
    bare = {"smallest": "14", "largest": "500"}
    circuit = {"kind": "inverter_output", "near": bare, "far": bare}
    found = answer(body(circuit, {"length": 10, "place": "indoors", "ambient": 86, "way": "emt"}))
    marked = [q for q in found.questions if q.pointer.endswith("/marked")]
    assert len(marked) == 2
    assert all("It can change the size." in question.why for question in marked)


def test_lugs_that_take_less_overturn_an_answer() -> None:
    """A lug of no more than 8 AWG does not take 60 A: 6 AWG in the 75 degC column."""
    found = answer(body({"far": {"marked": 75}, "near": {"marked": 75}}))
    assert found.verdict is IF
    assert {"/circuit/near/largest", "/circuit/far/largest"} <= {
        q.pointer for q in found.questions if q.can_change_verdict
    }


@pytest.mark.parametrize(
    "more, edition, size",
    [
        ({"state": "CA"}, "nec-2023", "6"),
        ({"state": "CA", "permit_date": "2025-12-01"}, "nec-2020", "1/0"),
        ({"state": "CA", "permit_date": "2026-11-01"}, "nec-2023", "6"),
    ],
)
def test_the_edition_goes_by_place_and_date(more: Body, edition: str, size: str) -> None:
    """0.8 in above a roof nothing is added since 2023, and 60 degF were before (7/8 in)."""
    found = answer(body({}, SUN, edition=None, **more))
    assert (found.basis.code_edition, found.materials[0].phase) == (edition, size)
    other = [one for one in found.alternatives if one.id == "other-edition"]
    assert bool(other) is ("permit_date" not in more)
    dates = [one for one in found.assumptions if one.pointer == "/permit_date"]
    assert bool(dates) is ("permit_date" not in more)


def test_an_edition_against_the_place_is_a_condition_and_both_are_shown() -> None:
    found = answer(body({}, SUN, state="CA", permit_date="2025-12-01"))
    assert rules(found.materials[0])["code-edition"] == "conditional"
    (other,) = [one for one in found.alternatives if one.id == "other-edition"]
    assert "1/0 AWG" in other.statement


def test_the_drop_of_a_solar_source_goes_by_its_own_amps() -> None:
    """10 A of a string size at 15.6 A by 690.8, and drop at 10 A."""
    source = {"kind": "pv_source", "amps": 10, "volts": 400, "most_breaker_a": 20}
    found = answer(body(source | {"neutral": "none"}, {"length": 300, "place": "indoors"}))
    assert found.raised_a == pytest.approx(15.625)
    drop = next(one for one in found.findings if one.rule == "voltage-drop")
    assert "at 10 A" in drop.statement
    assert found.materials[0].phase == "10"
    (other,) = [one for one in found.alternatives if one.id == "ground-not-grown"]
    assert "12 AWG" in other.statement


def test_a_load_that_is_not_continuous_is_not_raised() -> None:
    """Of a feeder; the output of a source counts as continuous whatever is said."""
    feeder = {"kind": "backup_feeder", "amps": 60, "most_breaker_a": 60, "continuous": False}
    assert answer(body(feeder)).raised_a == 60
    assert answer(body({"continuous": False})).raised_a == 60  # 1.25 x 48


@pytest.mark.parametrize(
    "circuit, segment, pointer",
    [
        ({"strings": 3}, {}, "/circuit/strings"),
        ({"kind": "pv_source", "other_a": 50}, {}, "/circuit/other_a"),
        ({}, {"cover": 18}, "/run/segments/0/cover"),
        ({}, {"under": "under_roads"}, "/run/segments/0/under"),
        ({}, {"roof_height": 1}, "/run/segments/0/roof_height"),
    ],
)
def test_what_has_no_use_is_refused(circuit: Body, segment: Body, pointer: str) -> None:
    wall = {"length": 50, "place": "outside_wall", "way": "pvc40"}
    assert refused(body(circuit, wall | segment)) == [pointer]


def test_a_nipple_may_lie_indoors() -> None:
    nipple = {"length": 2, "place": "indoor_nipple", "way": "emt", "ambient": 86}
    dry = answer(body({}, nipple, insulation="thhn"))
    assert dry.verdict is PASS
    assert answer(body({}, nipple | {"place": "nipple"}, insulation="thhn")).verdict is FAIL
    shared = answer(body({}, nipple | {"other_conductors": 9}, insulation="thhn"))
    assert shared.materials[0].phase == dry.materials[0].phase


def test_what_the_code_of_2026_says_is_not_known() -> None:
    found = answer(body(edition="nec-2026"))
    assert found.verdict is OPEN
    assert found.basis.code_edition is None
    assert found.materials[0].phase == answer(body()).materials[0].phase


def test_the_air_outdoors_may_come_from_a_climate_site() -> None:
    """The hottest month of Palm Springs, 0.4 % dry bulb, against the table's 115 degF."""
    bare = {"length": 50, "place": "outside_wall", "way": "pvc40"}
    indoors = bare | {"place": "indoors"}
    found = answer(body({}, bare, indoors, climate_site="palm_springs"))
    first, second = (one for one in found.assumptions if one.pointer.endswith("/ambient"))
    assert isinstance(first.value, float)
    assert 105 < first.value < 122
    assert second.value == 95


#: Amps of the circuit and of its neutral, sizes, drop of the heavier leg [V] over 150 ft. Source:
#: by hand with NEC Chapter 9, Table 9 [ohm/kft]: 0.31 of 4 AWG, 0.78 of 8 AWG.
UNBALANCED = [
    (40, 40, ("4", "8"), 0.15 * (0.31 * 40 + 0.78 * 40)),
    (40, 24, ("4", "8"), 0.15 * (0.31 * 40 + 0.78 * 24)),
    (40, 0, ("4", "8"), 0.15 * 0.31 * 40),
]


@pytest.mark.parametrize("amps, unbalance, sizes, drop", UNBALANCED)
def test_the_heavier_leg_drops_more(
    amps: float, unbalance: float, sizes: tuple[str, str], drop: float
) -> None:
    circuit = {
        "kind": "backup_feeder",
        "amps": amps,
        "unbalance_a": unbalance,
        "most_breaker_a": 70,
        "breaker_a": 70,
    }
    wire = {"length": 150, "place": "indoors", "ambient": 86, "way": "pvc40"}
    found = answer(body(circuit, wire)).materials[0]
    assert (found.phase, found.neutral) == sizes
    assert found.leg_drop_percent == pytest.approx(100 * drop / 120, rel=0.01)


def test_a_conductor_on_a_hot_roof_drops_more_than_the_tables_say() -> None:
    """4 AWG with 30 A in air of 76.7 degC runs at 83 degC, which is 2.5 % more than at 75.

    By hand: 76.7 + 60 (30 / 95)^2 = 82.7 degC; 0.31 ohm/kft of NEC Chapter 9, Table 9.
    """
    circuit = {"kind": "pv_output", "amps": 30, "most_breaker_a": 40, "neutral": "none"}
    roof = {"length": 100, "place": "rooftop", "ambient": 110, "roof_height": 0, "way": "emt"}
    found = answer(body(circuit, roof)).materials[0]
    assert found.phase == "4"
    ohm = 0.31 * 0.1 * (1 + 0.00323 * (76.7 + 60 * (30 / 95) ** 2 - 75))
    assert found.loss_w == pytest.approx(2 * 30**2 * ohm, rel=2e-3)
