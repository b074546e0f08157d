"""Sizes that cables come in and that terminals take, by whole answers."""

import pytest

from tests.checks.conductor_sizing.requests import MARKED, Body, answer, body, both, rules

NEAR: Body = {"length": 10, "place": "indoors", "ambient": 86}
FEEDER: Body = {"kind": "backup_feeder", "most_breaker_a": 150, "neutral": "none"}

# Way, amps, size and rule of the sizes at hand, copper and aluminum. Source: NEC 334.104 and others
# from memory, not verified: NM-B 14 to 2 AWG copper, 12 to 2 AWG aluminum; UF-B to 4/0 copper, its
# aluminum not collected; SE from 12 AWG copper and 10 AWG aluminum, its largest not collected.
CABLES = [
    # 150 A at 60 degC: 3/0 AWG copper, 4/0 aluminum.
    ("nm_b", 120, (None, "fail"), (None, "fail")),
    # 60 A raised at 60 degC: 4 AWG has 70 A, 3 AWG aluminum 65 A.
    ("nm_b", 48, ("4", "pass"), ("3", "pass")),
    ("uf_b", 48, ("4", "pass"), ("3", "conditional")),
    ("se", 8, ("12", "conditional"), ("10", "conditional")),
    ("mc", 8, ("14", "pass"), ("12", "pass")),
]


@pytest.mark.parametrize("way, amps, copper, aluminum", CABLES)
def test_a_cable_has_a_size_that_it_comes_in(
    way: str, amps: float, copper: tuple[str | None, str], aluminum: tuple[str | None, str]
) -> None:
    for row, expected in zip(
        both(body(FEEDER | {"amps": amps}, NEAR | {"way": way})), (copper, aluminum), strict=True
    ):
        assert (row.phase, rules(row)["sizes-at-hand"]) == expected
        if expected[1] != "pass":
            assert row.verdict != "pass"


def test_a_cable_comes_with_a_ground_of_its_maker() -> None:
    """24 A over 200 ft: 10 AWG grown to 6 AWG, and the ground of 10 AWG with it."""
    circuit = FEEDER | {"amps": 24}
    copper, _ = both(body(circuit, NEAR | {"way": "nm_b", "length": 200}))
    assert (copper.phase, copper.ground) == ("6", "6")
    assert rules(copper)["equipment-ground"] == "conditional"
    short, _ = both(body(circuit, NEAR | {"way": "nm_b"}))
    assert rules(short)["equipment-ground"] == "pass"
    conduit, _ = both(body(circuit, NEAR | {"way": "pvc40", "length": 200}))
    assert rules(conduit)["equipment-ground"] == "pass"


def test_the_least_of_a_lug_is_what_is_pulled() -> None:
    """Behind 60 A 6 AWG becomes 2 AWG: the ground of 10 AWG grows by 66,360 / 26,240.

    26,251 cmil are strictly 4 AWG, 6 AWG misses them by rounding. Two of 2 AWG with 4 and 10 AWG
    are 0.3351 in2: 40 % of 1 in PVC are 0.3328 in2.
    """
    ends = {
        "near": MARKED | {"smallest": "2"},
        "far": MARKED | {"largest": "6"},
        "unbalance_a": 24,
    }
    copper, _ = both(body(ends, NEAR | {"way": "pvc40"}))
    assert (copper.phase, copper.ground, copper.ground_but_for_rounding) == ("2", "4", "6")
    assert copper.governing == "sizes-at-hand"
    assert copper.raceways[0].trade_size == "1-1/4"
    assert {row.use: row.size for row in copper.pull} == {
        "phase": "2",
        "neutral": "10",
        "ground": "4",
    }
    near, far = [f for f in copper.findings if f.rule == "terminal-fit"]
    assert near.verdict == "pass"
    assert far.verdict == "conditional"
    assert "pigtail of no less than 6 AWG" in far.statement


def test_a_lug_that_takes_no_less_than_what_is_never_pulled_fails() -> None:
    found = answer(body({"near": MARKED | {"smallest": "600", "largest": None}}, NEAR))
    assert found.verdict == "fail"
    assert "600 kcmil" in " ".join(f.statement for f in found.findings)


# Whether both are marked for aluminum, verdict of aluminum. Source: NEC 110.14, secondary: only
# terminals identified for aluminum take it.
@pytest.mark.parametrize(
    "marked, verdict", [(True, "pass"), (None, "conditional"), (False, "fail")]
)
def test_aluminum_hangs_on_the_mark_of_the_terminals(marked: bool | None, verdict: str) -> None:
    lug = MARKED | {"aluminum": marked}
    copper, aluminum = both(body({"near": lug, "far": lug}))
    assert (rules(copper)["terminal-fit"], rules(aluminum)["terminal-fit"]) == ("pass", verdict)
    told = [f.statement for f in aluminum.findings if f.rule == "terminal-fit"]
    assert ("not stated that they are marked for aluminum" in told[0]) == (marked is None)


def test_a_lug_that_takes_the_size_of_aluminum_alone_is_conditional() -> None:
    """4 AWG at least: 2 AWG aluminum fits, 6 AWG copper becomes 4 AWG."""
    lug = {"marked": 75, "smallest": "4", "largest": "500"}
    found = answer(body({"near": lug, "far": lug}, NEAR))
    assert [row.verdict for row in found.materials] == ["pass", "conditional"]
    assert found.materials[0].phase == "4"


def test_several_sets_need_a_lug_for_several() -> None:
    circuit = FEEDER | {"amps": 240, "most_breaker_a": 300, "sets": 2}
    found = answer(body(circuit, NEAR | {"way": "pvc40"}))
    assert found.verdict == "conditional"
    assert "the terminals take 2 conductors of 1/0 AWG copper each" in found.conditions


def test_a_bare_lug_of_unknown_range_hangs_on_being_no_small_one() -> None:
    """At 110 A 2 AWG has 115 A at 75 degC; a bare lug for 14 to 1 AWG is at 60, NEC 110.14(C)."""
    inverter = {"kind": "inverter_output", "amps": 88, "most_breaker_a": 110, "near": {}}
    bare = answer(body(inverter, NEAR))
    assert bare.materials[0].phase == "2"
    assert "made for more than 1 AWG" in bare.conditions[0]
    larger = answer(body(inverter | {"amps": 120, "most_breaker_a": 150}, NEAR))
    assert "made for more than" not in " ".join(larger.conditions)
