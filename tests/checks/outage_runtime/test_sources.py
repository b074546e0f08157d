"""Every source that an answer cites leads to a cell, and changing that cell moves the number."""

import json
import random
from typing import Any

import pytest

from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.published.loader import resolve
from service.quantities.encoder import round_answer, to_json
from tests.checks.outage_runtime import random_requests
from tests.checks.outage_runtime.asking import Body, answered, appliance, known, load, without
from tests.checks.outage_runtime.changed_tables import changed


def cited(answer: OutageRuntimeAnswer) -> set[str]:
    """Return the ids that findings, assumptions and the working point to."""
    found = {source for finding in answer.findings for source in finding.sources}
    found |= {assumption.source for assumption in answer.assumptions if assumption.source}
    assert isinstance(answer.working, list)
    return found | {line.source for line in answer.working if line.source}


@pytest.mark.parametrize("seed", range(40))
def test_every_id_cited_resolves_and_stands_among_the_sources(seed: int) -> None:
    answer = answered(random_requests.request(random.Random(9000 + seed)), "working")
    listed = [source.id for source in answer.sources]
    assert len(listed) == len(set(listed))
    assert cited(answer) <= set(listed)
    for source in answer.sources:
        table, row, _ = resolve(source.id)
        assert row in table.rows
        assert row in source.place


NOMINAL = {"energy": {"kind": "nominal", "kwh": 10}}
OPEN: Body = without(
    known([load(500, watts_high=900)], NOMINAL | {"age_years": 5}, target_hours=4),
    *("losses", "reserve_percent", "floor_percent", "ambient", "warranty_years"),
    *("end_of_warranty_retention", "start_hour"),
)
EVENING = [load(500, hours_per_day=2, windows=[{"start_hour": 19, "end_hour": 21}]), load(100)]
OPEN_HOUR = without(known(EVENING, target_hours=4), "start_hour")
FRIDGE = known([appliance("refrigerator"), load(100)], target_hours=4)
BILL: Body = {"kind": "monthly_kwh", "home_class": "inland_single_family"}
EVEN_BILL = known([], use=BILL | {"monthly_kwh": 600})
#: August is the heaviest month of the summer half, December of the winter half.
TWELVE = [300, 300, 300, 300, 300, 300, 300, 900, 300, 300, 300, 900]
UNEVEN_BILL = known([], use=BILL | {"monthly_kwh": TWELVE})
COLD = known([load(500)], {"ambient": 36}, target_hours=4)
HOT = known([load(500)], {"ambient": 122}, target_hours=4)

CELLS: list[tuple[str, Body, str, dict[str, str]]] = [
    # id cited, request, row's other value of what the id names
    ("outage_defaults/reserve_percent/value", OPEN, "reserve_percent", {"value": "35"}),
    ("outage_defaults/depth_of_discharge/value", OPEN, "depth_of_discharge", {"value": "0.92"}),
    (
        "outage_defaults/round_trip_efficiency/value",
        OPEN,
        "round_trip_efficiency",
        {"value": "0.9"},
    ),
    ("outage_defaults/idle_w/value", OPEN, "idle_w", {"value": "55"}),
    ("outage_defaults/floor_percent/value", OPEN, "floor_percent", {"value": "4"}),
    ("outage_defaults/ambient_degf/value", OPEN, "ambient_degf", {"value": "59"}),
    ("outage_defaults/warranty_years/value", OPEN, "warranty_years", {"value": "12"}),
    (
        "outage_defaults/end_of_warranty_retention/value",
        OPEN,
        "end_of_warranty_retention",
        {"value": "0.75"},
    ),
    (
        "outage_defaults/start_hour/value",
        OPEN_HOUR,
        "start_hour",
        {"value": "20", "low": "20", "high": "20"},
    ),
    ("appliances/refrigerator", FRIDGE, "refrigerator", {"run_w_typ": "175"}),
    ("appliances/refrigerator", FRIDGE, "refrigerator", {"duty_typ": "0.4"}),
    (
        "outage_defaults/monthly_energy_high_factor/value",
        EVEN_BILL,
        "monthly_energy_high_factor",
        {"value": "2", "low": "2", "high": "2"},
    ),
    (
        "outage_defaults/monthly_energy_low_factor/value",
        EVEN_BILL,
        "monthly_energy_low_factor",
        {"value": "0.5", "low": "0.5", "high": "0.5"},
    ),
    (
        "class_day_shapes/inland_single_family/12",
        UNEVEN_BILL,
        "inland_single_family/12",
        {"h19": "1"},
    ),
    # 36 degF lies between the rows of 0 and of 10 degC: both carry the number.
    ("temperature_capacity/0", COLD, "0", {"factor_low": "0.8"}),
    ("temperature_capacity/10", COLD, "10", {"factor_low": "0.97"}),
    ("temperature_power/45", HOT, "45", {"factor": "0.9"}),
]


def numbers(answer: OutageRuntimeAnswer) -> Any:
    """Return the numbers of an answer without its texts and without the digest of the data."""
    tree = json.loads(to_json(round_answer(answer)))
    kept = ("readings", "daily_energy", "power", "hours_low", "hours_typical", "hours_high")
    return {name: tree[name] for name in kept}


@pytest.mark.parametrize("identifier, body, row, cells", CELLS, ids=[case[0] for case in CELLS])
def test_changing_a_cited_cell_moves_the_answer(
    identifier: str, body: Body, row: str, cells: dict[str, str]
) -> None:
    answer = answered(body)
    assert any(source.id.startswith(identifier) for source in answer.sources)
    before = numbers(answer)
    with changed(identifier.partition("/")[0], row, **cells):
        after = numbers(answered(body))
    assert after != before
    assert numbers(answered(body)) == before, "the table is as it was"


@pytest.mark.parametrize("case", range(8))
def test_changing_the_cell_of_an_assumption_moves_its_value_and_the_finding(case: int) -> None:
    """The value that the answer says it assumed is the cell, and the target's hours follow it."""
    identifier, body, row, cells = CELLS[case]

    def value_and_hours() -> tuple[Any, float | None]:
        answer = answered(body)
        (value,) = [one.value for one in answer.assumptions if one.source == identifier]
        (found,) = [one for one in answer.findings if one.rule == "target-held"]
        assert identifier in found.sources
        return value, answer.hours_low if row != "warranty_years" else answer.hours_typical

    before = value_and_hours()
    with changed("outage_defaults", row, **cells):
        after = value_and_hours()
    assert after[0] == float(cells["value"])
    assert after[0] != before[0]
    assert after[1] != before[1]


def test_changing_a_cell_that_is_not_cited_moves_nothing() -> None:
    """A fact that is stated leaves its default without a part in the answer."""
    body = known([load(500)], target_hours=4)
    before = numbers(answered(body))
    assert not any(one.id.startswith("outage_defaults") for one in answered(body).sources)
    with changed("outage_defaults", "idle_w", value="55"):
        assert numbers(answered(body)) == before
    with changed("appliances", "refrigerator", run_w_typ="175"):
        assert numbers(answered(body)) == before


def test_a_bill_cites_the_months_whose_shape_it_took() -> None:
    """Answered for winter: December, the heaviest of its half year."""
    ids = {source.id for source in answered(UNEVEN_BILL).sources}
    shapes = {one.rpartition("/")[2] for one in ids if one.startswith("class_day_shapes")}
    assert "12" in shapes
    assert shapes <= {"8", "12"}


def test_changing_the_power_of_an_appliance_moves_the_power_finding() -> None:
    """The finding that cites the appliance carries its watts."""
    body = known([appliance("wall_oven"), load(100)], target_hours=4)

    def power() -> tuple[float | None, list[str]]:
        (found,) = [one for one in answered(body).findings if one.rule == "continuous-power"]
        return found.actual, found.sources

    watts, sources = power()
    assert watts == pytest.approx(5.1)
    assert sources == ["appliances/wall_oven"]
    with changed("appliances", "wall_oven", run_w_high="5500"):
        assert power()[0] == pytest.approx(5.6)
