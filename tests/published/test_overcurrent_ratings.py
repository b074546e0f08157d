"""Standard ratings of overcurrent devices, and the caps of small conductors."""

import math

import numpy as np
import pytest

from service.published.conductors import Material, ampacities, index_of
from service.published.loader import load
from service.published.overcurrent_ratings import next_rating, rating_row, standard_ratings
from service.published.small_conductors import largest_protection, protection_row
from service.published.source import Standing

# current [A] | next rating [A]. Source: 240.6(A), public transcription; above 600 A from memory,
# not verified. 31.68 A x 1.25: public worked example of an inverter circuit, 39.6 A.
NEXT = (
    (48.0 * 1.25, 60.0),
    (31.68 * 1.25, 40.0),
    (60.0 + 1e-8, 60.0),
    (60.001, 70.0),
    (101.0, 110.0),
    (208.0, 225.0),
    (601.0, 700.0),
    (801.0, 1000.0),
    (6000.0, 6000.0),
)

# material | size | cap [A]. Source: 240.4(D): public wire table and CSA C22.1, rule 14-104; 14 AWG
# copper-clad a training page on the changes of 2023.
CAPS: tuple[tuple[Material | str, str, float], ...] = (
    ("copper", "14", 15.0),
    ("copper", "12", 20.0),
    ("copper", "10", 30.0),
    ("aluminum", "12", 15.0),
    ("aluminum", "10", 25.0),
    ("copper_clad_aluminum", "14", 10.0),
)


@pytest.mark.parametrize("current, rating", NEXT)
def test_the_next_standard_rating(current: float, rating: float) -> None:
    assert float(next_rating(current, "nec-2023")) == rating


def test_ten_amperes_became_a_breaker_rating_in_2023() -> None:
    # Source: training page and code forum on the changes of 2023.
    assert [float(next_rating(8.0, f"nec-{year}")) for year in (2017, 2020, 2023)] == [15, 15, 10]
    assert [float(next_rating(8.0, f"nec-{year}", "fuse")) for year in (2017, 2020, 2023)] == [
        10
    ] * 3


def test_ratings_of_fuses_alone() -> None:
    # Source: 240.6(A), training page with the list of 2020.
    for year, more in ((2017, [10]), (2020, [10]), (2023, [])):
        breakers = set(standard_ratings(f"nec-{year}").tolist())
        fuses = set(standard_ratings(f"nec-{year}", "fuse").tolist())
        assert breakers < fuses
        assert sorted(fuses - breakers) == sorted([1, 3, 6, 601, *more])


def test_ratings_rise_and_a_key_is_its_rating() -> None:
    assert (np.diff(standard_ratings("nec-2020", "fuse")) > 0).all()
    assert len(standard_ratings("nec-2023")) == 38
    for rating in standard_ratings("nec-2023", "fuse"):
        assert load("overcurrent_ratings").number(rating_row(rating), "rating") == rating


def test_above_the_table_and_unknown_there_is_none() -> None:
    assert np.isnan(next_rating([6001.0, math.nan], "nec-2023")).all()


def test_an_edition_that_the_table_does_not_know_is_refused() -> None:
    for edition in ("nec-2014", "2023", "nec-2026"):
        with pytest.raises(KeyError, match="does not know the edition"):
            standard_ratings(edition)


@pytest.mark.parametrize(
    "rating, standing",
    [(10, Standing.PUBLISHED), (60, Standing.SECONDARY), (700, Standing.FROM_MEMORY)],
)
def test_a_rating_is_cited_with_its_own_standing(rating: float, standing: Standing) -> None:
    assert load("overcurrent_ratings").cite(rating_row(rating)).standing is standing


@pytest.mark.parametrize("material, size, cap", CAPS)
def test_a_small_conductor_has_its_cap(material: Material, size: str, cap: float) -> None:
    assert largest_protection(material)[index_of(size)] == cap
    assert load("small_conductor_protection").number(protection_row(material, size), "most") == cap


@pytest.mark.parametrize("material", ["copper", "aluminum"])
def test_caps_are_the_ampacities_at_60_degc_and_end_at_10_awg(material: Material) -> None:
    # Source: an identity of two tables, Table 310.16 and 240.4(D).
    caps = largest_protection(material)
    capped = ~np.isnan(caps)
    assert (caps[capped] == ampacities(material, 60)[capped]).all()
    assert np.flatnonzero(capped)[-1] == index_of("10")
    assert capped.sum() == (3 if material == "copper" else 2)


def test_caps_of_18_and_16_awg_are_from_memory_and_conditional() -> None:
    table = load("small_conductor_protection")
    for key, cap in (("copper/18", 7.0), ("copper/16", 10.0)):
        assert table.number(key, "most") == cap
        assert table.cite(key, "most").standing is Standing.FROM_MEMORY
        assert table.row(key)["condition"]


def test_copper_clad_aluminum_shares_the_caps_of_aluminum() -> None:
    clad, aluminum = largest_protection("copper_clad_aluminum"), largest_protection("aluminum")
    assert clad[1:].tolist() == pytest.approx(aluminum[1:].tolist(), nan_ok=True)
    assert math.isnan(aluminum[0])
