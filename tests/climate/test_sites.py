"""Places and percentiles of the climate sites agree with their hours, and say what they rest on."""

from collections.abc import Callable

import numpy as np
import pytest

from service.climate import TERRAIN_CLASSES, ClimateSite, cite_site, climate_sites, typical_year
from service.published import Standing, load
from tests.climate.tables import table

SITES = climate_sites()
EACH = pytest.mark.parametrize("site", SITES.values(), ids=SITES)
DAYS = np.array([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])
HANDBOOK = table("handbook_design_values")
# state | least and most latitude, then longitude [deg]. Source: from memory, rounded out.
BOXES = {
    "AZ": (31.3, 37.1, -114.9, -109.0),
    "CA": (32.5, 42.1, -124.5, -114.1),
    "CO": (36.9, 41.1, -109.1, -102.0),
    "FL": (24.4, 31.1, -87.7, -79.9),
    "IL": (36.9, 42.6, -91.6, -87.0),
    "NV": (35.0, 42.1, -120.1, -114.0),
    "TX": (25.8, 36.6, -106.7, -93.5),
    "WA": (45.5, 49.1, -124.8, -116.9),
}


def celsius(site: ClimateSite) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    return typical_year(site.id).dry_bulb - 273.15


def test_72_sites_stand_in_california_and_9_elsewhere() -> None:
    assert sum(site.state == "CA" for site in SITES.values()) == 72
    assert len(SITES) == 81


@EACH
def test_a_site_lies_in_its_state_and_near_its_meridian(site: ClimateSite) -> None:
    south, north, west, east = BOXES[site.state]
    assert south < site.latitude_deg < north
    assert west < site.longitude_deg < east < 0.0
    assert abs(site.longitude_deg / 15.0 - site.utc_offset_h) < 1.0
    assert -100.0 < site.elevation_m < 3000.0


@EACH
def test_a_site_has_a_terrain_and_in_california_a_zone(site: ClimateSite) -> None:
    assert site.terrain_class in TERRAIN_CLASSES
    assert (site.climate_zone is not None) == (site.state == "CA")
    assert site.climate_zone is None or 1 <= site.climate_zone <= 16


def test_every_class_of_terrain_has_a_site() -> None:
    assert {site.terrain_class for site in SITES.values()} == set(TERRAIN_CLASSES)


# What a column holds, by the hours themselves.
PERCENTILES: list[tuple[str, Callable[[ClimateSite], float], float]] = [
    ("cooling_0_4_c", lambda site: site.cooling_0_4_c, 99.6),
    ("heating_99_6_c", lambda site: site.heating_99_6_c, 0.4),
    ("max_c", lambda site: site.max_c, 100.0),
    ("min_c", lambda site: site.min_c, 0.0),
]


@EACH
def test_percentiles_of_the_year_are_those_of_the_shipped_hours(site: ClimateSite) -> None:
    for name, value, percent in PERCENTILES:
        assert value(site) == pytest.approx(np.percentile(celsius(site), percent), abs=0.06), name


@EACH
def test_monthly_values_are_those_of_the_shipped_hours(site: ClimateSite) -> None:
    ends = np.cumsum(DAYS)
    for month, days in enumerate(np.split(celsius(site).reshape(365, 24), ends[:-1])):
        assert site.db_0_4_c[month] == pytest.approx(np.percentile(days, 99.6), abs=0.06)
        ranges = days.max(axis=1) - days.min(axis=1)
        assert site.mean_range_k[month] == pytest.approx(ranges.mean(), abs=0.06)


@EACH
def test_extremes_lie_outside_percentiles(site: ClimateSite) -> None:
    assert site.max_c >= site.cooling_0_4_c > site.heating_99_6_c >= site.min_c
    assert len(site.db_0_4_c) == len(site.mean_range_k) == 12
    assert max(site.db_0_4_c) <= site.max_c
    assert 0.0 <= site.not_observed_percent < 100.0


def test_no_design_value_of_another_publisher_ships() -> None:
    """Percentile columns are those of the typical year alone: there is no tau, no extreme year."""
    numeric = load("climate_sites").header.units
    place = {"latitude_deg", "longitude_deg", "elevation_m", "utc_offset_h"}
    others = set(numeric) - place - {"dry_bulb_not_observed_pct"}
    assert len(others) == 41
    assert all(column.startswith("tmy3_") for column in others)
    for row in load("climate_sites").rows.values():
        assert "ashrae" not in " ".join(row.values()).lower()


def test_the_handbooks_hot_percentile_lies_above_that_of_the_typical_year() -> None:
    """Its 0.4 % dry bulb exceeds the typical year's by 1.1 K in the mean, -0.3 to +3.2 K."""
    differences = [
        HANDBOOK.number(key, "cooling_0_4_c") - SITES[key].cooling_0_4_c for key in HANDBOOK.rows
    ]
    assert len(differences) == 24
    assert np.mean(differences) == pytest.approx(1.1, abs=0.05)
    assert min(differences) == pytest.approx(-0.3, abs=0.05)
    assert max(differences) == pytest.approx(3.2, abs=0.05)


def test_monthly_percentiles_lie_lower_still() -> None:
    """Month by month the handbook lies 2.1 K above in the median; one month in ten 5.8 K."""
    differences = [
        HANDBOOK.number(key, f"db_0_4_m{month:02d}_c") - SITES[key].db_0_4_c[month - 1]
        for key in HANDBOOK.rows
        for month in range(1, 13)
    ]
    low, middle, high = np.percentile(differences, [10, 50, 90])
    assert low == pytest.approx(-0.4, abs=0.1)
    assert middle == pytest.approx(2.1, abs=0.1)
    assert high == pytest.approx(5.8, abs=0.1)


# column | standing of an instance. Source: the header and rows of table climate_sites.
STANDINGS = [
    ("latitude_deg", "fresno", Standing.PUBLISHED),
    ("climate_zone", "fresno", Standing.SECONDARY),
    ("climate_zone", "bishop", Standing.FROM_MEMORY),
    ("terrain_class", "fresno", Standing.COMMON_PRACTICE),
    ("tmy3_cooling_0_4_c", "fresno", Standing.DERIVED),
]


@pytest.mark.parametrize("column, site, standing", STANDINGS)
def test_each_part_of_a_row_says_how_well_it_is_known(
    column: str, site: str, standing: Standing
) -> None:
    assert load("climate_sites").cite(site, column).standing is standing


@EACH
def test_a_site_is_cited_by_its_published_hours(site: ClimateSite) -> None:
    source = cite_site(site.id)
    assert source.id == f"climate_sites/{site.id}"
    assert source.standing is Standing.PUBLISHED
    assert "TMY3" in source.title
