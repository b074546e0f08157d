"""Which typical year answers: county and zone by their worst site, distance, tier, consent."""

from functools import cache
from typing import Any

import pytest

from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.checks.outage_runtime.year_answer import ClimateUsed
from service.climate import sites_of_county, sites_of_zone
from service.findings import rank
from tests.checks.outage_runtime.asking import Body, answered, load
from tests.checks.outage_runtime.year_requests import array, cooling, dated, own_year, site, solar
from tests.checks.outage_runtime.year_scalar import place_of_site

_NAMED: Body = {"unit": {"energy": {"kind": "usable", "kwh": 16}, "reserve_percent": 100}}
#: Homes whose worst site differs: little sun, a north roof, heat, cold.
HOMES: dict[str, Body] = {
    "sun": dated(**_NAMED, target_hours=48),
    "a north roof": dated(**_NAMED, solar=solar(array(tilt=60, azimuth=0))),
    "cooling": dated(
        **_NAMED, rows=[load(100)], solar=None, season="summer", conditioning=[cooling()]
    ),
    "heating": dated(
        **_NAMED,
        rows=[load(100)],
        solar=None,
        conditioning=[cooling(kind="resistance_heating", indoor=68, design=30)],
    ),
}
COUNTIES = ("El Dorado", "Monterey")
ZONE = 16


@cache
def by_name(home: str, name: str) -> OutageRuntimeAnswer:
    return answered(HOMES[home] | {"climate": site(name)}, "brief")


def assert_worst(home: str, climate: Body, ids: tuple[str, ...]) -> None:
    """Of the stated temperatures: the error of a county's distance is answered for elsewhere."""
    answer = answered(HOMES[home] | {"climate": climate, "outdoor_offset": 0})
    each = {name: by_name(home, name) for name in ids}
    assert len(each) > 1
    worst = min(each.values(), key=lambda one: (rank(one.verdict), one.hours_typical))
    assert answer.verdict == worst.verdict
    assert answer.hours_typical <= worst.hours_typical + 1e-9
    assert answer.year is not None
    assert answer.year.climate is not None
    assert answer.year.climate.site in each
    assert answer.hours_typical == each[answer.year.climate.site].hours_typical


@pytest.mark.parametrize("county", COUNTIES)
@pytest.mark.parametrize("home", HOMES)
def test_of_a_county_the_worst_of_its_sites_answers(home: str, county: str) -> None:
    """Every site of the county asked by name: none has a worse verdict or a shorter time."""
    climate = {"kind": "county", "state": "CA", "county": county}
    assert_worst(home, climate, tuple(sites_of_county("CA", county)))


@pytest.mark.parametrize("home", HOMES)
def test_of_a_zone_the_worst_of_its_sites_answers(home: str) -> None:
    assert_worst(home, {"kind": "zone", "zone": ZONE}, tuple(sites_of_zone(ZONE)))


def test_a_county_nobody_listed_is_an_unknown_place() -> None:
    answer = answered(dated(climate={"kind": "county", "state": "CA", "county": "Nowhere"}))
    assert answer.verdict == "undetermined"
    assert "climate-unknown" in [finding.rule for finding in answer.findings]


def used(climate: Any) -> ClimateUsed:
    year = answered(dated(climate=climate)).year
    assert year is not None
    assert year.climate is not None
    return year.climate


def near(name: str, **more: Any) -> Body:
    """Return a position near a published station."""
    places = {
        # Position and elevation of the station in the TMY3 list, its terrain as ours.
        "palm_springs": {"latitude": 33.83, "longitude": -116.50, "elevation": 420},
        "sacramento": {"latitude": 38.51, "longitude": -121.50, "elevation": 20},
    }
    return {"kind": "point"} | places[name] | more


POINTS: list[tuple[str, Body, str, str]] = [
    # what, climate, site, how it was chosen
    ("the same ground", near("palm_springs", terrain="low_desert"), "palm_springs", "A"),
    ("ground not known", near("palm_springs"), "palm_springs", "B"),
    ("named", site("palm_springs"), "palm_springs", "named"),
    ("a year of its own", own_year(), "own_year", "own"),
]


@pytest.mark.parametrize("what, climate, name, chosen", POINTS, ids=[row[0] for row in POINTS])
def test_the_answer_says_which_site_and_how_well_it_fits(
    what: str, climate: Body, name: str, chosen: str
) -> None:
    found = used(climate)
    assert (found.site, found.chosen_by) == (name, chosen), what
    if chosen in ("A", "B"):
        assert found.distance_mi is not None
        # A: under 40 km, B: under 80 km; a mile is 1,609.344 m.
        assert found.distance_mi <= (24.86 if chosen == "A" else 49.71)
        assert found.name in found.statement


#: Data: 3 % less to 12 % more; beyond that the tier's own error of 6, 7 and 14 %.
BANDS: list[tuple[str, Body, float, float, float]] = [
    # what, climate, low and high of the sun [%], error of a hot hour [degF]
    ("A", near("palm_springs", terrain="low_desert"), 0.97 * 0.94, 1.12 * 1.06, 9.0),
    ("B", near("palm_springs"), 0.97 * 0.93, 1.12 * 1.07, 19.8),
    (
        "C",
        {"kind": "point", "latitude": 39.5, "longitude": -118.4, "accept_far": True},
        0.97 * 0.86,
        1.12 * 1.14,
        25.2,
    ),
]


@pytest.mark.parametrize("what, climate, low, high, error", BANDS, ids=[row[0] for row in BANDS])
def test_error_bands_by_tier(
    what: str, climate: Body, low: float, high: float, error: float
) -> None:
    found = used(climate)
    assert found.chosen_by == what
    assert found.sun_low_percent == pytest.approx((low - 1) * 100)
    assert found.sun_high_percent == pytest.approx((high - 1) * 100)
    assert found.temperature_error_f == pytest.approx(error)


def test_a_far_site_answers_only_by_consent() -> None:
    far: Body = {"kind": "point", "latitude": 39.5, "longitude": -118.4}
    without = answered(dated(climate=far))
    assert "climate-far" in [finding.rule for finding in without.findings]
    assert without.verdict == "undetermined"
    assert without.year is None or without.year.climate is None
    consenting = answered(dated(climate=far | {"accept_far": True}))
    assert consenting.year is not None
    assert consenting.year.climate is not None
    assert consenting.year.climate.chosen_by == "C"


def test_beyond_200_km_no_consent_helps_and_a_year_of_ones_own_is_asked_for() -> None:
    climate = {"kind": "point", "latitude": 45.0, "longitude": -100.0, "accept_far": True}
    answer = answered(dated(climate=climate))
    assert "climate-too-far" in [finding.rule for finding in answer.findings]
    (question,) = [one for one in answer.questions if one.pointer == "/climate"]
    assert "8,760" in question.question


def test_own_hours_of_a_site_are_the_site() -> None:
    """The published hours of a station sent as the caller's own year: the same hours held."""
    place = place_of_site("los_angeles_coast")
    own = {
        "kind": "own_year",
        "latitude": place.latitude,
        "longitude": place.longitude,
        "utc_offset_hours": place.utc_offset,
        "ghi_w_m2": list(place.ghi),
        "dni_w_m2": list(place.dni),
        "dhi_w_m2": list(place.dhi),
        "dry_bulb_degc": list(place.air),
    }
    ours, theirs = answered(dated(climate=own)), answered(dated())
    assert [one.hours_to_dark for one in ours.readings] == pytest.approx(
        [one.hours_to_dark for one in theirs.readings], abs=1e-9
    )
