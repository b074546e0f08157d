"""Distributions of outage durations, and the chance of riding an outage through."""

import csv
import gzip
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from numpy.typing import NDArray
from scipy.integrate import quad
from scipy.stats import lognorm

from service.physics.outage_durations import (
    lognormal_cdf,
    lognormal_parameters,
    ride_through_chance,
)

HOUR = 3600.0
HOURLY = Path(__file__).parents[1] / "reference" / "ca_homes_2011_hourly_wh.csv.gz"

# mean [h] | variation | median [h] | tenth longest of a hundred [h]. Source: derived before this
# code was written, from the moments of the lognormal distribution; the first two means are the
# minutes an interruption of Electric Power Annual, Table 11.1, 118 and 257.
DISTRIBUTIONS = (
    (1.97, 1.0, 1.393, 4.05),
    (4.28, 1.5, 2.374, 9.54),
    (24.0, 0.6, 20.58, 41.9),
)

# mean [h] | variation | chance. Source: derived before this code was written, by a separate
# simulation: 35 % of an inland home of 2011, 10 kWh, 90 % round trip, 30 W idle, full, no sun.
CHANCES = (
    (2.0, 1.5, 0.998),
    (24.0, 0.8, 0.685),
)

MEAN = st.floats(60.0, 1e6)
VARIATION = st.floats(0.1, 3.0)
HELD = st.lists(st.tuples(st.floats(0.0, 1e6), st.booleans()), min_size=1, max_size=40)


def arrays(starts: list[tuple[float, bool]]) -> tuple[NDArray[np.float64], NDArray[np.bool_]]:
    return np.array([t for t, _ in starts]), np.array([lasts for _, lasts in starts])


@pytest.mark.parametrize("mean, variation, median, long", DISTRIBUTIONS)
def test_median_and_long_outage_of_each_distribution(
    mean: float, variation: float, median: float, long: float
) -> None:
    mu, sigma = lognormal_parameters(mean * HOUR, variation)
    assert np.exp(mu) / HOUR == pytest.approx(median, abs=0.006)
    chance = lognormal_cdf(np.array([np.exp(mu), long * HOUR]), mu, sigma)
    assert chance == pytest.approx([0.5, 0.9], abs=5e-4)


@given(mean=MEAN, variation=VARIATION)
def test_parameters_give_back_mean_and_variation(mean: float, variation: float) -> None:
    mu, sigma = lognormal_parameters(mean, variation)
    first, second = lognorm.stats(s=sigma, scale=np.exp(mu), moments="mv")
    assert float(first) == pytest.approx(mean, rel=1e-9)
    assert float(np.sqrt(second)) == pytest.approx(variation * mean, rel=1e-9)


@given(mean=MEAN, variation=VARIATION, times=st.lists(st.floats(0.0, 1e7), min_size=1))
def test_the_distribution_equals_that_of_scipy(
    mean: float, variation: float, times: list[float]
) -> None:
    mu, sigma = lognormal_parameters(mean, variation)
    expected = lognorm.cdf(times, s=sigma, scale=np.exp(mu))
    assert np.abs(lognormal_cdf(np.array(times), mu, sigma) - expected).max() < 1e-13


def test_the_distribution_keeps_the_shape_of_its_times() -> None:
    mu, sigma = lognormal_parameters(HOUR, 1.0)
    times = np.array([[0.0, 60.0, HOUR], [1e5, 1e9, np.inf]])
    found = lognormal_cdf(times, mu, sigma)
    assert found.shape == (2, 3)
    assert found[0, 0] == 0.0
    assert found[1, 2] == 1.0
    assert np.all(np.diff(found.ravel()) >= 0.0)


def test_the_mean_of_the_durations_is_the_integral_of_what_is_left() -> None:
    """The area above the distribution is the mean it was made from."""
    mu, sigma = lognormal_parameters(24.0, 0.8)
    area, _ = quad(lambda t: 1.0 - float(lognormal_cdf(np.array(t), mu, sigma)), 0.0, 2000.0)
    assert area == pytest.approx(24.0, rel=1e-6)


def test_equal_starts_have_the_chance_of_the_distribution_itself() -> None:
    mu, sigma = lognormal_parameters(24.0 * HOUR, 0.8)
    found = ride_through_chance(np.full(8760, 30.0 * HOUR), np.zeros(8760, np.bool_), mu, sigma)
    expected = float(lognorm.cdf(30.0 * HOUR, s=sigma, scale=np.exp(mu)))
    assert found == pytest.approx((expected, expected), abs=1e-12)


def test_a_start_that_outlasts_the_time_followed_lies_between_its_chance_and_one() -> None:
    """Each such start has its own low end: how long it was followed."""
    mu, sigma = lognormal_parameters(24.0 * HOUR, 0.8)
    held = np.array([30.0, 100.0, 20.0]) * HOUR
    low, high = ride_through_chance(held, np.array([True, True, False]), mu, sigma)
    each = lognorm.cdf(held, s=sigma, scale=np.exp(mu))
    assert low == pytest.approx(float(each.mean()), abs=1e-12)
    assert high == pytest.approx(float(2.0 + each[2]) / 3.0, abs=1e-12)


@given(starts=HELD, mean=MEAN, variation=VARIATION)
def test_the_ends_stand_in_order_and_meet_where_every_start_was_followed_to_its_loss(
    starts: list[tuple[float, bool]], mean: float, variation: float
) -> None:
    held, lasts = arrays(starts)
    mu, sigma = lognormal_parameters(mean, variation)
    low, high = ride_through_chance(held, lasts, mu, sigma)
    assert -1e-12 <= low <= high + 1e-12 <= 1.0 + 2e-12
    low, high = ride_through_chance(held, np.zeros_like(lasts), mu, sigma)
    assert low == high


@given(starts=HELD, more=st.floats(0.0, 1e6), mean=MEAN, variation=VARIATION)
def test_holding_longer_never_lowers_the_chance(
    starts: list[tuple[float, bool]], more: float, mean: float, variation: float
) -> None:
    held, lasts = arrays(starts)
    mu, sigma = lognormal_parameters(mean, variation)
    before = ride_through_chance(held, lasts, mu, sigma)
    after = ride_through_chance(held + more, lasts, mu, sigma)
    assert all(b <= a + 1e-12 for b, a in zip(before, after, strict=True))


def test_the_chance_equals_the_share_of_drawn_outages_that_end_in_time() -> None:
    """Random starts and random durations, drawn independently, agree within four deviations."""
    draw = np.random.default_rng(5)
    held = draw.uniform(5.0, 40.0, 500) * HOUR
    mu, sigma = lognormal_parameters(24.0 * HOUR, 0.8)
    low, high = ride_through_chance(held, np.zeros(500, np.bool_), mu, sigma)
    assert low == high
    start, lasting = draw.integers(0, 500, 200_000), draw.lognormal(mu, sigma, 200_000)
    share = float((lasting <= held[start]).mean())
    assert share == pytest.approx(low, abs=4.0 * np.sqrt(0.25 / 200_000))


@cache
def inland_hours() -> NDArray[np.float64]:
    """Hours held from every start of a year, by the plainest loop there is."""
    with gzip.open(HOURLY, "rt", encoding="utf-8") as file:
        load = np.array([float(row["inland_single_family_wh"]) for row in csv.DictReader(file)])
    one_way = np.sqrt(0.9)
    drawn = 0.35 * load / one_way + 30.0
    summed = np.concatenate(([0.0], np.cumsum(np.tile(drawn, 2))))
    ends = np.interp(summed[:8760] + 10_000.0, summed, np.arange(summed.size))
    return np.asarray(ends - np.arange(8760))


def test_the_year_of_an_inland_home_has_the_shares_it_was_known_by() -> None:
    """Share held for a day, shortest and median. Source: the separate simulation of `CHANCES`."""
    held = inland_hours()
    assert float((held >= 24.0).mean()) == pytest.approx(0.7906, abs=5e-4)
    assert float((held >= 48.0).mean()) == 0.0
    assert held.min() == pytest.approx(13.11, abs=0.01)
    assert np.median(held) == pytest.approx(26.84, abs=0.01)


@pytest.mark.parametrize("mean, variation, chance", CHANCES)
def test_the_chance_of_an_inland_home(mean: float, variation: float, chance: float) -> None:
    mu, sigma = lognormal_parameters(mean * HOUR, variation)
    low, high = ride_through_chance(inland_hours() * HOUR, np.zeros(8760, np.bool_), mu, sigma)
    assert (low, high) == pytest.approx((chance, chance), abs=6e-4)
