"""What was assumed, filled in: the same numbers, nothing left to assume."""

from __future__ import annotations

import pytest

from tests.assessment.leads import LEADS
from tests.assessment.sites import Json, asked, assess, assumed, hours, known_site, put, ranked

_EVERY_LEAD = pytest.mark.parametrize("site", LEADS.values(), ids=LEADS)

_SEASONS = ("summer", "winter")


def _filled(site: Json) -> tuple[Json, Json]:
    answer = assess(site)
    return answer, assess(put(site, *assumed(answer)))


@_EVERY_LEAD
def test_filled_in_assumptions_give_the_same_numbers(site: Json) -> None:
    answer, filled = _filled(site)
    assert filled["needs"] == answer["needs"]
    assert [hours(c) for c in filled["candidates"]] == [hours(c) for c in answer["candidates"]]
    assert [c["id"] for c in filled["candidates"]] == [c["id"] for c in answer["candidates"]]


@_EVERY_LEAD
def test_filled_in_assumptions_give_a_verdict_the_same_or_better(site: Json) -> None:
    answer, filled = _filled(site)
    pairs = [(answer, filled), *zip(answer["candidates"], filled["candidates"], strict=True)]
    for before, after in pairs:
        assert ranked(after["verdict"]) >= ranked(before["verdict"])


@_EVERY_LEAD
def test_filled_in_assumptions_are_gone_and_so_are_their_questions(site: Json) -> None:
    answer, filled = _filled(site)
    assert filled["assumptions"] == []
    assert not {item["pointer"] for item in answer["assumptions"]} & set(asked(filled))


@_EVERY_LEAD
def test_nothing_stands_twice(site: Json) -> None:
    answer = assess(site)
    for name, key in (
        ("assumptions", "pointer"),
        ("questions", "pointer"),
        ("cautions", "id"),
        ("sources", "id"),
    ):
        found = [item[key] for item in answer[name]]
        assert len(found) == len(set(found)), name


@_EVERY_LEAD
def test_every_source_that_is_cited_is_listed(site: Json) -> None:
    answer = assess(site)
    findings = [f for c in answer["candidates"] for check in c["checks"] for f in check["findings"]]
    cited = {s for f in (*answer["findings"], *findings) for s in f["sources"]}
    cited |= {item["source"] for item in answer["assumptions"] if item["source"]}
    assert cited <= {source["id"] for source in answer["sources"]}


@_EVERY_LEAD
def test_a_range_of_numbers_is_told_from_low_to_high_and_holds_the_value(site: Json) -> None:
    for item in assess(site)["assumptions"]:
        ends = item["range"]
        if ends is None:
            continue
        if isinstance(item["value"], str):
            assert item["value"] in ends
        else:
            assert ends == sorted(ends)
            assert ends[0] <= item["value"] <= ends[-1]


def test_where_everything_is_known_nothing_is_assumed_and_nothing_is_asked() -> None:
    answer = assess(known_site())
    assert (answer["assumptions"], answer["questions"], answer["rounds"]) == ([], [], [])


def test_a_permit_date_that_was_not_stated_is_the_releases_and_listed() -> None:
    site = known_site()
    del site["permit_date"]
    assert [(a["pointer"], a["value"]) for a in assess(site)["assumptions"]] == [
        ("/permit_date", "2026-11-01")
    ]


def test_a_reserve_that_nobody_stated_is_assumed_once_for_all_candidates() -> None:
    answer = assess(LEADS["two candidates"])
    found = [a for a in answer["assumptions"] if a["pointer"].endswith("/reserve_percent")]
    assert [(a["pointer"], a["range"]) for a in found] == [
        ("/equipment/reserve_percent", [0.0, 100.0])
    ]
    assert "/equipment/reserve_percent" in asked(answer)


def test_a_candidates_own_reserve_goes_before_that_of_the_equipment() -> None:
    site = known_site()
    stated = hours(assess(site)["candidates"][0])
    pointer = "/equipment/reserve_percent"
    assert hours(assess(put(site, (pointer, 5)))["candidates"][0]) == stated


@pytest.mark.parametrize("worse", _SEASONS)
def test_a_season_that_was_not_stated_is_the_worse_one(worse: str) -> None:
    always = {"kind": "own", "name": "Pump", "watts": 50}
    at_times = {"kind": "own", "name": "Fan", "watts": 100, "season": worse}
    site = known_site(wishes={"loads": [always, at_times], "target_hours": 24})
    answer = assess(site)
    found = {s: hours(assess(put(site, ("/wishes/season", s)))["candidates"][0]) for s in _SEASONS}
    assert dict(assumed(answer))["/wishes/season"] == worse
    assert hours(answer["candidates"][0]) == found[worse]
    assert found[worse]["hours-low"] == min(one["hours-low"] for one in found.values())
