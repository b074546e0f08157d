"""What a power condition names: the loads that really do not fit, and only when there are some."""

import pytest

from tests.checks.outage_runtime.asking import Body, answered, appliance, known, load

ENERGY = {"energy": {"kind": "usable", "kwh": 100}}
OFTEN = {"hours_per_day": 23}
SELDOM = {"hours_per_day": 0.1}
ALL_DAY: list[tuple[str, list[Body]]] = [
    # what; typical fits 2 kW, high use does not, and nothing can be kept from running together
    ("nothing but all-day loads", [appliance("refrigerator", quantity=10)]),
    ("one other load", [load(1500, name="Kettle", watts_high=2500, **SELDOM)]),
]


@pytest.mark.parametrize("what, rows", ALL_DAY, ids=[case[0] for case in ALL_DAY])
def test_no_condition_speaks_of_together_where_there_are_not_two(
    what: str, rows: list[Body]
) -> None:
    answer = answered(known(rows, ENERGY | {"continuous_kw": 2}, target_hours=1))
    assert answer.verdict != "pass", what
    assert "together" not in answer.headline, what
    assert all(condition.strip() == condition for condition in answer.conditions), what


def test_the_loads_named_are_those_of_the_number() -> None:
    """A and B fit together; C at high use does not, alone or with A: both must be said."""
    rows = [
        load(1000, name="Load A", **OFTEN),
        load(900, name="Load B", **OFTEN),
        load(100, name="Load C", watts_high=5000, **SELDOM),
    ]
    answer = answered(known(rows, ENERGY | {"continuous_kw": 2}, target_hours=4))
    assert answer.verdict == "conditional"
    said = "; ".join(answer.conditions).casefold()
    assert "load c" in said
    assert "2.00 kw" in said, "what C may take at most"
    assert "together" in said, "C at 2 kW beside A is still too much"
    assert "load b" not in said


def test_sources_of_the_power_finding_are_the_appliances_of_its_number() -> None:
    """High use: range 8,000 W and wall oven 5,000 W; typical use: dryer 3,600 and oven 3,500 W."""
    rows = [appliance("wall_oven"), appliance("dryer_electric", watts=3600)]
    rows += [appliance("range_electric")]
    answer = answered(known(rows, ENERGY | {"continuous_kw": 20}, target_hours=1))
    (finding,) = [one for one in answer.findings if one.rule == "continuous-power"]
    assert finding.actual == pytest.approx(8 + 5)
    assert set(finding.sources) == {"appliances/range_electric", "appliances/wall_oven"}
