"""Every start hour of a year: the stepper against the table of survival and its closed forms."""

import csv
import gzip
import math
from pathlib import Path

import numpy as np
import pytest
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from service.physics.outage_steps import StepsRun, step_outages
from tests.physics.stepped_batches import HOUR, KWH

REFERENCE = Path(__file__).parents[1] / "reference"
HORIZON, YEAR = 336, 8760
DURATIONS = (2, 4, 8, 12, 24, 48, 72, 120, 168, 336)
DAYS = np.repeat(np.arange(12), np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]))

Floats = NDArray[np.float64]


def column(table: str, name: str) -> Floats:
    text = gzip.decompress((REFERENCE / table).read_bytes()).decode()
    return np.array([float(row[name]) for row in csv.DictReader(text.splitlines())])


def from_every_hour(year: Floats) -> Floats:
    """Row h: power in the h-th hour of the outage, one lane a start hour; the year wraps."""
    return sliding_window_view(np.tile(year, 2), YEAR)[:HORIZON]


def mean_day_of_month(year: Floats) -> Floats:
    days = year.reshape(365, 24)
    return np.array([days[month == DAYS].mean(axis=0) for month in DAYS]).reshape(-1)


def every_start(load: Floats, sun: Floats | None, capacity: float, rte: float = 0.9) -> StepsRun:
    """A full battery with 30 W at no load, unless lossless."""
    one_way = math.sqrt(rte)
    return step_outages(
        duration=np.full(HORIZON, HOUR),
        load=from_every_hour(load)[:, np.newaxis],
        source=None if sun is None else from_every_hour(sun),
        capacity=capacity * KWH,
        start_energy=capacity * KWH,
        floor=0.0,
        discharge_fixed=0.0 if sun is None and rte == 1 else 30.0,
        discharge_linear=1 / one_way,
        discharge_square=0.0,
        charge_efficiency=one_way,
        discharge_limit=5e3,
        charge_limit=5e3,
        stop_when_lost=True,
    )


def survival_rows() -> list[dict[str, str]]:
    with (REFERENCE / "survival_examples.csv").open() as file:
        return list(csv.DictReader(line for line in file if not line.startswith("#")))


@pytest.mark.parametrize("row", survival_rows(), ids=lambda row: "-".join(list(row.values())[:5]))
def test_share_of_start_hours_is_that_of_the_table(row: dict[str, str]) -> None:
    """Shares by duration, the median and the worst start agree with an independent stepper."""
    load = column("ca_homes_2011_hourly_wh.csv.gz", f"{row['home']}_wh")
    sun = column("tmy3_lax_hourly_poa.csv.gz", "ac_kw_per_kwdc") * float(row["pv_kwdc"]) * 1e3
    if row["pv_data"] == "monthly-mean-day":
        sun = mean_day_of_month(sun)
    found = every_start(load * float(row["load_fraction"]), sun, float(row["cap_kwh"]))
    held = np.where(found.held_seen, found.held / HOUR, np.inf)
    for hours in DURATIONS:
        assert np.mean(held >= hours) == pytest.approx(float(row[f"S_{hours}h"]), abs=1.5e-3)
    assert float(np.median(held)) == pytest.approx(float(row["median_h"]), abs=0.02)
    assert float(held.min()) == pytest.approx(float(row["min_h"]), abs=0.02)
    assert int(found.first_power_limit_seen.sum()) == int(row["power_limited_starts"])


def test_two_level_load_has_its_closed_form_mean() -> None:
    """9 kWh lossless on 1 kW by night and 0.5 kW by day: 12 h in the mean, 9 to 15 h.

    Source: derived; the energy left after a whole half day is the same for every start.
    """
    load = np.where(np.arange(YEAR) % 24 < 12, 1e3, 500.0)
    held = every_start(load, None, 9.0, rte=1.0).held / HOUR
    assert float(held.mean()) == pytest.approx(12.0, rel=1e-12)
    assert float(held.min()) == pytest.approx(9.0, rel=1e-12)
    assert float(held.max()) == pytest.approx(15.0, rel=1e-12)
