"""Days that stand for the hottest percentile, the hottest month and a usual day."""

import numpy as np
import pytest

from service.checks.heat_exposure.chosen_days import (
    hottest_month,
    hottest_month_day,
    hottest_percentile_day,
    hours_of_day,
    usual_day,
)
from service.climate import ClimateSite, climate_sites, typical_year

SITES = climate_sites()
EACH = pytest.mark.parametrize("site", SITES.values(), ids=SITES)
DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


def month_of(day: int) -> int:
    return int(np.searchsorted(np.cumsum(DAYS), day, side="right"))


@EACH
def test_the_hottest_percentiles_day_reaches_the_published_percentile(site: ClimateSite) -> None:
    """And no other day that reaches it has more direct sun."""
    year = typical_year(site.id)
    day = hottest_percentile_day(year.dry_bulb, year.dni)
    highest = year.dry_bulb.reshape(365, 24).max(axis=1) - 273.15
    assert highest[day] >= site.cooling_0_4_c - 0.06
    reaching = [d for d in range(365) if highest[d] >= site.cooling_0_4_c + 0.06]
    sun = year.dni.reshape(365, 24).sum(axis=1)
    assert all(sun[d] <= sun[day] for d in reaching)


@EACH
def test_the_hottest_month_is_the_one_of_the_highest_published_value(site: ClimateSite) -> None:
    year = typical_year(site.id)
    month = hottest_month(year.dry_bulb)
    assert site.db_0_4_c[month] == pytest.approx(max(site.db_0_4_c), abs=0.06)
    day = hottest_month_day(year.dry_bulb, year.dni)
    assert month_of(day) == month
    highest = float(hours_of_day(year.dry_bulb, day).max() - 273.15)
    assert highest >= site.db_0_4_c[month] - 0.06


@EACH
def test_the_hottest_months_value_is_no_cooler_than_the_years(site: ClimateSite) -> None:
    """The annual day alone would hide the heat of one month."""
    year = typical_year(site.id)
    month = max(site.db_0_4_c)
    assert month >= site.cooling_0_4_c
    day = hours_of_day(year.dry_bulb, hottest_month_day(year.dry_bulb, year.dni))
    assert float(day.max() - 273.15) >= site.cooling_0_4_c - 0.06


def test_coastal_heat_comes_outside_the_summer_months() -> None:
    """June to August is not where a coastal year is hottest."""
    for site_id in ("los_angeles_coast", "long_beach", "san_diego_coast"):
        assert hottest_month(typical_year(site_id).dry_bulb) not in (5, 6, 7)


@EACH
def test_the_usual_day_lies_in_the_middle_of_the_year(site: ClimateSite) -> None:
    """By its mean temperature: within 1 K of the median day."""
    year = typical_year(site.id)
    means = year.dry_bulb.reshape(365, 24).mean(axis=1)
    assert abs(means[usual_day(year.dry_bulb, year.dni)] - np.median(means)) <= 1.0
    for month in range(12):
        assert month_of(usual_day(year.dry_bulb, year.dni, month)) == month


def test_a_year_made_by_hand() -> None:
    """Two hot days, the sunnier one stands; ties go to the earlier day."""
    air, sun = np.full(8760, 290.0), np.zeros(8760)
    for day, light in ((200, 100.0), (210, 300.0), (220, 300.0)):
        air[day * 24 : day * 24 + 20] = 310.0
        sun[day * 24 + 12] = light
    assert hottest_percentile_day(air, sun) == 210
    assert hottest_month(air) == 6
    assert hottest_month_day(air, sun) == 210
    np.testing.assert_array_equal(hours_of_day(sun, 210), sun[5040:5064])


def test_the_days_of_three_sites_are_the_pinned_ones() -> None:
    """Riverside 11 and 12 Sep, Palm Springs 26 Jun and 12 Jul, Burbank 7 and 4 Sep."""
    # Source: read off the shipped hours by a sort of their daily highest values and direct sums.
    pinned = {"riverside": (253, 254), "palm_springs": (176, 192), "burbank": (249, 246)}
    for site_id, days in pinned.items():
        year = typical_year(site_id)
        found = (
            hottest_percentile_day(year.dry_bulb, year.dni),
            hottest_month_day(year.dry_bulb, year.dni),
        )
        assert found == days, site_id
