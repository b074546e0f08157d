"""Published cases come out of our tables, or out of their own printed inputs."""

from collections.abc import Callable, Mapping
from pathlib import Path

import pytest

from service.published.appliances import catalogue
from service.published.loader import load
from service.published.parse import parse
from service.published.table import Table

HERE = Path(__file__).parent
J_PER_KWH = 3.6e6
Inputs = Mapping[str, str]


def reference(name: str) -> Table:
    return parse(name, (HERE / f"{name}.csv").read_text(encoding="utf-8"))


CASES = reference("published_cases")


def yearly_energy(inputs: Inputs) -> float:
    # The hours of use come from the catalogue; so do the watts, unless the case prints others.
    row = catalogue()[inputs["appliance"]]
    column = inputs.get("column")
    watts = load("appliances").number(row.id, column) if column else float(inputs["watts"])
    assert row.run_w_low <= watts <= row.run_w_high
    seconds = row.duty_typ * row.hours_per_day * 3600 * float(inputs["days"])
    return watts * seconds / J_PER_KWH


def storage_for_days(inputs: Inputs) -> float:
    need = float(inputs["daily_kwh"]) * float(inputs["days"])
    return need / float(inputs["usable_share"]) / float(inputs["efficiency"])


def night_share(inputs: Inputs) -> float:
    loads = [name.removesuffix("_kwh") for name in inputs if name.endswith("_kwh")]
    return sum(float(inputs[f"{x}_kwh"]) * float(inputs[f"{x}_share"]) for x in loads)


def running_and_start(inputs: Inputs) -> float:
    return sum(float(watts) for watts in inputs.values())


def interruption_identity(inputs: Inputs) -> float:
    table = reference(inputs["table"])
    worst = 0.0
    for year in table.rows:
        for kind in ("all", "calm"):
            saidi, saifi, caidi = (
                table.number_or_none(year, f"{index}_{kind}")
                for index in ("saidi", "saifi", "caidi")
            )
            if saidi is not None and saifi is not None and caidi is not None:
                worst = max(worst, abs(saidi / saifi - caidi))
    return worst


RULES: Mapping[str, Callable[[Inputs], float]] = {
    "yearly_energy": yearly_energy,
    "storage_for_days": storage_for_days,
    "night_share": night_share,
    "running_and_start": running_and_start,
    "interruption_identity": interruption_identity,
}


@pytest.mark.parametrize("case", CASES.rows)
def test_a_published_case_comes_out_as_printed(case: str) -> None:
    row = CASES.row(case)
    inputs = dict(pair.split("=") for pair in row["inputs"].split(";"))
    found = RULES[row["rule"]](inputs)
    assert found == pytest.approx(
        CASES.number(case, "expected"), abs=CASES.number(case, "tolerance"), rel=0
    )


def test_every_case_names_its_source() -> None:
    for case, row in CASES.rows.items():
        assert CASES.cite(case, "expected").title == row["source"] != ""


def test_every_year_of_the_reliability_table_enters_the_identity() -> None:
    table = reference("eia_reliability_us")
    assert list(table.rows) == [str(year) for year in range(2014, 2024)]
    assert table.number("2022", "caidi_all") == 238.8
