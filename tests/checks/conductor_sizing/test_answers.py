"""Answers of the conductor check: sizes by hand, rules, refusals, what it may never say."""

import random
from typing import Any

import msgspec
import pytest

from service.findings import Verdict
from service.published.conductors import index_of
from tests.checks.conductor_sizing.requests import (
    MARKED,
    STORAGE,
    WALL,
    Body,
    answer,
    body,
    both,
    refused,
    rules,
)

#: Circuit, run, copper and aluminum: phase, ground, breaker [A], drop [%].
#: Worked through by hand: 48 A of storage, 75 degC terminals, 40 degC, 150 ft, PVC, 2 %. Strictly
#: 8 AWG misses as ground by 1.5 cmil of 16,511.5. A 7.6 kW inverter: 31.67 A, breaker 40 A, 8 AWG
#: (a journal of inspectors, worked example of 2020; 10 AWG is refused behind 40 A).
SIZES: list[tuple[str, Body, tuple[Any, ...], tuple[Any, ...]]] = [
    ("storage", body(), ("4", "6", 60, 1.86), ("2", "8", 60, 1.92)),
    (
        "inverter of 7.6 kW, short",
        body({"kind": "inverter_output", "amps": None, "kw": 7.6}, WALL | {"length": 10}),
        ("8", "10", 40, 0.205),
        ("8", "10", 40, 0.343),
    ),
]


@pytest.mark.parametrize("what, made, copper, aluminum", SIZES, ids=[row[0] for row in SIZES])
def test_sizes(what: str, made: Body, copper: tuple[Any, ...], aluminum: tuple[Any, ...]) -> None:
    for found, expected in zip(both(made), (copper, aluminum), strict=True):
        assert (found.phase, found.ground, found.breaker_a) == expected[:3], what
        assert found.drop_percent == pytest.approx(expected[3], abs=0.006)


def test_the_ground_that_misses_by_rounding_is_shown_with_both_sizes() -> None:
    copper, aluminum = both(body())
    assert (copper.ground, copper.ground_but_for_rounding) == ("6", "8")
    assert aluminum.ground_but_for_rounding is None


def test_the_raceway_by_hand() -> None:
    """3 x 4 AWG and a ground of 6 AWG take 0.2979 in2; 40 % of 1 in PVC 40 are 0.333 in2.

    Three of 0.324 in may jam in 1.029 in: 1-1/4 in of 1.453 in2 is taken.
    """
    copper, _ = both(body({"neutral": "unbalance_and_source", "unbalance_a": 22}))
    (part,) = copper.raceways
    assert copper.neutral == "4"
    assert (part.trade_size, part.jams_in) == ("1-1/4", "1")
    assert part.filled_percent == pytest.approx(100 * 0.2979 / 1.453, abs=0.1)
    assert part.allowed_percent == 40


def test_the_table_by_distance_is_what_requests_of_these_lengths_answer() -> None:
    """At its last foot a size still does; one foot more takes a larger one."""
    for at, found in enumerate(both(body())):
        assert len(found.reach) > 4
        for row in found.reach[:4]:
            here = both(body(None, WALL | {"length": row.up_to_ft}))[at]
            beyond = both(body(None, WALL | {"length": row.up_to_ft + 1}))[at]
            assert here.phase == row.size
            assert beyond.phase is not None
            assert index_of(beyond.phase) > index_of(row.size)


def test_losses_by_hand() -> None:
    """Two conductors of 4 AWG, 0.31 ohm/kft, 150 ft, 48 A."""
    copper, _ = both(body())
    assert copper.loss_w == pytest.approx(2 * 0.31 * 0.15 * 48**2, rel=0.002)
    assert copper.loss_kwh_a_year == pytest.approx(copper.loss_w or 0.0)


def test_what_to_bring_is_more_than_the_run() -> None:
    copper, _ = both(body())
    feet = {row.use: row.feet for row in copper.pull}
    assert feet["phase"] == 2 * feet["ground"] == 2 * feet["neutral"]
    assert feet["ground"] == 177


def test_mistake_18_a_breaker_above_the_nameplate() -> None:
    found = answer(body({"most_breaker_a": 50}))
    assert found.verdict is Verdict.FAIL
    assert refused(body({"breaker_a": 70})) == ["/circuit/breaker_a"]


def test_mistake_5_the_next_size_up_on_the_output_of_storage() -> None:
    """At 36 A behind 45 A 8 AWG copper has 50 A; aluminum 8 AWG has 40 A and needs the round-up."""
    near = WALL | {"length": 5, "ambient": 86}
    made = body({"amps": 34, "most_breaker_a": 45, "neutral": "none"}, near)
    storage = answer(made)
    assert storage.materials[1].phase == "6"
    reading = next(a for a in storage.alternatives if a.id == "next-size-up")
    assert "aluminum 6" in reading.statement
    inverter = answer(made | {"circuit": made["circuit"] | {"kind": "inverter_output"}})
    assert "next-size-up" not in {a.id for a in inverter.alternatives}


def test_mistake_3_unmarked_terminals_take_the_lowest_column() -> None:
    near = WALL | {"length": 5}
    marked, bare = (
        both(body({"near": MARKED | {"marked": mark}, "far": MARKED | {"marked": mark}}, near))[0]
        for mark in (75, None)
    )
    assert (marked.phase, bare.phase) == ("6", "4")
    asked = {q.pointer for q in answer(body({"near": {}}, near)).questions}
    assert "/circuit/near/marked" in asked


def test_mistake_19_thhn_outdoors_is_in_a_wet_place() -> None:
    found = answer(body(insulation="thhn"))
    assert found.verdict is Verdict.FAIL
    dry = answer(body(None, WALL | {"place": "indoors"}, insulation="thhn"))
    assert dry.verdict is Verdict.PASS


def test_mistake_20_the_rise_of_what_feeds_in_is_cautioned() -> None:
    assert "export-rise" in {caution.id for caution in answer(body()).cautions}
    feeder = answer(body({"kind": "backup_feeder"}))
    assert "export-rise" not in {caution.id for caution in feeder.cautions}


def test_mistake_21_the_edition_is_recorded() -> None:
    assert answer(body()).basis.code_edition == "nec-2023"
    unknown = answer(body(edition=None))
    assert unknown.basis.code_edition is None
    roof = {"length": 60, "place": "rooftop", "ambient": 110, "way": "emt", "roof_height": 0.8}
    differs = answer(body({}, roof, edition=None))
    assert {a.id for a in differs.alternatives} >= {"other-edition"}
    found = answer(body(edition=None, state="CA", permit_date="2025-06-01"))
    assert found.basis.code_edition == "nec-2020"


def test_a_roof_in_the_sun_is_hotter_by_edition() -> None:
    """0.8 in above a roof is high enough since 2023 and was not before."""
    roof = WALL | {"place": "rooftop", "roof_height": 0.8, "length": 20, "other_conductors": 4}
    new, old = (
        both(body({"amps": 40, "most_breaker_a": 50}, roof, edition=edition))[0]
        for edition in ("nec-2023", "nec-2020")
    )
    assert new.phase is not None
    assert old.phase is not None
    assert index_of(old.phase) > index_of(new.phase)


def test_unconfirmed_tables_are_no_pass() -> None:
    assert answer(body()).verdict is Verdict.PASS
    found = answer(body(confirmed_rules=[]))
    assert found.verdict is Verdict.CONDITIONAL
    assert any("as adopted" in condition for condition in found.conditions)


def test_a_telephone_answer_on_the_distance_settles_nothing() -> None:
    made = body() | {"run": {"kind": "coarse", "answer": "round_one_corner"}}
    found = answer(made)
    assert found.verdict is Verdict.UNDETERMINED
    assert found.questions[0].pointer == "/run"
    assert found.questions[0].can_change_verdict
    assert found.materials[0].reach


#: Largest conductor of the far terminal, verdict of terminal-fit. Of 4 AWG for the distance the
#: amps alone ask for 6 AWG.
LUGS = [("4", "pass"), ("6", "conditional"), ("8", "fail")]


@pytest.mark.parametrize("largest, verdict", LUGS)
def test_a_size_grown_for_distance_may_be_spliced_down(largest: str, verdict: str) -> None:
    far = {"marked": 75, "smallest": "14", "largest": largest}
    copper, _ = both(body({"far": far}))
    assert copper.phase == "4"
    assert rules(copper)["terminal-fit"] == verdict
    if verdict == "conditional":
        said = [f.statement for f in copper.findings if f.rule == "terminal-fit"]
        assert "pigtail of no less than 6 AWG" in said[1]


def test_terminals_of_unknown_range_are_a_condition() -> None:
    found = answer(body({"far": {"marked": 75}}))
    assert found.verdict is Verdict.CONDITIONAL
    assert found.conditions == ["the terminals take 4 AWG copper"]


def test_what_would_let_a_smaller_size_do() -> None:
    copper, _ = both(body())
    assert "101 ft" in copper.relax


def test_where_no_size_is_left_it_fails_and_says_what_would_help() -> None:
    """A mile at 25 A would take more than the largest size that is pulled."""
    found = answer(body({"amps": 25, "most_breaker_a": 40}, WALL | {"length": 5280}))
    assert found.verdict is Verdict.FAIL
    drop = next(f for f in found.findings if f.rule == "voltage-drop")
    assert drop.verdict is Verdict.FAIL
    assert "more sets in parallel" in drop.statement
    helped = answer(body({"amps": 25, "sets": 8}, WALL | {"length": 1200}))
    assert helped.verdict is not Verdict.FAIL


def test_cover_of_a_buried_run() -> None:
    """18 in over PVC conduit, table 300.5."""
    earth = WALL | {"place": "buried", "ambient": 86}
    for cover, verdict in ((17.9, "fail"), (18, "pass"), (None, "conditional")):
        copper, _ = both(body(None, earth | {"cover": cover}))
        assert rules(copper)["burial-cover"] == verdict


def test_nm_cable_outdoors_is_refused_by_the_rule() -> None:
    found = answer(body(None, WALL | {"way": "nm_b"}))
    assert found.verdict is Verdict.FAIL
    assert "may not lie" in " ".join(f.statement for f in found.findings)


def test_splitting_a_part_changes_nothing() -> None:
    half = WALL | {"length": 75}
    whole, parts = both(body()), both(body(None, half, half))
    for one, two in zip(whole, parts, strict=True):
        assert (one.phase, one.ground, one.reach) == (two.phase, two.ground, two.reach)
        assert one.drop_percent == pytest.approx(two.drop_percent)


GROWS: list[tuple[str, list[Body]]] = [
    ("length", [body(None, WALL | {"length": x}) for x in (5, 60, 150, 300, 700)]),
    ("ambient", [body(None, WALL | {"ambient": x}) for x in (70, 104, 130, 150, 165)]),
    (
        "amps",
        [body({"amps": x, "most_breaker_a": None}) for x in (5, 20, 48, 90, 150, 220)],
    ),
    ("company", [body(None, WALL | {"other_conductors": x}) for x in (0, 4, 10, 30)]),
]


@pytest.mark.parametrize("what, steps", GROWS, ids=[row[0] for row in GROWS])
def test_harder_never_takes_a_smaller_wire(what: str, steps: list[Body]) -> None:
    for material in (0, 1):
        sizes = [both(made)[material].phase for made in steps]
        places = [99 if size is None else index_of(size) for size in sizes]
        assert places == sorted(places), what
        assert places[0] < places[-1]


REFUSED: list[tuple[Body, list[str]]] = [
    (body({"kw": 11}), ["/circuit/amps"]),
    (body({"amps": None}), ["/circuit/amps"]),
    (body({"near": {"smallest": "4", "largest": "8"}}), ["/circuit/near/largest"]),
    (body(path_drop_percent=2), ["/path_drop_percent"]),
]


@pytest.mark.parametrize("made, pointers", REFUSED)
def test_refused(made: Body, pointers: list[str]) -> None:
    assert refused(made) == pointers


def extreme(seed: int) -> Body:
    """Return a request whose numbers lie at their bounds, or are away."""
    rng = random.Random(seed)
    ways = ["emt", "lfmc", "pvc80", "ent", "nm_b", "uf_b", "use_2", "tc_er_jp", None]
    places = ["attic", "outside_wall", "rooftop", "buried", "indoors", "crawl_space", "nipple"]
    kinds = ["storage_output", "pv_source", "building_feeder", "motor_branch", "control_cable"]

    def segment() -> Body:
        found = {
            "length": rng.choice([0, 0.5, 9.9, 52_800]),
            "place": rng.choice(places),
            "ambient": rng.choice([None, -40, 86, 250]),
            "way": rng.choice(ways),
            "other_conductors": rng.choice([0, 60]),
            "cover": rng.choice([None, 0, 240]),
            "roof_height": rng.choice([None, 0, 120]),
        }
        useless = {"cover"} if found["place"] != "buried" else set()
        useless |= {"roof_height"} if found["place"] != "rooftop" else set()
        return {name: v for name, v in found.items() if v is not None and name not in useless}

    circuit: Body = {
        "kind": rng.choice(kinds),
        "amps": rng.choice([0.1, 30, 2000]),
        "other_a": rng.choice([0, 2000]),
        "volts": rng.choice([12, 240, 1000]),
        "power_factor": rng.choice([0.1, 1]),
        "sets": rng.choice([1, 8]),
        "strings": rng.choice([1, 50]),
        "neutral": rng.choice([None, "none", "unbalance_and_source"]),
        "near": rng.choice([{}, {"marked": 60}, {"largest": "14"}]),
    }
    del circuit["other_a" if circuit["kind"] == "pv_source" else "strings"]
    segments = [segment() for _ in range(rng.choice([1, 3, 100]))]
    return {"circuit": circuit, "run": {"kind": "segments", "segments": segments}}


@pytest.mark.parametrize("seed", range(40))
def test_every_answer_is_finite(seed: int) -> None:
    made = extreme(seed)
    assert refused(made) == []
    found = answer(made, "working")
    for row in found.materials:
        numbers = [value for value in msgspec.structs.astuple(row) if isinstance(value, float)]
        assert all(abs(number) < 1e12 for number in numbers)
        assert row.phase is not None or row.verdict is Verdict.FAIL


def test_claimed_questions_change_the_verdict_and_others_do_not() -> None:
    coarse = {"kind": "coarse", "answer": "other_end"}
    made: Body = {"circuit": {"kind": "inverter_output", "amps": 32}, "run": coarse}
    found = answer(made)
    for question in found.questions:
        if question.pointer == "/run":
            near = answer(made | {"run": {"kind": "distance", "length": 50}})
            assert (near.verdict is not found.verdict) == question.can_change_verdict


def test_every_cell_of_the_working_is_cited() -> None:
    found = answer(body(), "working")
    listed = {source.id.split("/")[0] for source in found.sources}
    assert not isinstance(found.working, msgspec.UnsetType)
    cited = {line.source.split("/")[0] for line in found.working if line.source}
    assert {"ampacity", "overcurrent_ratings", "equipment_grounding", "raceway_sizes"} <= cited
    assert cited <= listed


def test_the_known_circuit_leaves_nothing_to_be_assumed() -> None:
    assert answer(body()).assumptions == []
    assert STORAGE["kind"] == "storage_output"
