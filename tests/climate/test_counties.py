"""Every county of California and those of the other stations name sites that stand for them."""

import pytest

from service.climate import climate_sites, sites_of_county, sites_of_zone, typical_year
from service.published import load
from tests.climate.tables import table

SITES = climate_sites()
ROWS = load("county_sites").rows.values()
# Source: the 58 counties of California, from memory, not verified; count as in the US census.
NAMES = (
    "Alameda, Alpine, Amador, Butte, Calaveras, Colusa, Contra Costa, Del Norte, El Dorado, "
    "Fresno, Glenn, Humboldt, Imperial, Inyo, Kern, Kings, Lake, Lassen, Los Angeles, Madera, "
    "Marin, Mariposa, Mendocino, Merced, Modoc, Mono, Monterey, Napa, Nevada, Orange, Placer, "
    "Plumas, Riverside, Sacramento, San Benito, San Bernardino, San Diego, San Francisco, "
    "San Joaquin, San Luis Obispo, San Mateo, Santa Barbara, Santa Clara, Santa Cruz, Shasta, "
    "Sierra, Siskiyou, Solano, Sonoma, Stanislaus, Sutter, Tehama, Trinity, Tulare, Tuolumne, "
    "Ventura, Yolo, Yuba"
)
CALIFORNIA = NAMES.split(", ")
STATIONS = table("station_counties").rows


def test_every_county_of_california_has_sites() -> None:
    listed = [row["county"] for row in ROWS if row["state"] == "CA"]
    assert sorted(listed) == CALIFORNIA
    assert len(CALIFORNIA) == 58
    for county in CALIFORNIA:
        assert 1 <= len(sites_of_county("CA", county)) <= 9


def test_a_county_names_known_sites_each_once() -> None:
    for row in ROWS:
        sites = row["sites"].split()
        assert set(sites) <= set(SITES), row["county"]
        assert len(sites) == len(set(sites)), row["county"]


def test_a_county_outside_california_names_its_own_station_first() -> None:
    others = [row for row in ROWS if row["state"] != "CA"]
    assert len(others) == 9
    for row in others:
        first = sites_of_county(row["state"], row["county"])[0]
        assert STATIONS[first]["county"] == row["county"]
        assert SITES[first].state == row["state"]


COUNTIES = sorted({(row["state"], row["county"]) for row in STATIONS.values()})


def worst_three_days(site: str) -> float:
    days = typical_year(site).ghi.reshape(365, 24).sum(axis=1)
    return float(min(days[i : i + 3].sum() for i in range(363)))


@pytest.mark.parametrize("state, county", COUNTIES)
def test_the_harshest_stations_of_a_county_stand_in_its_list(state: str, county: str) -> None:
    """The hottest, the coldest, the one of least sun and of the worst three days."""
    own = [key for key, row in STATIONS.items() if (row["state"], row["county"]) == (state, county)]
    harshest = {
        max(own, key=lambda site: SITES[site].cooling_0_4_c),
        min(own, key=lambda site: SITES[site].heating_99_6_c),
        min(own, key=lambda site: typical_year(site).ghi.sum()),
        min(own, key=worst_three_days),
    }
    assert harshest <= set(sites_of_county(state, county))


# county | kinds of ground it has, which its sites must have too. Source: from memory, geography.
MIXED = [
    ("Los Angeles", {"coast", "inland_valley", "high_desert", "mountain"}),
    ("San Diego", {"coast", "inland_valley", "low_desert"}),
    ("Riverside", {"inland_valley", "low_desert"}),
    ("San Bernardino", {"inland_valley", "high_desert", "low_desert"}),
    ("Kern", {"central_valley", "high_desert", "mountain"}),
    ("Ventura", {"coast", "inland_valley", "mountain"}),
    ("Orange", {"coast", "inland_valley"}),
    ("Alameda", {"coast", "inland_valley"}),
    ("Santa Barbara", {"coast", "inland_valley"}),
    ("El Dorado", {"central_valley", "mountain"}),
    ("Placer", {"central_valley", "mountain"}),
    ("Mendocino", {"coast", "inland_valley"}),
]


@pytest.mark.parametrize("county, terrain", MIXED)
def test_a_mixed_county_has_a_site_for_each_kind_of_ground(county: str, terrain: set[str]) -> None:
    assert {SITES[site].terrain_class for site in sites_of_county("CA", county)} >= terrain


@pytest.mark.parametrize(
    "state, county",
    [
        ("CA", "Los Angeles"),
        ("ca", "los angeles"),
        ("CA", "Los Angeles County"),
        ("CA", "LOS  ANGELES COUNTY"),
        ("CA", " County of Los Angeles "),
    ],
)
def test_a_county_is_known_in_any_case_and_with_the_word_county(state: str, county: str) -> None:
    assert sites_of_county(state, county) == sites_of_county("CA", "Los Angeles") != ()


def test_a_hyphen_in_a_county_may_be_a_space() -> None:
    assert sites_of_county("FL", "Miami Dade") == ("miami_fl",)


@pytest.mark.parametrize(
    "state, county", [("CA", "Atlantis"), ("NV", "Los Angeles"), ("", ""), ("CA", "County")]
)
def test_an_unknown_county_has_no_site(state: str, county: str) -> None:
    assert sites_of_county(state, county) == ()


@pytest.mark.parametrize("zone", range(1, 17))
def test_every_climate_zone_of_california_has_sites_of_that_zone(zone: int) -> None:
    found = sites_of_zone(zone)
    assert found
    assert all(SITES[site].climate_zone == zone for site in found)
    assert all(SITES[site].state == "CA" for site in found)


@pytest.mark.parametrize("zone", [0, 17, -1])
def test_there_is_no_other_climate_zone(zone: int) -> None:
    assert sites_of_zone(zone) == ()
