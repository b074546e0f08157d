"""Neutrals of whole answers, by hand."""

import pytest

from service.checks.conductor_sizing.verdicts import made_of
from service.published.conductors import index_of
from tests.checks.conductor_sizing.requests import Body, answer, body, both, refused, rules
from tests.checks.conductor_sizing.test_batches import request_of

NEAR: Body = {"length": 10, "place": "indoors", "ambient": 86, "way": "pvc40"}
WALL: Body = {"length": 10, "place": "outside_wall", "ambient": 104, "way": "pvc40"}
COLD: Body = NEAR | {"ambient": 55}
LONG: Body = {"length": 100, "place": "buried", "ambient": 86, "way": "pvc40"}
HOT: Body = {"length": 8, "place": "attic", "ambient": 140, "way": "pvc40", "other_conductors": 4}
BARE: Body = {"smallest": "14", "largest": "500"}
FEEDER: Body = {"kind": "backup_feeder", "most_breaker_a": None}
ROOF: Body = NEAR | {"ambient": 170}
BUILDING: Body = FEEDER | {"kind": "building_feeder", "amps": 80, "near": BARE, "far": BARE}

# Circuit, parts, neutral in copper and in aluminum. Sources: NEC 2023 (NFPA 70), by secondary
# sources.
CASES: list[tuple[str, Body, list[Body], str, str]] = [
    # 310.10(G): sets in parallel are of 1/0 AWG at least, the neutral too.
    ("sets", FEEDER | {"amps": 240, "unbalance_a": 60, "sets": 2}, [NEAR], "1/0", "1/0"),
    (
        "sets, no unbalance",
        FEEDER | {"amps": 200, "unbalance_a": 0, "sets": 2},
        [NEAR],
        "1/0",
        "1/0",
    ),
    # 215.2(A)(2): Table 250.122 at 100 A is 8 AWG copper and 6 AWG aluminum.
    ("as the ground", FEEDER | {"amps": 80, "unbalance_a": 10}, [NEAR], "8", "6"),
    # The same at 60 A: 10 and 8 AWG.
    ("sensing", {"neutral": "sensing"}, [NEAR], "10", "8"),
    # 110.14(C): 8 AWG has 50 A at 75 degC, 6 AWG 65 A; aluminum 6 AWG has 50 A, 4 AWG 65 A. Cold
    # lifts the ampacity of the insulation, not that of the terminals.
    ("cold", FEEDER | {"amps": 54, "unbalance_a": 54}, [COLD], "6", "4"),
    # 310.14: 8 AWG has 50 A at 75 degC and 55 x 0.91 = 50.05 A in the heat; aluminum 6 AWG 50 A
    # and 55 x 0.91.
    ("heat from its own column", {"unbalance_a": 48}, [WALL], "8", "6"),
    # 310.14(A)(2), exception: 8 ft of 108 ft are left out. 60 degC terminals, 80 A of 100: 3 AWG
    # has 85 A and 2 AWG aluminum 75, 1 AWG 85; of 90 A as ground 8 and 6.
    ("a short hot part", BUILDING | {"unbalance_a": 80}, [LONG, HOT], "3", "1"),
    # 76.7 degC: 4 AWG has 95 x 0.41 = 39 A, 2 AWG 130 x 0.41 = 53 A; aluminum 1/0 135 x 0.41 = 55.
    ("very hot", {"kind": "inverter_output", "unbalance_a": 48}, [ROOF], "2", "1/0"),
]


@pytest.mark.parametrize("what, circuit, parts, copper, aluminum", CASES, ids=[c[0] for c in CASES])
def test_neutrals(what: str, circuit: Body, parts: list[Body], copper: str, aluminum: str) -> None:
    made = body(circuit | {"neutral": circuit.get("neutral", "unbalance")}, *parts)
    rows = both(made)
    assert [row.neutral for row in rows] == [copper, aluminum], what
    for row in rows:
        assert rules(row)["neutral"] == "pass"
        assert row.phase is not None
        assert row.neutral is not None
        assert index_of(row.neutral) <= index_of(row.phase)


@pytest.mark.parametrize("what, circuit, parts, copper, aluminum", CASES, ids=[c[0] for c in CASES])
def test_a_neutral_is_the_same_beside_other_requests(
    what: str, circuit: Body, parts: list[Body], copper: str, aluminum: str
) -> None:
    circuit = circuit | {"neutral": circuit.get("neutral", "unbalance")}
    several = request_of(body(None, WALL, LONG, HOT))
    together = made_of([request_of(body(circuit, *parts)), several])
    assert [one.row.neutral for one in together[0]] == [copper, aluminum], what


def test_a_neutral_that_no_size_makes_fails_and_half_a_circuit_is_not_told() -> None:
    """Phases of 500 kcmil, 380 A at 75 degC; the source from line to neutral asks for 580 A."""
    circuit = FEEDER | {"amps": 290, "neutral": "unbalance_and_source"}
    copper, _ = both(body(circuit, NEAR, drop_target_percent=5))
    assert copper.phase == "500"
    assert copper.neutral is None
    assert rules(copper)["neutral"] == "fail"
    assert "raceway-fill" not in rules(copper)
    assert [part.trade_size for part in copper.raceways] == [None]
    assert copper.pull == []


@pytest.mark.parametrize("unbalance, pointers", [(48, []), (48.1, ["/circuit/unbalance_a"])])
def test_no_unbalance_exceeds_the_circuit(unbalance: float, pointers: list[str]) -> None:
    assert refused(body({"unbalance_a": unbalance})) == pointers


def test_a_circuit_without_a_neutral_has_no_rule_of_it() -> None:
    assert all("neutral" not in rules(row) for row in both(body({"neutral": "none"})))


# Volts, neutral where none is stated, conductors beside the ground. Of 120 V the neutral is one of
# the two; between the hots of 240 V and of 208 V there is one in the middle.
USUAL = [(48, "none", 2), (120, "none", 2), (208, "unbalance", 3), (240, "unbalance", 3)]


@pytest.mark.parametrize("volts, neutral, conductors", USUAL)
def test_a_circuit_of_two_conductors_is_given_no_third(
    volts: float, neutral: str, conductors: int
) -> None:
    circuit = FEEDER | {"amps": 24, "volts": volts, "neutral": None}
    found = answer(body(circuit, NEAR, drop_target_percent=5))
    assert next(a.value for a in found.assumptions if a.pointer == "/circuit/neutral") == neutral
    feet = {row.use: row.feet for row in found.materials[0].pull}
    pulled = feet["phase"] + feet.get("neutral", 0)
    assert pulled == conductors * feet["ground"]
