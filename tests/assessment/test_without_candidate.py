"""A lead without a candidate: what the site needs, what to ask, and nothing decided."""

from __future__ import annotations

import math

import pytest

from tests.assessment.sites import HOME, Json, asked, assess, known_site, lead, put

_NOTHING: Json = {"place": {"state": "CA"}, "wishes": {}}


def _needs(site: Json) -> dict[str, float]:
    return {figure["id"]: figure["value"] for figure in assess(site)["needs"]}


def _up(number: float) -> str:
    """Return a number with one decimal, rounded up."""
    return f"{math.ceil(number * 10 - 1e-6) / 10:g}"


def test_place_and_empty_wishes_are_answered_undetermined_with_needs_and_questions() -> None:
    answer = assess(_NOTHING)
    assert answer["verdict"] == "undetermined"
    assert answer["candidates"] == []
    assert {"/candidates", "/wishes/essential_set"} <= set(asked(answer))
    needs = _needs(_NOTHING)
    assert 0 < needs["daily-energy-low"] < needs["daily-energy-typical"]
    assert needs["daily-energy-typical"] < needs["daily-energy-high"]
    assert 0 < needs["running-power-one"] < needs["running-power-all"]


def test_its_findings_say_that_neither_loads_nor_a_candidate_was_given() -> None:
    assert [(f["rule"], f["verdict"]) for f in assess(_NOTHING)["findings"]] == [
        ("loads-not-named", "undetermined"),
        ("no-candidate", "undetermined"),
    ]


def test_the_headline_says_not_yet_and_states_energy_and_power() -> None:
    answer, needs = assess(_NOTHING), _needs(_NOTHING)
    assert answer["headline"].startswith("not yet. No candidate given.")
    assert f" {_up(needs['daily-energy-typical'])} kWh a day" in answer["headline"]
    assert f" {_up(needs['running-power-all'])} kW at once" in answer["headline"]
    first = answer["findings"][0]["statement"]
    assert answer["headline"].split(" Could overturn it")[0].endswith(first)


def test_a_candidate_can_change_the_verdict_as_its_question_says() -> None:
    answer = assess(_NOTHING)
    assert asked(answer)["/candidates"]["can_change_verdict"]
    useless = {"energy": {"kind": "usable", "kwh": 0.1}, "continuous_kw": 0.05}
    with_one = assess(put(_NOTHING, ("/candidates", [{"id": "a", "battery": useless}])))
    assert with_one["verdict"] != answer["verdict"]


def test_where_everything_else_is_known_a_candidate_makes_the_pass() -> None:
    site = known_site()
    candidates = site.pop("candidates")
    assert assess(site)["verdict"] == "undetermined"
    assert set(asked(assess(site))) == {"/candidates"}
    assert assess(put(site, ("/candidates", candidates)))["verdict"] == "pass"


# By hand: 150 W x 0.33 x 24 h = 1.188 kWh a day, 100 W x 0.25 and 250 W x 0.5 at the ends.
@pytest.mark.parametrize(
    "target, energy",
    [(24, 1.188), (48, 2.376), (None, None)],
)
def test_needs_follow_from_the_loads_and_the_target(
    target: float | None, energy: float | None
) -> None:
    site = lead(
        home=HOME,
        wishes={"loads": [{"kind": "catalogue", "appliance": "refrigerator"}]},
    )
    del site["candidates"]
    found = _needs(put(site, ("/wishes/target_hours", target)))
    assert (found["daily-energy-low"], found["daily-energy-typical"]) == (0.6, 1.188)
    assert found["daily-energy-high"] == 3.0
    assert found.get("target-energy-typical") == energy


@pytest.mark.parametrize("field", ["well_pump", "sump_pump", "internet", "medical_equipment"])
def test_what_the_home_brings_is_part_of_what_it_needs(field: str) -> None:
    brings = {
        "well_pump": "v240",
        "sump_pump": "one",
        "internet": "keep_running",
        "medical_equipment": "oxygen",
    }
    site = known_site()
    del site["candidates"]
    more = put(site, (f"/home/{field}", brings[field]))
    assert _needs(more)["daily-energy-typical"] > _needs(site)["daily-energy-typical"]


def test_a_load_that_the_wishes_name_is_not_brought_a_second_time() -> None:
    home = {**HOME, "well_pump": "v240", "well_pump_watts": 1000, "internet": "keep_running"}
    site = known_site(home=home)
    del site["candidates"]
    named = [{"kind": "catalogue", "appliance": a} for a in ("modem", "router")]
    named.append({"kind": "catalogue", "appliance": "well_pump", "watts": "1000 W"})
    with_them = put(site, ("/wishes/loads", [*site["wishes"]["loads"], *named]))
    assert _needs(with_them) == _needs(site)


def test_needs_do_not_depend_on_the_candidates() -> None:
    site = known_site()
    candidates = site.pop("candidates")
    assert _needs(put(site, ("/candidates", candidates))) == _needs(site)
