"""Conductors of dwelling services."""

import math

import numpy as np
import pytest

from service.published.conductors import Material, ampacities, sizes
from service.published.dwelling_service import service_ratings, service_row, service_size
from service.published.loader import load
from service.published.overcurrent_ratings import standard_ratings
from service.published.source import Standing

# rating [A] | copper | aluminum. Source: Table 310.12, public transcription of 2020.
PINNED = (
    (100, "4", "2"),
    (125, "2", "1/0"),
    (150, "1", "2/0"),
    (200, "2/0", "4/0"),
    (225, "3/0", "250"),
    (320, "350", "500"),
    (400, "400", "600"),
)


@pytest.mark.parametrize("rating, copper, aluminum", PINNED)
def test_each_service_has_its_conductors(rating: float, copper: str, aluminum: str) -> None:
    assert sizes()[int(service_size(rating, "copper"))] == copper
    assert sizes()[int(service_size(rating, "aluminum"))] == aluminum


@pytest.mark.parametrize("material", ["copper", "aluminum"])
def test_every_size_is_the_smallest_that_carries_83_percent_at_75_degc(material: Material) -> None:
    # Source: the rule of NEC 2017, 310.15(B)(7), from which the table was made.
    assert len(service_ratings()) == 11
    for rating in service_ratings():
        enough = np.nan_to_num(ampacities(material, 75)) >= 0.83 * rating
        assert int(service_size(rating, material)) == int(np.argmax(enough))


def test_outside_the_table_there_is_no_size() -> None:
    found = service_size([60.0, 401.0, math.nan], "copper")
    assert found.tolist() == [len(sizes())] * 3
    assert [service_row(x) for x in (60.0, 180.0, 401.0)] == [None, "200", None]
    assert load("dwelling_service").cite("200", "copper").standing is Standing.PUBLISHED


def test_ratings_are_standard_ones_and_their_own_keys() -> None:
    # Source: an identity of two tables, 310.12(A) and 240.6(A).
    assert [f"{rating:g}" for rating in service_ratings()] == list(load("dwelling_service").rows)
    assert set(service_ratings()) <= set(standard_ratings("nec-2020"))
