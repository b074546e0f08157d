"""What heat leaves of the inverter: never starts a larger motor, shown with both results."""

import json
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.checks.surge_feasibility import CHECK
from service.checks.surge_feasibility.answer import SurgeFeasibilityAnswer
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.findings import Finding, Verdict, rank
from service.http.answering import Answering
from tests.checks.surge_feasibility.requests import COMPRESSOR, LARGE, Body, answer, body, refused

_ANSWERING = Answering(CHECK)


def heat(low: float, high: float | None = None, worst: float | None = None) -> Body:
    """Return what heat leaves [%]."""
    found = {"power_percent_low": low, "power_percent_high": low if high is None else high}
    return found | ({} if worst is None else {"power_percent_worst": worst})


def asked(derating: Body | None, locked: float = 77.0, **more: Any) -> Body:
    """Return a compressor of some size on the large inverter, with what heat leaves."""
    # A larger motor of the same kind runs at more amps too, in proportion.
    motor = COMPRESSOR | {"locked_rotor_a": locked, "rated_load_a": locked * 14 / 77}
    made = body(motor, **more)
    return made if derating is None else made | {"heat_derating": derating}


def in_heat(found: SurgeFeasibilityAnswer) -> Finding:
    """Return the finding on the hottest days."""
    (one,) = [one for one in found.findings if one.rule == "power-in-the-heat"]
    return one


def taken(made: Body) -> SurgeFeasibilityRequest:
    """Return the request as it comes in."""
    request, _ = _ANSWERING.take(json.dumps(made).encode())
    assert isinstance(request, SurgeFeasibilityRequest)
    return request


def test_all_of_the_power_changes_nothing() -> None:
    whole, hot = answer(asked(None)), answer(asked(heat(100)))
    assert whole.verdict is Verdict.PASS
    assert (hot.verdict, hot.conditions, hot.motors) == (
        whole.verdict,
        whole.conditions,
        whole.motors,
    )
    assert in_heat(hot).verdict is Verdict.PASS


STANDS = [
    # Locked-rotor amps of 77 on 130 A for 0.4 s: at half of it the start is not carried.
    (heat(100, 100, 98), Verdict.PASS),
    (heat(30), Verdict.FAIL),
    (heat(100, 100, 30), Verdict.CONDITIONAL),
    (heat(30, 100), Verdict.UNDETERMINED),
    (heat(0), Verdict.FAIL),
    (heat(100, 100, 0), Verdict.CONDITIONAL),
]


@pytest.mark.parametrize("derating, verdict", STANDS)
def test_the_start_stands_as_the_power_that_is_left(derating: Body, verdict: Verdict) -> None:
    found = answer(asked(derating))
    assert in_heat(found).verdict is verdict
    assert found.verdict is verdict
    assert CHECK.verdicts([taken(asked(derating))]) == [verdict]


def test_both_results_are_shown() -> None:
    found = answer(asked(heat(100, 100, 0)))
    shown = {one.id: one for one in found.alternatives}
    assert (shown["in-the-heat"].verdict, shown["in-the-heat-at-worst"].verdict) == (
        Verdict.PASS,
        Verdict.FAIL,
    )
    assert found.conditions == ["the hottest days leave 100 % of the power, as estimated"]


def test_the_motor_is_shown_with_all_of_the_power() -> None:
    assert answer(asked(heat(30))).motors == answer(asked(None)).motors


def test_two_counts_of_one_heat_are_not_multiplied() -> None:
    """Its own derating leaves 90 % of the continuous rating: 95 % of the heat takes no more."""
    own = {"ambient": 113, "above": 104, "percent_per_kelvin": 2.0}
    bare = asked(None, inverter=LARGE | {"derating": own})
    hot = bare | {"heat_derating": heat(95, 95)}
    assert in_heat(answer(hot)).verdict is Verdict.PASS
    amps = answer(bare).steady.leg_likely_a
    assert answer(hot).steady.leg_likely_a == amps


def test_the_caution_on_heat_goes_where_heat_is_counted() -> None:
    def cautions(made: Body) -> set[str]:
        return {one.id for one in answer(made).cautions}

    assert "heat-derates" in cautions(asked(None))
    assert "heat-derates" not in cautions(asked(heat(90)))


def test_heat_without_an_inverter_and_ends_out_of_order_are_refused() -> None:
    alone = asked(heat(90)) | {"generator": {"rated_kw": 12}}
    del alone["inverter"]
    assert refused(alone) == ["/heat_derating"]
    assert refused(asked(heat(60, 50))) == ["/heat_derating/power_percent_high"]
    assert refused(asked(heat(60, 70, 65))) == ["/heat_derating/power_percent_worst"]


ENDS = st.lists(st.floats(0, 100), min_size=3, max_size=3).map(sorted)
AMPS = st.floats(30, 160)
BEYOND = st.sampled_from(["folds_back", "trips", None])


@settings(max_examples=30, deadline=None)
@given(ENDS, ENDS, AMPS, AMPS, BEYOND, st.floats(0, 4000))
def test_hotter_never_starts_a_larger_motor(
    cool: list[float],
    hot: list[float],
    first: float,
    second: float,
    beyond: str | None,
    watts: float,
) -> None:
    inverter = LARGE | ({} if beyond is None else {"beyond_rating": beyond})
    smaller, larger = sorted((first, second))
    hotter = [min(pair) for pair in zip(cool, hot, strict=True)]
    made = [
        asked(None, smaller, inverter=inverter, watts=watts),
        asked(heat(cool[1], cool[2], cool[0]), smaller, inverter=inverter, watts=watts),
        asked(heat(hotter[1], hotter[2], hotter[0]), larger, inverter=inverter, watts=watts),
    ]
    found = CHECK.verdicts([taken(one) for one in made])
    for milder, harder in pairwise(found):
        assert rank(harder) <= rank(milder)
