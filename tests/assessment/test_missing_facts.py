"""A missing fact never helps: what passes without it passes with every value it may have."""

from __future__ import annotations

from itertools import accumulate, combinations
from typing import Any

import pytest

from tests.assessment.sites import (
    BATTERY,
    HOME,
    Json,
    assess,
    known_site,
    put,
    ranked,
    without,
)

_OWN_BATTERY = "/candidates/0/battery"
#: Facts that can be forgotten; a wish (target, start hour, tier) is a criterion, not a fact.
_FORGETTABLE = (
    "/home/type",
    "/home/medical_equipment",
    "/home/well_pump",
    "/home/well_pump_watts",
    "/home/sump_pump",
    "/home/internet",
    f"{_OWN_BATTERY}/energy/depth_of_discharge",
    f"{_OWN_BATTERY}/losses/idle_watts",
    f"{_OWN_BATTERY}/losses/efficiency",
    f"{_OWN_BATTERY}/losses",
    f"{_OWN_BATTERY}/floor_percent",
    f"{_OWN_BATTERY}/ambient",
    f"{_OWN_BATTERY}/end_of_warranty_retention",
    f"{_OWN_BATTERY}/warranty_years",
    f"{_OWN_BATTERY}/reserve_percent",
    f"{_OWN_BATTERY}/continuous_kw",
    f"{_OWN_BATTERY}/count",
    f"{_OWN_BATTERY}/split_phase",
    "/wishes/season",
)


def _with(kwh: float, **changed: Any) -> list[Json]:
    battery = {**BATTERY, "energy": {**BATTERY["energy"], "kwh": kwh}, **changed}
    return [{"id": "one", "battery": battery}]


_SEASONAL = [
    {"kind": "own", "name": "Cooling", "watts": 300, "season": "summer"},
    {"kind": "own", "name": "Pump", "watts": 100, "watts_low": 50, "watts_high": 160},
]
#: Sites of which everything is known and that pass: by far, narrowly, with load control, aged.
_PASSING = {
    "by far": known_site(candidates=_with(400)),
    "narrowly": known_site(candidates=_with(7.5)),
    "with room for the default ends": known_site(candidates=_with(16, reserve_percent=100)),
    "in winter alone": known_site(
        wishes={"loads": _SEASONAL, "target_hours": 24, "season": "winter"},
        candidates=_with(14),
    ),
    "with load control": known_site(
        wishes={
            "loads": [
                {"kind": "own", "name": "Pump", "watts": 100},
                {"kind": "own", "name": "Lamps", "watts": 20, "tier": "normal"},
            ],
            "target_hours": 24,
            "season": "summer",
        },
        equipment={
            "load_control": {
                "comfort_shed_percent": 50,
                "normal_shed_percent": 25,
                "hysteresis_percent": 10,
            }
        },
        candidates=_with(12),
    ),
    "aged": known_site(candidates=_with(18, age_years=8)),
    "weak in winter, short in summer": known_site(
        wishes={
            "loads": [
                {
                    "kind": "own",
                    "name": "Heater",
                    "watts": 2000,
                    "hours_per_day": 1,
                    "windows": [{"start_hour": 18, "end_hour": 19}],
                    "season": "winter",
                },
                {"kind": "own", "name": "Cooling", "watts": 300, "season": "summer"},
            ],
            "target_hours": 6,
            "season": "summer",
        },
        candidates=_with(60, continuous_kw=3),
    ),
    "full of pumps": known_site(
        home={
            **HOME,
            "well_pump": "v240",
            "well_pump_watts": 1000,
            "sump_pump": "one",
            "internet": "keep_running",
        },
        candidates=_with(80),
    ),
}
_EVERY_SITE = pytest.mark.parametrize("site", _PASSING.values(), ids=_PASSING)


def _forget(site: Json, pointer: str) -> Json:
    """Return the site without the field, if it has it."""
    try:
        return without(site, pointer)
    except KeyError:
        return site


def _admissible(item: Json) -> list[Any]:
    """Return what may stand for an assumption: every choice, or both ends and the middle."""
    if item["range"] is None:
        return [item["value"]]
    if isinstance(item["value"], str):
        return list(item["range"])
    low, high = item["range"]
    return [low, (low + high) / 2, high]


@_EVERY_SITE
def test_the_known_site_passes(site: Json) -> None:
    assert assess(site)["verdict"] == "pass"


@_EVERY_SITE
def test_with_one_fact_less_after_the_other_the_verdict_never_gets_better(site: Json) -> None:
    sites = accumulate(_FORGETTABLE, _forget, initial=site)
    verdicts = [ranked(assess(forgotten)["verdict"]) for forgotten in sites]
    assert verdicts == sorted(verdicts, reverse=True)
    assert verdicts[0] > verdicts[-1]


def _passing_with_gaps() -> list[tuple[str, str, Json]]:
    """Return the sites that still pass with one fact forgotten."""
    forgotten = [
        (name, pointer, _forget(site, pointer))
        for name, site in _PASSING.items()
        for pointer in _FORGETTABLE
    ]
    return [case for case in forgotten if assess(case[2])["verdict"] == "pass"]


def test_some_sites_pass_with_a_gap_and_some_gaps_end_a_pass() -> None:
    with_gaps = {pointer for _, pointer, _ in _passing_with_gaps()}
    assert "/home/internet" in with_gaps
    assert f"{_OWN_BATTERY}/losses/efficiency" in with_gaps
    assert "/home/type" not in with_gaps
    assert f"{_OWN_BATTERY}/continuous_kw" not in with_gaps


def test_a_pass_with_a_gap_stays_one_for_every_value_that_may_stand_there() -> None:
    tried = 0
    for name, _, site in _passing_with_gaps():
        assumptions = assess(site)["assumptions"]
        kinds = [
            (a["pointer"], a["value"]) for a in assumptions if a["pointer"].endswith("/losses/kind")
        ]
        for item in assumptions:
            for value in _admissible(item):
                filled = assess(put(site, *kinds, (item["pointer"], value)))
                assert filled["verdict"] == "pass", (name, item["pointer"], value)
                tried += 1
    assert tried > 40


#: Facts of which two may be unknown in a site that passes.
_PAIRED = ("/home/sump_pump", "/home/well_pump", "/home/internet", "/wishes/season")


@_EVERY_SITE
@pytest.mark.parametrize("first, second", list(combinations(_PAIRED, 2)))
def test_a_pass_with_two_gaps_stays_one_for_every_value_that_may_stand_in_one_of_them(
    site: Json, first: str, second: str
) -> None:
    with_gaps = _forget(_forget(site, first), second)
    answer = assess(with_gaps)
    if answer["verdict"] == "pass":
        for item in answer["assumptions"]:
            if item["pointer"] in (first, second):
                for value in item["range"]:
                    filled = assess(put(with_gaps, (item["pointer"], value)))
                    assert filled["verdict"] == "pass", (item["pointer"], value)


@_EVERY_SITE
@pytest.mark.parametrize(
    "pointer, values",
    [
        ("/home/type", ["multi_family_unit"]),
        ("/home/medical_equipment", ["cpap", "other", "oxygen"]),
        ("/wishes/season", ["summer"]),
        (f"{_OWN_BATTERY}/reserve_percent", [0]),
        (f"{_OWN_BATTERY}/floor_percent", [10]),
        (f"{_OWN_BATTERY}/losses/idle_watts", [60]),
        (f"{_OWN_BATTERY}/end_of_warranty_retention", [0.6]),
    ],
)
def test_what_does_not_pass_with_a_fact_known_does_not_pass_without_it(
    site: Json, pointer: str, values: list[Any]
) -> None:
    known = [assess(put(site, (pointer, value)))["verdict"] for value in values]
    if any(verdict != "pass" for verdict in known):
        assert assess(_forget(site, pointer))["verdict"] != "pass"


@_EVERY_SITE
def test_a_coarse_answer_passes_only_where_both_its_ends_do(site: Json) -> None:
    bare = _forget(site, f"{_OWN_BATTERY}/reserve_percent")
    pointer = "/equipment/reserve_percent"
    for answer, ends in {"mostly_full": (75, 100), "about_half": (35, 65)}.items():
        coarse = assess(put(bare, (pointer, {"as": "coarse", "answer": answer})))
        at_ends = {assess(put(bare, (pointer, end)))["verdict"] for end in ends}
        assert (coarse["verdict"] == "pass") == (at_ends == {"pass"})


def test_a_start_hour_that_was_not_stated_has_its_worst_hour_among_the_alternatives() -> None:
    toaster = {
        "kind": "own",
        "name": "Toaster",
        "watts": 4000,
        "hours_per_day": 2,
        "windows": [{"start_hour": 7, "end_hour": 9}],
    }
    wishes = {"loads": [toaster], "target_hours": 8, "target_tier": "critical", "season": "summer"}
    site = known_site(wishes={**wishes, "loads": [{**toaster, "tier": "critical"}]})
    (candidate,) = assess(site)["candidates"]
    other = next(a for a in candidate["checks"][0]["alternatives"] if a["id"] == "worst-start-hour")
    assert candidate["verdict"] == "pass"
    assert other["flips_verdict"]
    assert other["verdict"] != "pass"
    assert assess(put(site, ("/wishes/start_hour", 7)))["verdict"] == other["verdict"]
