"""What a dated answer claims is tried: assumptions filled in, questions answered, alternatives."""

import json
import re
from functools import cache
from typing import Any

import pytest

from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.checks.outage_runtime.verdicts import verdicts
from service.climate import climate_sites
from service.findings import Verdict, rank
from service.quantities.encoder import round_answer, to_json
from tests.checks.outage_runtime.asking import Body, answered, load, taken
from tests.checks.outage_runtime.reruns import filled
from tests.checks.outage_runtime.year_open import OPEN, ROOF, targets, year_rerun
from tests.checks.outage_runtime.year_requests import array, dated, generator, site, solar

ALL_SITES = tuple(climate_sites())


@cache
def of(name: str, target: float | None = None) -> OutageRuntimeAnswer:
    return answered(OPEN[name] if target is None else at(name, target))


def fill_all(body: Body) -> Body:
    """Fill in every assumption of the answer as the caller reads it, by its pointer."""
    told: Any = json.loads(to_json(round_answer(answered(body))))
    for assumption in told["assumptions"]:
        body = filled(body, assumption["pointer"], assumption["value"])
    return body


def numbers(answer: OutageRuntimeAnswer) -> list[float]:
    """Return the hours of all readings, and the shares and percentiles of the year."""
    found = [answer.hours_low, answer.hours_typical, answer.hours_high]
    found += [one.hours_to_dark for one in answer.readings]
    if answer.year is not None:
        for share in answer.year.shares:
            found += [share.from_start_percent, share.from_full_percent]
        for one in answer.year.percentiles:
            found += [one.from_start_hours, one.from_full_hours]
        for weather in answer.year.weather:
            found += [weather.high_use_hours, weather.typical_hours]
    return found


@pytest.mark.parametrize("name", OPEN)
def test_assumptions_filled_in_give_the_same_numbers_and_no_worse_verdict(name: str) -> None:
    """The answer then carries neither those assumptions nor questions about their fields."""
    before, after = of(name), answered(fill_all(OPEN[name]))
    # A filled-in number is what the answer prints, rounded to four places or so.
    assert numbers(after) == pytest.approx(numbers(before), rel=2e-3, abs=0.02)
    assert rank(after.verdict) >= rank(before.verdict)
    assert after.assumptions == []
    stated = {assumption.pointer for assumption in before.assumptions}
    assert not stated & {question.pointer for question in after.questions}


def at(name: str, target: float) -> Body:
    return OPEN[name] | {"target_hours": target}


def rerun(bodies: list[Body]) -> list[Verdict]:
    return verdicts([taken(body) for body in bodies])


@pytest.mark.parametrize("name", OPEN)
def test_a_question_changes_the_verdict_exactly_where_it_claims_to(name: str) -> None:
    """Every value of its range is tried, at targets about the edges; the place by its sites."""
    for target in targets(name):
        body = at(name, target)
        answer = of(name, target)
        for question in answer.questions:
            if question.pointer == "/climate":
                if question.can_change_verdict:
                    sites = [filled(body, "/climate", site(one)) for one in ALL_SITES]
                    assert set(rerun(sites)) != {answer.verdict}
                continue
            if question.range is None:
                assert not question.can_change_verdict, question.pointer
                continue
            reruns = [filled(body, question.pointer, value) for value in question.range]
            flips = any(verdict != answer.verdict for verdict in rerun(reruns))
            assert question.can_change_verdict == flips, (target, question.pointer)


def test_the_open_requests_bring_questions_that_decide_and_others() -> None:
    asked: dict[str, set[bool]] = {}
    for name in OPEN:
        for target in targets(name):
            for one in of(name, target).questions:
                asked.setdefault(one.pointer, set()).add(one.can_change_verdict)
    for pointer in ("/solar/system_losses_percent", "/solar/arrays/0/shading_percent"):
        assert asked[pointer] == {True, False}, pointer
    for pointer in ("/solar/backed_up", "/generator/connection", "/climate"):
        assert True in asked[pointer], pointer


def _alternatives(body: Body) -> None:
    """Rerun every alternative of an answer, alone."""
    answer = answered(body)
    for alternative in answer.alternatives:
        changed = year_rerun(body, alternative)
        alone = answered(changed)
        assert alternative.verdict == alone.verdict, alternative.id
        assert alternative.flips_verdict == (alone.verdict != answer.verdict), alternative.id
        printed = re.findall(r"([0-9.]+) h\b", alternative.statement)[0]
        # Printed rounded down to a tenth; the target is read with what is put up with in the dark.
        if not body.get("dark_allowed"):
            assert 0 <= alone.hours_typical - float(printed) + 1e-6 < 0.1 + 1e-5, alternative.id


TIERED = [load(200), load(300, name="N", tier="normal"), load(400, name="C", tier="comfort")]
CONTROL: Body = {
    "comfort_shed_percent": 50,
    "normal_shed_percent": 25,
    "hysteresis_percent": 10,
}
BESIDE: dict[str, Body] = {
    "sun, about what is held": dated(target_hours=10),
    "sun, 90 of 100 days": dated(starts_carried_percent=90, target_hours=12),
    "tiers and load control": dated(rows=TIERED, load_control=CONTROL, target_hours=8),
    "tiers alone": dated(rows=TIERED, target_hours=4, solar=solar(array(9, coupling="dc"))),
    "a generator and sun": dated(
        generator=generator(quiet_hours=[{"start_hour": 21, "end_hour": 8}])
    ),
    "a generator apart": dated(generator=generator(connection="transfer_switch")),
    "dark for a while": dated(
        dark_allowed=14, restart={"mode": "pv_black_start", "least_kw": 0.2, "wait": 5}
    ),
    "solar on the grid's side": dated(solar=solar(backed_up=False)),
}


@pytest.mark.parametrize("name", BESIDE)
def test_every_alternative_is_its_rerun(name: str) -> None:
    """Verdict and hours are those of the request that states what the alternative supposes."""
    _alternatives(BESIDE[name])


def test_the_requests_bring_every_alternative_of_the_year() -> None:
    met = {one.id for body in BESIDE.values() for one in answered(body).alternatives}
    assert {
        *("no-sun", "sun-backed-up", "no-generator", "generator-joins-battery", "most-days"),
        *("every-day", "no-restart"),
    } <= met


#: A pass with one fact open -> values of its stated or admissible range.
_STRONG: Body = {
    "rows": [load(150)],
    "unit": {"energy": {"kind": "usable", "kwh": 60}, "reserve_percent": 100, "continuous_kw": 8},
    "target_hours": 120,
}
UNKNOWN: list[tuple[str, Body, str, list[Any]]] = [
    ("which side", dated(**_STRONG, solar=solar(backed_up=None)), "/solar/backed_up", [0, 1]),
    (
        "the place",
        dated(**_STRONG, climate=None),
        "/climate",
        [site(one) for one in ("arcata", "daggett", "blue_canyon", "santa_maria")],
    ),
    (
        "too far",
        dated(**_STRONG, climate={"kind": "point", "latitude": 45.0, "longitude": -100.0}),
        "/climate",
        [site("arcata"), site("daggett")],
    ),
    (
        "far, not accepted",
        dated(**_STRONG, climate={"kind": "point", "latitude": 39.5, "longitude": -118.4}),
        "/climate/accept_far",
        [True],
    ),
    (
        "shade",
        dated(**_STRONG, solar=solar(array(shading_percent=None))),
        "/solar/arrays/0/shading_percent",
        [0, 10, 30, [30] * 12],
    ),
    (
        "the generator's connection",
        dated(**_STRONG, solar=None, climate=None, generator=generator(connection=None)),
        "/generator/connection",
        ["inverter_input", "transfer_switch"],
    ),
    ("solar's losses", dated(**_STRONG, solar=ROOF), "/solar/system_losses_percent", [10, 20]),
    ("the year's sun", dated(**_STRONG, solar=ROOF), "/solar/yield_factor", [0.97, 1.12]),
]


@pytest.mark.parametrize("what, body, pointer, values", UNKNOWN, ids=[row[0] for row in UNKNOWN])
@pytest.mark.parametrize("target", [24, 120, 168, 300])
def test_an_unknown_never_helps(
    what: str, body: Body, pointer: str, values: list[Any], target: float
) -> None:
    """No value filled in turns a pass into anything else."""
    open_ = _nothing_none(body) | {"target_hours": target}
    (before,) = rerun([open_])
    if before == Verdict.PASS:
        values = [bool(one) if pointer.endswith("backed_up") else one for one in values]
        after = rerun([filled(open_, pointer, value) for value in values])
        assert set(after) == {Verdict.PASS}, what


def _nothing_none(body: Body) -> Body:
    found: Body = json.loads(json.dumps(body))
    for part in (
        found.get("solar", {}),
        found.get("generator", {}),
        *found.get("solar", {}).get("arrays", []),
    ):
        for name in [name for name, value in part.items() if value is None]:
            del part[name]
    return found
