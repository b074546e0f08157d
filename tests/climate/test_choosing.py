"""The site chosen for a place, how far it is, and how well it stands for it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.climate import (
    TERRAIN_CLASSES,
    ClimateSite,
    choose_sites,
    cite_tier,
    climate_sites,
    tier,
)
from service.climate.choosing import distances
from service.published import Standing

# Columns: place [deg, deg, m], its terrain; then the best site, its distance and score [km], tier.
# Source: worked out apart from this program by the same rule (haversine, 6,371 km); own rule.
CASES = [
    (34.05, -118.24, 90.0, "inland_valley", "burbank", 19.51, 33.11, "B"),
    (34.05, -118.24, 90.0, None, "santa_monica", 19.70, 23.40, "B"),
    (34.01, -118.49, 30.0, "coast", "santa_monica", 3.77, 6.07, "A"),
    (33.75, -116.36, 75.0, "low_desert", "palm_springs", 15.89, 22.89, "A"),
    (33.13, -117.06, 200.0, "inland_valley", "san_diego_miramar", 30.03, 36.03, "A"),
    (36.74, -119.79, 94.0, "central_valley", "fresno", 8.07, 8.87, "A"),
    (39.10, -120.03, 1900.0, "mountain", "south_lake_tahoe", 22.39, 23.29, "A"),
    (34.24, -116.91, 2060.0, "mountain", "sandberg", 175.04, 243.34, "C"),
    (36.46, -116.87, -58.0, "low_desert", "china_lake", 113.15, 226.65, "C"),
]


@pytest.mark.parametrize("latitude, longitude, elevation, terrain, site, km, score, grade", CASES)
def test_the_best_site_its_distance_score_and_tier(
    latitude: float,
    longitude: float,
    elevation: float,
    terrain: str | None,
    site: str,
    km: float,
    score: float,
    grade: str,
) -> None:
    best = choose_sites(latitude, longitude, elevation, terrain)[0]
    assert (best.site.id, best.tier) == (site, grade)
    assert best.distance_m / 1000.0 == pytest.approx(km, abs=0.006)
    assert best.score / 1000.0 == pytest.approx(score, abs=0.006)


def test_a_place_beyond_every_site_has_no_tier() -> None:
    """Portland's nearest station is 218 km away."""
    found = choose_sites(45.52, -122.68, 15.0, "other_us")
    assert {choice.tier for choice in found} == {"none"}
    assert distances(45.52, -122.68).min() / 1000.0 == pytest.approx(218.0, abs=0.6)


def test_a_nearer_site_of_another_class_comes_second() -> None:
    found = choose_sites(33.13, -117.06, 200.0, "inland_valley", most=81)
    nearest = min(found, key=lambda choice: choice.distance_m)
    assert nearest.site.id == "carlsbad"
    assert found[0].site.id == "san_diego_miramar"
    assert nearest.distance_m < found[0].distance_m


@pytest.mark.parametrize("place", climate_sites().values(), ids=climate_sites())
def test_a_site_stands_for_itself(place: ClimateSite) -> None:
    best = choose_sites(
        place.latitude_deg, place.longitude_deg, place.elevation_m, place.terrain_class
    )[0]
    assert (best.site.id, best.tier) == (place.id, "A")
    assert best.score == pytest.approx(0.0, abs=1e-6)


@pytest.mark.parametrize("elevation, terrain", [(None, "coast"), (53.0, None), (None, None)])
def test_without_elevation_or_terrain_the_tier_is_b_at_best(
    elevation: float | None, terrain: str | None
) -> None:
    best = choose_sites(34.017, -118.45, elevation, terrain)[0]
    assert (best.site.id, best.tier) == ("santa_monica", "B")
    assert (best.elevation_difference_m is None) == (elevation is None)
    assert best.same_class is (None if terrain is None else True)


PLACES = {
    "latitude": st.floats(25.0, 49.0),
    "longitude": st.floats(-125.0, -67.0),
    "elevation": st.none() | st.floats(-90.0, 4000.0),
    "terrain": st.none() | st.sampled_from(TERRAIN_CLASSES),
}


@given(**PLACES)
def test_the_sites_are_ordered_and_no_tier_is_better_than_its_limits(
    latitude: float, longitude: float, elevation: float | None, terrain: str | None
) -> None:
    found = choose_sites(latitude, longitude, elevation, terrain, most=81)
    assert [choice.score for choice in found] == sorted(choice.score for choice in found)
    assert {choice.site.id for choice in found} == set(climate_sites())
    for choice in found:
        assert choice.score >= choice.distance_m
        assert (choice.tier == "none") == (choice.distance_m > 200_000.0)
        rise = choice.elevation_difference_m
        if choice.tier == "A":
            assert choice.same_class is True
            assert choice.distance_m <= 40_000.0
            assert rise is not None
            assert rise <= 100.0
        if choice.tier in ("A", "B"):
            assert choice.distance_m <= 80_000.0
            assert rise is None or rise <= 300.0


@given(**PLACES, most=st.integers(1, 81))
def test_fewer_sites_asked_for_are_the_first_of_more(
    latitude: float, longitude: float, elevation: float | None, terrain: str | None, most: int
) -> None:
    place = (latitude, longitude, elevation, terrain)
    assert choose_sites(*place, most=most) == choose_sites(*place, most=81)[:most]


def test_a_degree_along_a_meridian_is_a_360th_of_its_circumference() -> None:
    there = climate_sites()["fresno"]
    found = choose_sites(there.latitude_deg + 1.0, there.longitude_deg, most=81)
    fresno = next(choice for choice in found if choice.site.id == "fresno")
    assert fresno.distance_m == pytest.approx(111_194.93, abs=0.01)


# tier | error of the year's sun [1] | error of a hot hour [K]
# Source: own comparison of all California stations under 200 km apart, 90th percentiles.
ERRORS = [("A", 0.06, 5.0), ("B", 0.07, 11.0), ("C", 0.14, 14.0)]


@pytest.mark.parametrize("name, sun, heat", ERRORS)
def test_a_tier_names_its_errors_in_numbers_and_words(name: str, sun: float, heat: float) -> None:
    found = tier(name)
    assert (found.yield_error, found.temperature_error_k) == (sun, heat)
    assert f"{sun * 100:.0f} %" in found.words
    assert f"{heat * 1.8:.0f} degF" in found.words
    assert cite_tier(name).standing is Standing.DERIVED


def test_no_tier_has_no_errors() -> None:
    with pytest.raises(KeyError):
        tier("none")
