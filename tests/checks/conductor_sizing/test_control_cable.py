"""A control cable: its longest lead, its class, what it lies beside."""

import pytest

from service.findings import Verdict
from tests.checks.conductor_sizing.requests import Body, answer, body, refused, rules

FAIL, OPEN, IF, PASS = Verdict
CABLE: Body = {
    "kind": "control_cable",
    "amps": 0.1,
    "volts": 24,
    "most_breaker_a": None,
    "neutral": "none",
}
LEAD: Body = {"length": 150, "place": "indoors", "ambient": 86, "way": "pvc40"}

#: What the maker says, verdicts of lead and of separation. Source: NEC 725.136, 725.48; from
#: memory, not verified; the lead is its maker's.
CASES: list[tuple[Body | None, Verdict, Verdict]] = [
    (None, OPEN, OPEN),
    ({"most_length": 150, "circuit_class": "class_2", "beside_power": True}, PASS, FAIL),
    ({"most_length": 149, "circuit_class": "class_2", "beside_power": False}, FAIL, IF),
    ({"circuit_class": "class_2", "beside_power": False, "separation": 2}, OPEN, PASS),
    ({"circuit_class": "class_2", "beside_power": False, "separation": 1.9}, OPEN, FAIL),
    ({"circuit_class": "class_1", "beside_power": False}, OPEN, PASS),
    ({"circuit_class": "class_1", "beside_power": True}, OPEN, OPEN),
    ({"circuit_class": "class_1", "beside_power": True, "insulation_volts": 300}, OPEN, FAIL),
    ({"circuit_class": "class_1", "beside_power": True, "insulation_volts": 600}, OPEN, IF),
]


@pytest.mark.parametrize("cable, lead, apart", CASES)
def test_rules(cable: Body | None, lead: Verdict, apart: Verdict) -> None:
    found = rules(answer(body(CABLE | {"control": cable}, LEAD)).materials[0])
    assert (found["control-lead"], found["control-separation"]) == (lead, apart)


def test_nothing_of_it_belongs_to_another_circuit() -> None:
    assert refused(body({"control": {"most_length": 100}})) == ["/circuit/control"]
