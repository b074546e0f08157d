"""Days of sun whose closed form is known: half a sine over the day, and how its steps converge."""

import csv
import math
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import quad

from service.physics.outage_steps import StepsRun, step_outages
from tests.physics.stepped_batches import HOUR, KWH, plain

TABLE = Path(__file__).parents[1] / "reference" / "analytic_cases.csv"
PEAK, DAYLIGHT, LOAD = 4.0, 12.0, 1.0  # kW, h, kW
CROSSING = DAYLIGHT / math.pi * math.asin(LOAD / PEAK)
EFFICIENCY = math.sqrt(0.9)


def tabled(case: str) -> float:
    with TABLE.open(encoding="utf-8") as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        return next(float(row["closed_form_or_ode"]) for row in rows if row["id"] == case)


def mean_sun(edges: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the mean of the half sine between the edges [W]; edges [h], sunrise at 0."""
    within = np.clip(edges, 0.0, DAYLIGHT)
    energy = PEAK * DAYLIGHT / math.pi * (1 - np.cos(math.pi * within / DAYLIGHT))
    return np.diff(energy) / np.diff(edges) * 1e3


def day(edges: NDArray[np.float64], load: float, **changes: Any) -> StepsRun:
    """Run the half sine over a steady load [kW]."""
    case = {
        "duration": np.diff(edges) * HOUR,
        "load": np.full((len(edges) - 1, 1), load * 1e3),
        "source": mean_sun(edges),
    }
    return step_outages(**plain(**(case | changes)), account=True)


def surplus(edges: NDArray[np.float64]) -> float:
    """Return the sun above the load [kWh]: all of it refused, since nothing may charge."""
    found = day(edges, LOAD, capacity=99 * KWH, start_energy=50 * KWH, charge_limit=0.0)
    assert found.account is not None
    return float(np.sum(found.account.curtailed)) / KWH


def test_surplus_of_a_half_sine_is_the_closed_form() -> None:
    """A09: surplus over the load, with a step edge where the two are equal."""
    edges = np.unique(
        np.concatenate(
            [np.linspace(0, DAYLIGHT, 721), [CROSSING, DAYLIGHT - CROSSING]],
        )
    )
    closed = quad(
        lambda t: PEAK * math.sin(math.pi * t / DAYLIGHT) - LOAD, CROSSING, DAYLIGHT - CROSSING
    )[0]
    assert surplus(edges) == pytest.approx(closed, rel=1e-9)
    assert closed == pytest.approx(tabled("A09"), rel=1e-8)
    assert pytest.approx(tabled("A09b"), rel=1e-8) == CROSSING


def test_surplus_begins_where_sun_and_load_are_equal() -> None:
    """A09b: no surplus up to the crossing, some right after it."""
    assert surplus(np.linspace(0, CROSSING, 61)) == pytest.approx(0.0, abs=1e-12)
    assert surplus(np.linspace(0, CROSSING + 0.02, 61)) > 1e-6


def perpetual(load: float, capacity: float, start: float) -> StepsRun:
    """Run ten days from where the sun falls below the load [kW, kWh]."""
    crossing = DAYLIGHT / math.pi * math.asin(load / PEAK)
    edges = np.linspace(0.0, 24.0, 24 * 60 + 1)
    edges = np.unique(np.concatenate([edges, [crossing, DAYLIGHT - crossing]]))
    one = mean_sun(edges)
    turn = int(np.searchsorted(edges, DAYLIGHT - crossing))
    sun, duration = (np.tile(np.roll(x, -turn), 10) for x in (one, np.diff(edges) * HOUR))
    return step_outages(
        **plain(
            duration=duration,
            load=np.full((len(sun), 1), load * 1e3),
            source=sun,
            capacity=capacity * KWH,
            start_energy=start * KWH,
            discharge_linear=1 / EFFICIENCY,
            charge_efficiency=EFFICIENCY,
        ),
        account=True,
    )


def test_the_largest_load_that_lasts_for_ever() -> None:
    """A10 and A10b: it lives on its storage to the last watt-hour, and on no less of either."""
    load, storage = tabled("A10"), tabled("A10b")
    kept = perpetual(load, storage * (1 + 1e-7), storage * (1 + 1e-7))
    assert not kept.first_loss_seen.any()
    assert float(np.ravel(kept.end_energy)[0]) / KWH == pytest.approx(storage, rel=1e-5)
    assert perpetual(load, storage * 0.999, storage * 0.999).first_loss_seen.all()
    assert perpetual(load * 1.001, storage, storage).first_loss_seen.all()


@pytest.mark.parametrize("minutes", [60, 30, 15, 5, 1])
def test_the_error_of_a_step_falls_with_its_square(minutes: int) -> None:
    """A20: energy left after a day, against steps of six seconds: of second order [kWh]."""

    def left(step: float) -> float:
        edges = np.linspace(0.0, DAYLIGHT, round(DAYLIGHT * 60 / step) + 1)
        found = day(edges, LOAD, start_energy=4 * KWH, charge_efficiency=0.9, discharge_linear=1.1)
        return float(np.ravel(found.end_energy)[0]) / KWH

    assert abs(left(minutes) - left(0.1)) < 0.15 * (minutes / 60) ** 2
