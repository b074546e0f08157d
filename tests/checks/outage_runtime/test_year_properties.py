"""What must hold through any typical year: more battery, more sun, longer spans, rotated years."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.checks.outage_runtime import CHECK
from service.checks.outage_runtime.columns import columns
from service.checks.outage_runtime.year_answer import YearResult
from tests.checks.outage_runtime.asking import Body, answered, load, taken, window
from tests.checks.outage_runtime.reruns import filled
from tests.checks.outage_runtime.year_requests import (
    array,
    cooling,
    dated,
    generator,
    metered_use,
    own_year,
    site,
    solar,
)

FEW = settings(max_examples=6)
_SITES = st.sampled_from(["los_angeles_coast", "sacramento", "arcata", "daggett"])
_ARRAYS = st.lists(
    st.builds(
        lambda kw, tilt, azimuth, coupling: array(
            kw, tilt=tilt, azimuth=azimuth, coupling=coupling
        ),
        st.sampled_from([1.0, 3.0, 8.0]),
        st.sampled_from([0, 20, 60, 90]),
        st.sampled_from([0, 90, 180, 270]),
        st.sampled_from(["ac", "dc"]),
    ),
    min_size=1,
    max_size=3,
)


@st.composite
def homes(draw: Any) -> Body:
    """Return a home with sun whose charge decides nothing: no tiers, no generator."""
    rows = [
        load(draw(st.sampled_from([80, 250, 600]))),
        load(700, name="Evening", windows=window(17, 22), hours_per_day=draw(st.integers(1, 5))),
    ]
    unit = {
        "energy": {"kind": "usable", "kwh": draw(st.sampled_from([5, 12, 30]))},
        "reserve_percent": draw(st.sampled_from([20, 60, 100])),
        "charge_kw": draw(st.sampled_from([0.5, 3, 10])),
    }
    return dated(rows=rows, unit=unit, solar=solar(*draw(_ARRAYS)), climate=site(draw(_SITES)))


def year_of(body: Body) -> YearResult:
    found = answered(body, "survival").year
    assert found is not None
    return found


def surveyed(body: Body) -> Any:
    return columns(**CHECK.arguments([taken(body)]))["year"][0].survey().held


@FEW
@given(body=homes(), factor=st.sampled_from([1.001, 1.2, 3.0]))
def test_a_bigger_battery_never_lowers_what_any_start_holds(body: Body, factor: float) -> None:
    """And so no share carried, of the year, of a month or of a start hour."""
    kwh = body["battery"]["energy"]["kwh"]
    small, large = surveyed(body), surveyed(filled(body, "/battery/energy/kwh", kwh * factor))
    assert (large >= small - 1e-6).all()


@FEW
@given(body=homes(), factor=st.sampled_from([1.05, 2.0]))
def test_more_sun_never_lowers_what_any_start_holds(body: Body, factor: float) -> None:
    less, more = surveyed(body), surveyed(filled(body, "/solar/yield_factor", factor))
    assert (more >= less - 1e-6).all()


@FEW
@given(body=homes(), shade=st.sampled_from([5, 40, 100]))
def test_shade_never_lengthens(body: Body, shade: float) -> None:
    clear, shaded = surveyed(body), surveyed(filled(body, "/solar/arrays/0/shading_percent", shade))
    assert (shaded <= clear + 1e-6).all()


@FEW
@given(body=homes())
def test_shares_fall_with_the_duration_and_from_full_to_the_start_charge(body: Body) -> None:
    year = year_of(body)
    groups = [year.shares]
    for by in (year.by_month, year.by_start_hour):
        assert isinstance(by, list)
        groups += [group.shares for group in by]
    assert len(groups) == 1 + 12 + 24
    for shares in groups:
        for start in ("from_start_percent", "from_full_percent"):
            carried = [getattr(share, start) for share in shares]
            assert carried == sorted(carried, reverse=True)
        assert all(one.from_start_percent <= one.from_full_percent + 1e-9 for one in shares)


@FEW
@given(body=homes(), watts=st.sampled_from([1, 50, 400]))
def test_more_load_never_lengthens(body: Body, watts: float) -> None:
    more = filled(body, "/use/rows/0/watts", body["use"]["rows"][0]["watts"] + watts)
    assert (surveyed(more) <= surveyed(body) + 1e-6).all()


ROTATIONS = (1, 40, 200)
TROPIC: Body = {"latitude": 0.0, "longitude": -120.0, "utc_offset_hours": -8}
#: Flat modules and no direct light: nothing depends on where the sun stands, so that a year may be
#: rotated.
_EVEN = solar(array(6, tilt=0, coupling="ac"), array(3, tilt=0, coupling="dc"))


def rotated(days: int) -> Body:
    year = own_year(TROPIC, days) | {"dni_w_m2": [0.0] * 8760}
    year["dhi_w_m2"] = year["ghi_w_m2"]
    return dated(
        use=metered_use(2, days),
        climate=year,
        solar=_EVEN,
        unit={"energy": {"kind": "usable", "kwh": 14}, "charge_kw": 3},
        conditioning=[cooling(size={"kind": "rated", "kw": 0.6})],
    )


@pytest.mark.parametrize("days", ROTATIONS)
def test_use_and_weather_rotated_by_days_rotate_every_start(days: int) -> None:
    """Load and sun shifted together shift the answer, the worst start among it."""
    before, after = surveyed(rotated(0)), surveyed(rotated(days))
    for row in (0, 1):
        for hour in range(0, 8760, 13):
            moved = (hour + 24 * days) % 8760
            assert after[row, moved] == pytest.approx(before[row, hour], rel=1e-9, abs=1e-3)
        assert after[row].min() == pytest.approx(before[row].min(), rel=1e-9, abs=1e-3)


def test_use_rotated_alone_does_not_leave_the_answer_as_it_is() -> None:
    """The rotation is a test of something: without the weather's it moves the starts."""
    alone = rotated(0) | {"use": metered_use(2, 40)}
    assert abs(surveyed(alone) - surveyed(rotated(0))).max() > 3600


@FEW
@given(body=homes())
def test_modules_of_no_power_are_no_solar(body: Body) -> None:
    none = body | {"solar": solar(*(one | {"dc_kw": 0} for one in body["solar"]["arrays"]))}
    without = {name: value for name, value in body.items() if name not in ("solar", "climate")}
    assert [one.hours_to_dark for one in answered(none).readings] == [
        one.hours_to_dark for one in answered(without).readings
    ]


ORDER: list[tuple[str, Body, str, Any]] = [
    # what never shortens: request, pointer, value
    (
        "a larger tank",
        dated(
            solar=None,
            climate=None,
            generator=generator(fuel={"kind": "liquid", "fuel": "diesel", "tank": 2}),
        ),
        "/generator/fuel/tank",
        3,
    ),
    (
        "one refill",
        dated(
            solar=None,
            climate=None,
            generator=generator(fuel={"kind": "liquid", "fuel": "diesel", "tank": 2}),
        ),
        "/generator/fuel/refills",
        1,
    ),
    ("a set-point of more", dated(conditioning=[cooling()]), "/conditioning/0/indoor", 80),
    ("a smaller unit", dated(conditioning=[cooling()]), "/conditioning/0/size/kw", 1.0),
    ("a cooler year", dated(conditioning=[cooling()]), "/outdoor_offset", -9),
    (
        "a restart",
        dated(dark_allowed=12),
        "/restart",
        {"mode": "pv_black_start", "least_kw": 0.5, "wait": 5},
    ),
    ("fewer days to carry", dated(), "/starts_carried_percent", 80),
]


@pytest.mark.parametrize("what, body, pointer, value", ORDER, ids=[row[0] for row in ORDER])
def test_what_never_shortens(what: str, body: Body, pointer: str, value: Any) -> None:
    before, after = answered(body), answered(filled(body, pointer, value))
    for ours, theirs in zip(before.readings, after.readings, strict=True):
        assert theirs.hours_to_dark >= ours.hours_to_dark - 1e-9, what


@pytest.mark.parametrize("offset", [-12, 12])
def test_an_outdoor_offset_means_the_same_for_heating_beside_a_cooling_unit(offset: int) -> None:
    """In winter the cooling unit rests: heating is held as if it stood there alone."""
    heat = cooling(kind="heat_pump_heating", indoor=68, design=-20)
    alone = dated(rows=[load(200)], solar=None, climate=site("truckee"), conditioning=[heat])
    beside = alone | {"conditioning": [heat, cooling(indoor=88, design=120)]}
    ours, theirs = (
        answered(body | {"outdoor_offset": offset, "season": "winter"}) for body in (alone, beside)
    )
    assert theirs.hours_typical == pytest.approx(ours.hours_typical, abs=1e-6)


@pytest.mark.parametrize("kind", ["heat_pump_heating", "resistance_heating"])
def test_a_colder_home_never_lengthens_heating(kind: str) -> None:
    heat = cooling(kind=kind, indoor=68, design=-20)
    body = dated(rows=[load(200)], solar=None, climate=site("truckee"), conditioning=[heat])
    held = [answered(body | {"outdoor_offset": off}).hours_typical for off in (-12, 0, 12)]
    assert held == sorted(held)
    assert held[0] < held[-1]
