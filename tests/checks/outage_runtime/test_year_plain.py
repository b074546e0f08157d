"""Where sun and generator do not act the answer is the one without them; bad input is answered."""

import json
import math
from typing import Any

import msgspec
import pytest

from service.checks.outage_runtime import CHECK
from service.findings import Verdict
from service.http.problem import Problem
from tests.checks.outage_runtime.asking import Body, answered, sent, taken
from tests.checks.outage_runtime.year_requests import (
    SOUTH,
    array,
    cooling,
    dated,
    evening_loads,
    generator,
    metered_use,
    own_year,
    site,
    solar,
)

PLAIN = dated(solar=None, climate=None)
#: What may differ where solar or a generator stands there without acting.
_TOLD_APART = ("questions", "alternatives", "cautions", "assumptions", "headline", "findings")


def numbers(body: Body) -> dict[str, Any]:
    """Return the answer without the parts that may tell of what does not act."""
    tree: dict[str, Any] = msgspec.to_builtins(answered(body))
    return {name: value for name, value in tree.items() if name not in _TOLD_APART}


def ids(body: Body, name: str) -> list[str]:
    tree = msgspec.to_builtins(answered(body))
    return [row["rule"] if name == "findings" else row["id"] for row in tree[name]]


NOT_ACTING: list[tuple[str, Body]] = [
    ("on the grid's side", dated(solar=solar(backed_up=False))),
    ("on the grid's side, no climate", dated(solar=solar(backed_up=False), climate=None)),
    ("no modules", dated(solar=solar(array(0, inverter_kw=None)))),
    ("no modules and no climate", dated(solar=solar(array(0)), climate=None)),
    (
        "a generator that stands apart",
        PLAIN | {"generator": generator(connection="transfer_switch")},
    ),
]


@pytest.mark.parametrize("what, body", NOT_ACTING, ids=[row[0] for row in NOT_ACTING])
def test_what_does_not_act_leaves_every_number_as_it_is(what: str, body: Body) -> None:
    assert numbers(body) == numbers(PLAIN), what
    assert answered(body).year is None
    findings = [finding for finding in ids(body, "findings") if finding != "sun-not-counted"]
    assert findings == ids(PLAIN, "findings")


PERHAPS: list[tuple[str, Body]] = [
    ("nobody knows which side", dated(solar=solar(backed_up=None))),
    ("nobody knows how it is connected", PLAIN | {"generator": generator(connection=None)}),
]


@pytest.mark.parametrize("what, body", PERHAPS, ids=[row[0] for row in PERHAPS])
def test_what_might_act_is_not_counted_and_leaves_no_fail(what: str, body: Body) -> None:
    hours = ("readings", "hours_low", "hours_typical", "hours_high", "daily_energy", "power")
    assert {n: numbers(body)[n] for n in hours} == {n: numbers(PLAIN)[n] for n in hours}, what
    (target,) = [one for one in answered(body).findings if one.rule == "target-held"]
    assert target.verdict is not Verdict.FAIL


def test_solar_on_the_grids_side_is_said_to_be_dark() -> None:
    body = dated(solar=solar(backed_up=False))
    assert "sun-dark" in ids(body, "cautions")
    assert "sun-dark" not in ids(dated(), "cautions")
    assert "sun-backed-up" in ids(body, "alternatives"), "what it would bring is shown"


def test_which_side_the_solar_is_on_is_asked_where_nobody_knows() -> None:
    (question,) = [
        one
        for one in answered(dated(solar=solar(backed_up=None))).questions
        if one.pointer == "/solar/backed_up"
    ]
    assert question.range == [False, True]


def test_sun_scaled_to_nothing_is_no_sun() -> None:
    """A year without light: the same hours as without solar, whatever the array's size.

    The loads are the same all year: else a winter outage may end in summer.
    """
    rows = evening_loads()[:2]
    dark = answered(dated(rows=rows, climate=own_year(scale=0.0)))
    alone = answered(dated(rows=rows, solar=None, climate=None))
    for ours, theirs in zip(dark.readings, alone.readings, strict=True):
        assert ours.hours_to_dark == pytest.approx(theirs.hours_to_dark, abs=1e-9)
    assert dark.year is not None
    assert dark.year.poor_spell is None


TAKEN: list[tuple[str, Body]] = [
    # what, request: each has an answer of the contract, never an error
    ("a polar home", dated(climate={"kind": "point", "latitude": 89.9, "longitude": 0})),
    ("a polar year", dated(climate=own_year({**SOUTH, "latitude": 90.0}))),
    ("no sun at all", dated(solar=solar(array(0)))),
    ("modules of 1,000 kW", dated(solar=solar(array(1000, inverter_kw=1000)))),
    ("upright modules", dated(solar=solar(array(tilt=90)))),
    ("modules flat", dated(solar=solar(array(tilt=0, azimuth=360)))),
    ("the southern half of the world", dated(climate=own_year(SOUTH))),
    (
        "an empty tank",
        dated(generator=generator(fuel={"kind": "liquid", "fuel": "diesel", "tank": 0})),
    ),
    ("quiet at night", dated(generator=generator(quiet_hours=[{"start_hour": 22, "end_hour": 7}]))),
    ("quiet all day", dated(generator=generator(quiet_hours=[{"start_hour": 0, "end_hour": 24}]))),
    ("far from any site", dated(climate={"kind": "point", "latitude": 45.0, "longitude": -100.0})),
    ("a battery empty at the start", dated(unit={"reserve_percent": 0})),
    ("the longest target", dated(target_hours=336)),
    ("a start inside a quarter hour", dated(start_hour=17.3)),
]


@pytest.mark.parametrize("what, body", TAKEN, ids=[row[0] for row in TAKEN])
def test_odd_input_has_a_defined_answer(what: str, body: Body) -> None:
    tree = json.loads(sent(body))
    assert tree["verdict"] in set(Verdict), what
    assert tree["readings"]
    assert tree["findings"]


def _liquid(**more: Any) -> Body:
    return generator(fuel={"kind": "liquid", "fuel": "propane", "tank": 5} | more)


def _short(name: str, count: int) -> Body:
    year = own_year()
    return year | {name: (year[name] * 2)[:count]}


REFUSED: list[tuple[str, Body, list[str]]] = [
    # what, request, pointers of the refusal
    ("a year an hour short", dated(climate=_short("ghi_w_m2", 8759)), ["/climate/ghi_w_m2"]),
    ("no hours", dated(climate=_short("dni_w_m2", 0)), ["/climate/dni_w_m2"]),
    (
        "a metered year an hour short",
        dated(use=metered_use() | {"watts": [300.0] * 8759}),
        ["/use/watts"],
    ),
    ("a leap year", dated(use=metered_use() | {"watts": [300.0] * 8784}), ["/use/watts"]),
    (
        "stops before it starts",
        dated(generator=generator(start_percent=80, stop_percent=20)),
        ["/generator/stop_percent"],
    ),
    (
        "half load takes more than full",
        dated(generator=_liquid(full_load_gal_per_hour=1, half_load_gal_per_hour=2)),
        ["/generator/fuel/half_load_gal_per_hour"],
    ),
    (
        "every one of them",
        dated(
            use=metered_use() | {"watts": []},
            climate=_short("dry_bulb_degc", 24),
            generator=generator(start_percent=50, stop_percent=50),
        ),
        ["/use/watts", "/climate/dry_bulb_degc", "/generator/stop_percent"],
    ),
    (
        "modules of 10,000 kW",
        dated(solar=solar(array(10_000, inverter_kw=9))),
        ["/solar/arrays/0/dc_kw"],
    ),
    ("modules of less than nothing", dated(solar=solar(array(-1))), ["/solar/arrays/0/dc_kw"]),
    ("modules overhead", dated(solar=solar(array(tilt=91))), ["/solar/arrays/0/tilt"]),
    (
        "a year of 8,784 hours",
        dated(climate=_short("ghi_w_m2", 8784)),
        ["/climate/ghi_w_m2"],
    ),
    (
        "standard time of the other hemisphere",
        dated(climate=own_year() | {"longitude": -116.4, "utc_offset_hours": 8}),
        ["/climate/utc_offset_hours"],
    ),
    ("no such site", dated(climate=site("nowhere")), ["/climate/site"]),
    ("a tank of less than nothing", dated(generator=_liquid(tank=-1)), ["/generator/fuel/tank"]),
    (
        "eleven months of shade",
        dated(solar=solar(array(shading_percent=[0] * 11))),
        ["/solar/arrays/0/shading_percent"],
    ),
    (
        "beyond the pole",
        dated(climate={"kind": "point", "latitude": 91, "longitude": 0}),
        ["/climate/latitude"],
    ),
]


@pytest.mark.parametrize("what, body, pointers", REFUSED, ids=[row[0] for row in REFUSED])
def test_refused_at_the_place_that_is_wrong(what: str, body: Body, pointers: list[str]) -> None:
    with pytest.raises(Problem) as caught:
        taken(body)
    assert [error.pointer for error in caught.value.errors] == pointers, what
    assert all(len(error.detail) > 20 for error in caught.value.errors), "the remedy is said"


TWICE: list[tuple[str, Body]] = [
    ("sun", dated()),
    ("cooling", dated(conditioning=[cooling()], solar=None)),
    ("generator", dated(generator=generator(), solar=None, climate=None)),
    ("metered", dated(use=metered_use(), solar=None, climate=None)),
]


@pytest.mark.parametrize("what, body", TWICE, ids=[row[0] for row in TWICE])
def test_the_same_request_twice_has_the_same_bytes(what: str, body: Body) -> None:
    assert sent(body, "survival") == sent(body, "survival"), what


def test_a_narrow_band_of_the_generator_is_refused_or_its_cost_foreseen() -> None:
    """From 94.9 to 95 % of 10 kWh are 10 Wh: hundreds of starts an hour, a minute of work."""
    narrow = dated(generator=generator(start_percent=94.9, stop_percent=95))
    refused: list[str] = []
    try:
        cost = CHECK.work(taken(narrow))
    except Problem as problem:
        cost, refused = math.inf, [error.pointer for error in problem.errors]
    assert set(refused) <= {"/generator/stop_percent"}
    assert cost > 10 * CHECK.work(taken(dated(generator=generator())))
