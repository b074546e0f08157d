"""What holds for the answer to every request, tried on drawn ones."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.checks.conductor_sizing.answer import MaterialSizing
from service.checks.conductor_sizing.verdicts import made_of
from service.published.conductors import index_of, sizes
from tests.checks.conductor_sizing.requests import MARKED, Body, body
from tests.checks.conductor_sizing.test_batches import request_of

WAYS = [None, "pvc40", "pvc80", "emt", "rmc", "lfmc", "imc", "uf_b", "mc_wet", "nm_b"]
PLACES = ["indoors", "outside_wall", "buried", "crawl_space", "attic", "rooftop"]
PART = st.fixed_dictionaries(
    {
        "length": st.floats(3, 300),
        "place": st.sampled_from(PLACES),
        "ambient": st.integers(40, 130),
        "way": st.sampled_from(WAYS),
        "other_conductors": st.sampled_from([0, 0, 1, 4, 9]),
    }
)
PARTS = st.lists(PART, min_size=1, max_size=3)
KINDS = [
    "storage_output",
    "inverter_output",
    "pv_output",
    "pv_source",
    "generator_input",
    "backup_feeder",
    "building_feeder",
    "motor_branch",
]
# Marked terminals: those without a mark take another column above 100 A, and a wire may shrink.
CIRCUIT = st.fixed_dictionaries(
    {
        "kind": st.sampled_from(KINDS),
        "amps": st.floats(2, 250),
        "volts": st.sampled_from([120, 208, 240]),
        "power_factor": st.sampled_from([1.0, 0.9, 0.6]),
        "continuous": st.booleans(),
        "sets": st.sampled_from([1, 1, 2]),
        "near": st.sampled_from([MARKED, MARKED | {"marked": 60}]),
        "far": st.sampled_from([MARKED, MARKED | {"marked": 90}]),
        "neutral": st.sampled_from(["none", "unbalance", None]),
        "most_breaker_a": st.none(),
    }
)
MORE = st.fixed_dictionaries(
    {
        "insulation": st.sampled_from(["thwn_2", "xhhw_2", "thwn", "xhhw", "thhn"]),
        "drop_target_percent": st.floats(0.5, 8),
        "edition": st.sampled_from(["nec-2020", "nec-2023"]),
    }
)
SETTINGS = settings(max_examples=60, deadline=None)


def rows(*asked: Body) -> list[list[MaterialSizing]]:
    """Return copper and aluminum of the answer to each request."""
    return [[one.row for one in made] for made in made_of([request_of(made) for made in asked])]


def rank(size: str | None) -> int:
    """Return a size as a number that rises with need; beyond every size for none."""
    return len(sizes()) if size is None else index_of(size)


def never_smaller(easy: Body, hard: Body) -> None:
    for one, other in zip(*rows(easy, hard), strict=True):
        assert rank(other.phase) >= rank(one.phase)


@SETTINGS
@given(CIRCUIT, PARTS, MORE, st.floats(1, 4))
def test_a_longer_run_never_takes_a_smaller_wire(
    circuit: Body, parts: list[Body], more: dict[str, Any], factor: float
) -> None:
    # All parts grow alike, so that a hot part keeps its share of the run.
    longer = [part | {"length": part["length"] * factor} for part in parts]
    never_smaller(body(circuit, *parts, **more), body(circuit, *longer, **more))


@SETTINGS
@given(CIRCUIT, PARTS, MORE, st.lists(st.integers(0, 60), min_size=3, max_size=3))
def test_a_hotter_place_never_takes_a_smaller_wire(
    circuit: Body, parts: list[Body], more: dict[str, Any], rises: list[int]
) -> None:
    hotter = [
        part | {"ambient": part["ambient"] + rise} for part, rise in zip(parts, rises, strict=False)
    ]
    never_smaller(body(circuit, *parts, **more), body(circuit, *hotter, **more))


@SETTINGS
@given(CIRCUIT, PARTS, MORE, st.floats(1, 3))
def test_a_larger_current_never_takes_a_smaller_wire(
    circuit: Body, parts: list[Body], more: dict[str, Any], factor: float
) -> None:
    larger = circuit | {"amps": circuit["amps"] * factor}
    never_smaller(body(circuit, *parts, **more), body(larger, *parts, **more))


@SETTINGS
@given(CIRCUIT, PARTS, MORE, st.integers(0, 2))
def test_a_part_split_in_two_equal_ones_changes_nothing(
    circuit: Body, parts: list[Body], more: dict[str, Any], which: int
) -> None:
    at = which % len(parts)
    half = parts[at] | {"length": parts[at]["length"] / 2}
    split = [*parts[:at], half, half, *parts[at + 1 :]]
    whole, halves = rows(body(circuit, *parts, **more), body(circuit, *split, **more))
    for one, two in zip(whole, halves, strict=True):
        for name in ("phase", "neutral", "ground", "breaker_a", "governing", "verdict", "reach"):
            assert getattr(two, name) == getattr(one, name), name
        for name in ("ampacity_a", "drop_v", "drop_percent", "leg_drop_percent", "loss_w"):
            assert getattr(two, name) == pytest.approx(getattr(one, name)), name
        assert [(part.use, part.size) for part in two.pull] == [
            (part.use, part.size) for part in one.pull
        ]
        if one.raceways:
            sizes_of = [part.trade_size for part in one.raceways]
            sizes_of.insert(at, sizes_of[at])
            assert [part.trade_size for part in two.raceways] == sizes_of


@SETTINGS
@given(CIRCUIT, PARTS, MORE, st.floats(0, 1))
def test_the_table_by_distance_is_what_requests_of_these_lengths_answer(
    circuit: Body, parts: list[Body], more: dict[str, Any], share: float
) -> None:
    """At its last foot and before a size does; a foot beyond takes the next one of the table.

    Parts of one length, so that none is short enough to be left out of the ampacity.
    """

    def run(feet: float) -> Body:
        return body(circuit, *(part | {"length": feet / len(parts)} for part in parts), **more)

    for material, row in enumerate(rows(run(100.0))[0]):
        ends = [0.0, *(reach.up_to_ft for reach in row.reach)]
        names = [reach.size for reach in row.reach]
        asked: list[tuple[float, str | None]] = []
        after = [*names[1:], None]
        for start, end, name, larger in zip(ends, ends[1:], names, after, strict=False):
            inside = start + 1.0 + share * (end - start - 1.0)
            asked += [(inside, name), (end, name), (end + 1.0, larger)]
        asked = [(feet, name) for feet, name in asked if feet <= 20_000]
        if not row.reach:
            asked = [(1.0, None), (1000.0, None)]
        found = rows(*(run(feet) for feet, _ in asked))
        for (feet, size), again in zip(asked, found, strict=True):
            assert again[material].phase == size, feet
