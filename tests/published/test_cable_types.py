"""Kinds of cable."""

import pytest

from service.published.cable_types import Allowed, cable_types
from service.published.conductors import index_of
from service.published.loader import load
from service.published.source import Standing

# id | column | in thermal insulation | derating starts [degC] | wet | buried | standing of columns.
# Source: code forums and public answers that quote 334.80, 338.10, 330.80 and 336.10; the rest from
# memory, not verified.
PINNED = (
    ("nm_b", 60, 60, 90, "no", "no", Standing.SECONDARY),
    ("uf_b", 60, 60, 60, "yes", "yes", Standing.FROM_MEMORY),
    ("se", 75, 60, 90, "conditional", "no", Standing.SECONDARY),
    ("use_2", 75, 75, 90, "yes", "yes", Standing.FROM_MEMORY),
    ("mc", 75, 75, 90, "no", "no", Standing.SECONDARY),
    ("mc_wet", 75, 75, 75, "yes", "conditional", Standing.FROM_MEMORY),
    ("ac", 75, 60, 90, "no", "no", Standing.FROM_MEMORY),
    ("tc_er_jp", 60, 60, 90, "conditional", "conditional", Standing.SECONDARY),
)


@pytest.mark.parametrize("name, column, insulated, derating, wet, buried, standing", PINNED)
def test_each_cable_has_its_columns_and_places(
    name: str,
    column: float,
    insulated: float,
    derating: float,
    wet: str,
    buried: str,
    standing: Standing,
) -> None:
    found = cable_types()[name]
    columns = (found.column, found.insulated_column, found.derating_column)
    assert columns == (column, insulated, derating)
    assert (found.wet, found.buried) == (wet, buried)
    assert load("cable_types").cite(name, "column", "derating_column").standing is standing
    places = Standing.SECONDARY if name == "nm_b" else Standing.FROM_MEMORY
    assert load("cable_types").cite(name, "wet", "indoors").standing is places
    assert load("cable_types").cite(name).standing is Standing.FROM_MEMORY


def test_no_cable_stands_outside_the_pinned_list() -> None:
    assert list(cable_types()) == [row[0] for row in PINNED]


@pytest.mark.parametrize("name", cable_types())
def test_a_cable_holds_together(name: str) -> None:
    found = cable_types()[name]
    assert found.insulated_column <= found.column <= found.derating_column
    assert {found.column, found.insulated_column, found.derating_column} <= {60.0, 75.0, 90.0}
    places = (found.wet, found.buried, found.indoors, found.outdoors)
    if Allowed.CONDITIONAL in places:
        assert found.condition
    if found.buried is Allowed.YES:
        assert found.wet is Allowed.YES
    for least, most in (
        (found.copper_least, found.copper_most),
        (found.aluminum_least, found.aluminum_most),
    ):
        if least not in (None, "18") and most is not None:
            assert index_of(str(least)) < index_of(most)


def test_only_small_service_entrance_cable_is_held_to_60_degc_in_insulation() -> None:
    # Source: 338.10(B)(4)(a), 2017 to 2023, public pages on code changes.
    assert cable_types()["se"].insulated_most == "10"
    assert [c.id for c in cable_types().values() if c.insulated_most] == ["se"]


def test_sizes_that_were_not_collected_are_unknown() -> None:
    assert cable_types()["uf_b"].aluminum_least is None
    assert cable_types()["se"].copper_most is None
