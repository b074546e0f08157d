"""What is left out because it cannot matter does not matter: whole answers by the long ways."""

from functools import partial
from random import Random
from typing import Any

import pytest

from service.checks.clearance import fixes, moved_objects, other_readings, solve
from service.checks.clearance.fit import fit_of, lens_of
from service.checks.clearance.judged import ASIDE
from service.checks.clearance.kept_rules import kept_rules
from service.checks.clearance.panel_space import panel_rooms
from service.checks.clearance.request import changed
from service.checks.clearance.rule_numbers import numbers_of
from service.checks.clearance.scenes import Scene, facts_take_room, scene_of
from service.checks.clearance.solve import joined_spans, most_by_runs, placed_in
from service.checks.clearance.spots import spots_of
from service.findings import Verdict
from service.quantities.comparison import TOLERANCE, at_least, reaches
from tests.checks.clearance.enumeration import in_metres, unit_in_metres
from tests.checks.clearance.random_bodies import random_body
from tests.checks.clearance.random_walls import random_unit, random_wall
from tests.checks.clearance.requests import answer, request_of


@pytest.mark.parametrize("seed", range(4))
def test_runs_hold_no_less_than_what_stands(seed: int) -> None:
    """400 walls a seed with one or two kinds on them."""
    rng = Random(4300 + seed)
    less = 0
    for _ in range(400):
        wall = in_metres(random_wall(rng, panels=2))
        units = tuple(unit_in_metres(random_unit(rng)) for _ in range(rng.choice([1, 1, 2])))
        counts = tuple(rng.randint(1, 4) for _ in units)
        alike = len(units)
        scene = Scene((wall,) * alike, units, (panel_rooms(wall),) * alike)
        most = most_by_runs(scene, counts, joined_spans(scene))
        assert most >= placed_in(scene, counts)
        less += most < sum(counts)
    assert less > 40


def _nothing_known(*_: Any) -> dict[str, Any]:
    return {}


def _all_wanted(_scene: Scene, counts: tuple[int, ...], _spans: Any) -> int:
    return sum(counts)


class Asked:
    """`fit_of` asked for every verdict, and how often less was asked for."""

    def __init__(self) -> None:
        self.less = 0

    def fit_of(self, *given: Any, at_best: Verdict = Verdict.PASS, **named: Any) -> Any:
        """Return the fit as if nothing were known of its verdict."""
        self.less += at_best is not Verdict.PASS
        return fit_of(*given, **named)


@pytest.mark.parametrize("seeds", [range(at, at + 50) for at in range(7000, 7200, 50)])
def test_answers_by_the_long_ways_are_the_same(
    seeds: range, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Rules are held again and errors tried that the short ways leave out."""
    short = [answer(random_body(seed)) for seed in seeds]
    asked = Asked()
    monkeypatch.setattr(other_readings, "_known", _nothing_known)
    monkeypatch.setattr(fixes, "_known", _nothing_known)
    for module in (other_readings, fixes):
        monkeypatch.setattr(module, "fit_of", asked.fit_of)
    for module in (solve, moved_objects):
        monkeypatch.setattr(module, "most_by_runs", _all_wanted)
    assert [answer(random_body(seed)) for seed in seeds] == short
    assert asked.less > 10
    assert any(one.fixes for one in short)
    assert any(one.alternatives for one in short)


def test_rules_held_aside_read_no_field_that_is_told_to_be_unread() -> None:
    """Units of other sizes and heights, at 200 requests, everything else as it was."""
    sizes = {"bottom": 31.0, "listed_spacing": 5.5, "width": 47.0, "depth": 3.0}
    for seed in range(7200, 7400):
        made = random_body(seed)
        for place in made["places"]:
            if place["kind"] == "wall":
                place["property_line"] = 12
        request = request_of(made)
        rules, units = numbers_of(request), request.units
        for unread, name in fixes.UNREAD:
            stated = {field: sizes[field] for field in unread}
            units = [changed(unit, **stated) for unit in units]
            then = changed(request, units=units)
            for spot in spots_of(request):
                assert ASIDE[name](then, rules, spot) == ASIDE[name](request, rules, spot), name


def test_facts_that_take_no_room_leave_the_scene_as_it_is() -> None:
    """400 requests; and where they may take some they do now and then."""
    none = some = 0
    for seed in range(7400, 7800):
        request = request_of(random_body(seed))
        rules, units = numbers_of(request), request.units
        for spot in spots_of(request):
            stated, harmed = lens_of(spot), lens_of(spot)._replace(facts=1)
            alike = scene_of(spot, units, rules, stated) == scene_of(spot, units, rules, harmed)
            if facts_take_room(spot, units, harmed):
                some += not alike
            else:
                none += 1
                assert alike
    assert none > 40
    assert some > 40


def test_what_places_keep_is_never_worse_than_conditional() -> None:
    """It is left out where no better verdict is left; 200 requests."""
    for seed in range(7800, 8000):
        request = request_of(random_body(seed))
        rules = numbers_of(request)
        for spot in spots_of(request):
            kept = kept_rules(request, rules, spot, fit_of(request, rules, spot))
            assert {one.verdict for one in kept} <= {Verdict.PASS, Verdict.CONDITIONAL}


@pytest.mark.parametrize("dimension", TOLERANCE)
def test_one_number_is_compared_as_many_are(dimension: str) -> None:
    """By hand: half the tolerance below a limit reaches it, twice the tolerance does not."""
    least = partial(at_least, limit=1.0, dimension=dimension)
    numbers = [1.0 + part * TOLERANCE[dimension] for part in (-2.0, -0.5, 0.0, 0.5, 2.0)]
    expected = [False, True, True, True, True]
    assert [least(number) for number in numbers] == expected
    assert reaches(numbers, 1.0, dimension).tolist() == expected
