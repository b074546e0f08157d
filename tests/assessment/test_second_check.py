"""A second check is composed with the first by its registration alone."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import pytest

from service.assessment.operation import site_assessment
from service.assessment.order import in_order
from service.check import FromSite
from service.checks.outage_runtime import CHECK
from service.findings import ESTIMATE_NOT_DESIGN
from tests.assessment.second_check import ASSUMED, LIMIT, LevelRequest, level_check
from tests.assessment.sites import (
    BATTERY,
    Json,
    asked,
    assess,
    assessment,
    known_site,
    put,
    worst_of,
)

_RESERVE = "/equipment/reserve_percent"
_BOTH = assessment([CHECK, level_check()])
_SMALL = {**BATTERY, "energy": {"kind": "usable", "kwh": 2}}

#: reserve of the equipment, battery, verdicts of the two checks.
_PAIRS = [
    (LIMIT, BATTERY, ["pass", "pass"]),
    (LIMIT - 1, BATTERY, ["pass", "fail"]),
    (LIMIT, _SMALL, ["fail", "pass"]),
    (None, BATTERY, ["pass", "undetermined"]),
    (LIMIT, {**BATTERY, "continuous_kw": None}, ["undetermined", "pass"]),
]


def _site(reserve: float | None, battery: Json = BATTERY) -> Json:
    site = known_site(candidates=[{"id": "one", "battery": battery}])
    return put(site, (_RESERVE, reserve))


@pytest.mark.parametrize("reserve, battery, verdicts", _PAIRS)
def test_a_candidate_stands_as_the_worst_of_both_checks(
    reserve: float | None, battery: Json, verdicts: list[str]
) -> None:
    (candidate,) = assess(_site(reserve, battery), _BOTH)["candidates"]
    assert [check["check"] for check in candidate["checks"]] == ["outage-runtime", "level"]
    assert [check["verdict"] for check in candidate["checks"]] == verdicts
    assert candidate["verdict"] == worst_of(verdicts)


def test_an_open_fact_is_tried_in_both_checks() -> None:
    open_reserve = {"as": "range", "low": 40, "likely": 60, "high": 80}
    answer = assess(put(_site(None), (_RESERVE, open_reserve)), _BOTH)
    assert [c["verdict"] for c in answer["candidates"][0]["checks"]] == ["pass", "pass"]
    assert answer["verdict"] == "undetermined"
    assert asked(answer)[_RESERVE]["can_change_verdict"]


def test_its_questions_stand_at_fields_of_the_site_or_nowhere() -> None:
    questions = asked(assess(_site(None), _BOTH))
    assert set(questions) == {_RESERVE, "/candidates/0/battery/ambient"}
    assert questions["/candidates/0/battery/ambient"]["label"].endswith("of candidate one")


def test_whether_its_question_decides_is_found_by_rerun_not_taken_on_its_word() -> None:
    questions = asked(assess(_site(None), _BOTH))
    assert questions[_RESERVE]["can_change_verdict"]
    assert not questions["/candidates/0/battery/ambient"]["can_change_verdict"]


def test_its_questions_come_in_the_round_of_a_visit() -> None:
    assert {p["round"] for p in assess(_site(None), _BOTH)["rounds"]} == {"visit"}


def test_its_assumptions_stand_at_fields_of_the_site_or_nowhere() -> None:
    found = {a["pointer"]: a["value"] for a in assess(_site(None), _BOTH)["assumptions"]}
    assert found == {_RESERVE: ASSUMED}


def test_cautions_and_sources_of_both_stand_once() -> None:
    answer = assess(_site(None), _BOTH)
    cautions = [caution["id"] for caution in answer["cautions"]]
    sources = [source["id"] for source in answer["sources"]]
    assert cautions.count(ESTIMATE_NOT_DESIGN.id) == cautions.count("level") == 1
    assert sources.count("own") == 1


def test_its_needs_and_figures_are_shown() -> None:
    answer = assess(_site(None), _BOTH)
    assert "level-limit" in [figure["id"] for figure in answer["needs"]]
    assert [f["id"] for f in answer["candidates"][0]["checks"][1]["figures"]] == ["rules"]


def _hours_of_the_first(_site: Any, _candidate: Any, answers: Mapping[str, Any]) -> FromSite:
    return FromSite(LevelRequest(level=answers["outage-runtime"].hours_typical), (), {})


_AFTER = level_check(after=("outage-runtime",), from_site=_hours_of_the_first)


@pytest.mark.parametrize("checks", [[CHECK, _AFTER], [_AFTER, CHECK]], ids=["after", "before"])
def test_a_check_takes_the_answers_of_those_it_stands_after(checks: list[Any]) -> None:
    # From 80 % the battery runs 129 h at typical use, a quarter of that from 20 %.
    answering = assessment(checks)
    enough = known_site()
    less = put(
        known_site(wishes={**known_site()["wishes"], "target_hours": 12}),
        ("/candidates/0/battery/reserve_percent", 20),
    )
    for site, verdict in ((enough, "pass"), (less, "fail")):
        (candidate,) = assess(site, answering)["candidates"]
        assert [c["check"] for c in candidate["checks"]] == ["outage-runtime", "level"]
        assert [c["verdict"] for c in candidate["checks"]] == ["pass", verdict]
        assert candidate["verdict"] == verdict


def test_in_reruns_too_a_check_takes_the_answers_of_those_it_stands_after() -> None:
    # The well pump more than doubles the load: the 129 h fall below 50 h only with a small battery.
    site = put(
        known_site(wishes={**known_site()["wishes"], "target_hours": 6}),
        ("/candidates/0/battery/energy/kwh", 6),
        ("/home/well_pump", None),
    )
    answering = assessment([CHECK, _AFTER])
    stated = {
        pump: assess(put(site, ("/home/well_pump", pump)), answering)["verdict"]
        for pump in ("none", "v240")
    }
    assert stated == {"none": "pass", "v240": "fail"}
    answer = assess(site, answering)
    assert answer["verdict"] == "undetermined"
    assert asked(answer)["/home/well_pump"]["can_change_verdict"]


def _missing(_site: Any, _candidate: Any, _answers: Mapping[str, Any]) -> FromSite:
    return FromSite(None, ("/home/monthly_kwh",), {})


def test_a_check_that_lacks_a_fact_makes_no_pass() -> None:
    answer = assess(known_site(), assessment([CHECK, level_check(from_site=_missing)]))
    assert answer["verdict"] == "undetermined"
    assert [c["verdict"] for c in answer["candidates"]] == ["undetermined"]


def test_the_fact_that_a_check_lacks_is_asked() -> None:
    answer = assess(known_site(), assessment([CHECK, level_check(from_site=_missing)]))
    question = asked(answer)["/home/monthly_kwh"]
    assert question["question"] == "How many kilowatt-hours does an average month's bill show?"
    assert question["ask_by"] == "record"


def test_checks_stand_in_the_order_that_their_answers_need() -> None:
    a, b, c = (
        level_check(check_id="a", after=("c",)),
        level_check(check_id="b", after=("a", "c")),
        level_check(check_id="c"),
    )
    for given in ([a, b, c], [b, a, c], [c, b, a]):
        assert [check.id for check in in_order(given)] == ["c", "a", "b"]


@pytest.mark.parametrize(
    "after",
    [
        {"a": ("a",)},
        {"a": ("b",), "b": ("a",)},
        {"a": ("b",), "b": ("c",), "c": ("a",)},
        {"a": (), "b": ("nobody",)},
    ],
    ids=["itself", "two", "three", "unknown"],
)
def test_checks_that_wait_for_each_other_or_for_nobody_are_refused(
    after: dict[str, tuple[str, ...]],
) -> None:
    checks = [level_check(check_id=name, after=names) for name, names in after.items()]
    with pytest.raises(ValueError, match="wait"):
        in_order(checks)
    with pytest.raises(ValueError, match="wait"):
        site_assessment(checks)
