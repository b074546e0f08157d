"""The mean days of the home classes are those of the open hourly data."""

import csv
import gzip
from calendar import monthrange
from collections import defaultdict
from pathlib import Path

import pytest

from service.published.class_day_shapes import class_ids, day_shape

HOURLY = Path(__file__).parents[1] / "reference" / "ca_homes_2011_hourly_wh.csv.gz"


@pytest.fixture(scope="module")
def means() -> dict[tuple[str, int], list[float]]:
    sums: dict[tuple[str, int], list[float]] = defaultdict(lambda: [0.0] * 24)
    with gzip.open(HOURLY, "rt", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            month, hour = int(row["start_pst"][5:7]), int(row["start_pst"][11:13])
            for column, wh in row.items():
                if column.endswith("_wh"):
                    days = monthrange(2011, month)[1]
                    sums[column.removesuffix("_wh"), month][hour] += float(wh) / days
    return sums


def test_every_cell_is_the_mean_of_the_hourly_data(
    means: dict[tuple[str, int], list[float]],
) -> None:
    assert {class_id for class_id, _ in means} == set(class_ids())
    assert len(means) == 72
    for (class_id, month), day in means.items():
        # 0.005 is the rounding of the table.
        assert day_shape(class_id, month) == pytest.approx(day, abs=0.00501)


# class | kWh a year. Source: EnergyOS Green Button sample data 2011, sums of 8,760 readings.
YEARS = (
    ("coastal_multi_family", 4425),
    ("inland_multi_family", 4800),
    ("inland_single_family", 8343),
    ("desert_multi_family", 5220),
    ("desert_single_family", 12397),
    ("mountain_multi_family", 5956),
)


@pytest.mark.parametrize("class_id, kwh", YEARS)
def test_mean_days_add_up_to_the_year(class_id: str, kwh: float) -> None:
    year_wh = sum(sum(day_shape(class_id, m)) * monthrange(2011, m)[1] for m in range(1, 13))
    assert year_wh / 1000 == pytest.approx(kwh, abs=0.5)


@pytest.mark.parametrize("class_id, month", [("desert_single_family", 13), ("polar", 1)])
def test_an_unknown_class_or_month_is_refused(class_id: str, month: int) -> None:
    with pytest.raises(KeyError):
        day_shape(class_id, month)
