"""The table by distance holds when it is asked again, the short part of a run or not."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.checks.conductor_sizing.verdicts import made_of
from service.published.conductors import index_of
from tests.checks.conductor_sizing.requests import MARKED, Body, body, both
from tests.checks.conductor_sizing.test_batches import request_of

INDOORS: Body = {"place": "indoors", "ambient": 86, "way": "pvc40"}
ATTIC: Body = {"length": 9, "place": "attic", "ambient": 150, "way": "pvc40", "other_conductors": 6}
INVERTER: Body = {"kind": "inverter_output", "amps": 32, "most_breaker_a": 40, "neutral": "none"}


def test_a_shorter_run_that_loses_its_short_part_takes_no_larger_wire_than_the_table() -> None:
    """9 ft of attic are left out of 100 ft and not of 69: 0.65 x 0.7 of 95 A are 43 A of 4 AWG.

    By hand from Tables 310.16, 310.15(B)(1)(1) and 310.15(C)(1): 8 conductors, 65.6 degC, 0.58.
    """
    whole = both(body(INVERTER, INDOORS | {"length": 91}, ATTIC))[0]
    shorter = both(body(INVERTER, INDOORS | {"length": 60}, ATTIC))[0]
    assert (whole.phase, shorter.phase) == ("6", "4")
    assert next(row.size for row in whole.reach if row.up_to_ft >= 69) == "4"
    assert "ft would" not in whole.relax
    told = [f.statement for f in whole.findings if f.rule == "conditions-of-use"]
    assert "leaves out none" in told[0]


PART = st.fixed_dictionaries(
    {
        "length": st.sampled_from([1.0, 2.0, 5.0, 9.0, 10.0, 25.0, 90.0, 150.0]),
        "place": st.sampled_from(["indoors", "attic", "outside_wall", "nipple", "rooftop"]),
        "ambient": st.sampled_from([68, 86, 104, 131, 150]),
        "way": st.sampled_from(["pvc40", "emt"]),
        "other_conductors": st.sampled_from([0, 1, 4, 9]),
    }
)
DRAWN = st.tuples(
    st.sampled_from([16, 32, 48, 80]),
    st.lists(PART, min_size=1, max_size=3),
    st.sampled_from(["thwn_2", "thwn", "xhhw"]),
    st.floats(0.05, 1.0),
)


@settings(max_examples=60, deadline=None)
@given(DRAWN)
def test_asked_again_at_a_row_of_the_table_a_run_takes_at_most_its_size(drawn: Any) -> None:
    """The longest part grows or shrinks; where the others are longer, all of them shrink."""
    amps, parts, insulation, share = drawn
    circuit = INVERTER | {"amps": amps, "most_breaker_a": 125, "near": MARKED, "far": MARKED}
    longest = max(range(len(parts)), key=lambda at: parts[at]["length"])
    others = sum(part["length"] for part in parts) - parts[longest]["length"]

    def at(feet: float) -> Body:
        if feet > others:
            run = [*parts]
            run[longest] = parts[longest] | {"length": feet - others}
        else:
            whole = others + parts[longest]["length"]
            run = [part | {"length": part["length"] * feet / whole} for part in parts]
        return body(circuit, *run, insulation=insulation)

    whole = others + parts[longest]["length"]
    for material, row in enumerate(both(at(whole))):
        asked = [(reach.size, reach.up_to_ft * part) for reach in row.reach for part in (1, share)]
        asked = [(size, feet) for size, feet in asked if feet <= 52_800][:12]
        found = made_of([request_of(at(feet)) for _, feet in asked]) if asked else []
        for (size, feet), made in zip(asked, found, strict=True):
            phase = made[material].row.phase
            assert phase is not None, (size, feet)
            assert index_of(phase) <= index_of(size), (size, feet)


# Conductors of other circuits, first size of the table. Source: Table 310.15(C)(1), 11 conductors
# leave half, but in a nipple: 6 AWG has 37.5 A, above the 35 A below its breaker of 40 A.
NIPPLES = [(0, "8"), (9, "6")]


@pytest.mark.parametrize("company, first", NIPPLES)
def test_a_nipple_that_grows_is_none(company: int, first: str) -> None:
    nipple = {"length": 2, "place": "nipple", "ambient": 86, "way": "pvc40"}
    row = both(body(INVERTER, nipple | {"other_conductors": company}))[0]
    assert row.phase == "8"
    assert row.reach[0].size == first
