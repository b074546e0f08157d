"""Yearly yield of every climate site against pvlib's whole chain over the same weather."""

from functools import cache

import numpy as np
import pytest
from numpy.typing import NDArray

from service.climate import climate_sites, typical_year
from service.physics.irradiance_on_plane import extraterrestrial_normal, plane_of_array
from service.physics.photovoltaics import array_power
from service.physics.sun_position import sun_position
from tests.reference.test_published_cases import reference

Floats = NDArray[np.float64]

YIELD = reference("reference_yield")
FIRST_DAYS = np.array([0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334])


@cache
def chain(site: str) -> tuple[Floats, Floats]:
    """Return irradiance on the plane [kWh/m2] and AC energy per kW [kWh], shape (365,)."""
    place, year = climate_sites()[site], typical_year(site)
    zenith, azimuth = sun_position(
        np.arange(8760) + 0.5,
        np.radians(place.latitude_deg),
        np.radians(place.longitude_deg),
        place.utc_offset_h * 3600.0,
    )
    outside = extraterrestrial_normal(np.arange(8760) // 24 + 1)
    sky = (year.ghi, year.dni, year.dhi, zenith, azimuth)
    poa = plane_of_array(*sky, np.radians(20.0), np.pi, outside, 0.2)
    power = array_power(
        poa,
        year.dry_bulb,
        rated=1000.0,
        losses=0.14,
        temperature_coefficient=0.004,
        inverter_efficiency=0.96,
        inverter_limit=np.inf,
    )
    return poa.reshape(365, 24).sum(axis=1) / 1e3, power.reshape(365, 24).sum(axis=1) / 1e3


def three_days(daily: Floats) -> Floats:
    """Return the mean of each day and the two that follow, around the turn of the year."""
    return np.asarray((daily + np.roll(daily, -1) + np.roll(daily, -2)) / 3.0)


def test_the_reference_covers_every_climate_site() -> None:
    assert set(YIELD.rows) == set(climate_sites())


@pytest.mark.parametrize("site", YIELD.rows)
def test_a_year_yields_what_pvlib_says(site: str) -> None:
    """Within 1 %, in light on the plane and in AC energy."""
    poa, energy = chain(site)
    assert poa.sum() == pytest.approx(YIELD.number(site, "annual_poa_kwh_m2"), rel=0.01)
    assert energy.sum() == pytest.approx(YIELD.number(site, "annual_kwh_per_kwdc"), rel=0.01)


@pytest.mark.parametrize("site", YIELD.rows)
def test_every_month_yields_what_pvlib_says(site: str) -> None:
    """Within 2 %; no month of the reference is so dark, below 20 kWh, that this is too much."""
    months = np.add.reduceat(chain(site)[1], FIRST_DAYS)
    expected = [YIELD.number(site, f"m{month:02d}_kwh_per_kwdc") for month in range(1, 13)]
    assert min(expected) > 20.0
    np.testing.assert_allclose(months, expected, rtol=0.02)


@pytest.mark.parametrize("site", YIELD.rows)
def test_the_worst_three_days_are_those_that_pvlib_finds(site: str) -> None:
    """They start on the same day, and their light and their energy are within 3 %."""
    poa, energy = (three_days(daily) for daily in chain(site))
    first = np.datetime64("2023-01-01") + int(np.argmin(poa))
    assert str(first)[5:] == YIELD.row(site)["worst_3day_first_date"]
    light = YIELD.number(site, "worst_3day_mean_poa_kwh_m2_day")
    assert poa.min() == pytest.approx(light, rel=0.03)
    power = YIELD.number(site, "worst_3day_mean_ac_kwh_per_kwdc_day")
    assert energy.min() == pytest.approx(power, rel=0.03)
