"""The order of the candidates changes the order of the answer and nothing else."""

from __future__ import annotations

import re
from typing import Any

import pytest

from tests.assessment.leads import LEADS
from tests.assessment.sites import HOME, PLAIN_BATTERY, Json, assess, lead

_BATTERIES = {
    "small": PLAIN_BATTERY,
    "large": {**PLAIN_BATTERY, "count": 4, "reserve_percent": 100},
    "weak": {**PLAIN_BATTERY, "continuous_kw": 0.4},
    "nominal": {"energy": {"kind": "nominal", "kwh": 13}, "continuous_kw": 5, "count": 2},
}
_LOADS = [
    {"kind": "catalogue", "appliance": "refrigerator"},
    {"kind": "catalogue", "appliance": "gas_furnace_fan"},
    {"kind": "catalogue", "appliance": "ac_room_10k", "tier": "critical"},
]
_SITES = {
    "four candidates, the home is known": lead(
        wishes={"loads": _LOADS, "target_hours": 10},
        home=HOME,
        candidates=[{"id": i, "battery": b} for i, b in _BATTERIES.items()],
    ),
    "little is known": lead(
        candidates=[{"id": i, "battery": _BATTERIES[i]} for i in ("small", "large", "nominal")]
    ),
    "a reserve by range": lead(
        home=HOME,
        equipment={"reserve_percent": {"as": "range", "low": 40, "high": 90}},
        candidates=[{"id": i, "battery": _BATTERIES[i]} for i in ("weak", "large", "small")],
    ),
    "apart by season": LEADS["candidates apart by season"],
}


def _orders(site: Json) -> list[Json]:
    """Return the site with its candidates from last to first, and turned by one place."""
    given = site["candidates"]
    return [{**site, "candidates": order} for order in (given[::-1], given[1:] + given[:1])]


def _by_id(site: Json, pointer: str) -> str:
    """Return the pointer with the candidate's id in the place of its number."""
    names = [candidate["id"] for candidate in site["candidates"]]
    return re.sub(r"^/candidates/(\d+)", lambda m: f"/candidates/{names[int(m[1])]}", pointer)


def _content(site: Json, part: str) -> dict[str, Any]:
    """Return one list of the answer by the pointers of its items, whatever their order."""
    return {_by_id(site, item["pointer"]): {**item, "pointer": None} for item in assess(site)[part]}


_EVERY_SITE = pytest.mark.parametrize("site", _SITES.values(), ids=_SITES)


@_EVERY_SITE
def test_each_candidate_is_answered_alike_at_its_new_place(site: Json) -> None:
    known = {candidate["id"]: candidate for candidate in assess(site)["candidates"]}
    for permuted in _orders(site):
        found = assess(permuted)["candidates"]
        assert [c["id"] for c in found] == [c["id"] for c in permuted["candidates"]]
        assert {c["id"]: c for c in found} == known


@_EVERY_SITE
def test_the_site_stands_as_before_in_the_same_words(site: Json) -> None:
    answer = assess(site)
    for permuted in _orders(site):
        again = assess(permuted)
        for name in ("verdict", "summary", "conditions", "needs", "findings", "basis"):
            assert again[name] == answer[name], name


@_EVERY_SITE
def test_the_same_is_assumed(site: Json) -> None:
    for permuted in _orders(site):
        assert _content(permuted, "assumptions") == _content(site, "assumptions")


@_EVERY_SITE
def test_the_same_is_asked_for_the_same_reasons(site: Json) -> None:
    for permuted in _orders(site):
        assert _content(permuted, "questions") == _content(site, "questions")


@_EVERY_SITE
def test_the_same_cautions_and_sources_stand(site: Json) -> None:
    answer = assess(site)
    for permuted in _orders(site):
        again = assess(permuted)
        for name in ("cautions", "sources"):
            assert sorted(item["id"] for item in again[name]) == sorted(
                item["id"] for item in answer[name]
            )
