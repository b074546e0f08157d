"""The edition that governs a permit follows from place and date."""

from datetime import date

import pytest

from service.codes import code_editions, default_permit_date, editions
from service.codes.edition import MODEL, Edition
from service.codes.resolver import among

# state | permit date | current | neighbour | known. Source: California Building Standards Code,
# first dates 1 January 2023 and 1 January 2026; the rest follows from the table's own rows.
CASES = (
    ("CA", "2023-01-01", "ca-2022", "ca-2025", True),
    ("CA", "2025-12-31", "ca-2022", "ca-2025", True),
    ("CA", "2026-01-01", "ca-2025", "ca-2022", True),
    ("CA", "2026-11-01", "ca-2025", "ca-2022", True),
    ("CA", "2028-12-31", "ca-2025", "ca-2022", True),
    ("CA", "2022-12-31", "ca-2022", "ca-2025", False),
    ("CA", "2029-01-01", "ca-2025", "ca-2022", False),
    ("TX", "2026-11-01", "model-2024", "model-2021", False),
    ("", "2026-11-01", "model-2024", "model-2021", False),
    ("model", "2026-11-01", "model-2024", "model-2021", False),
    ("ca", "2026-11-01", "model-2024", "model-2021", False),
    ("TX", "2022-06-01", "model-2021", "model-2024", False),
    ("TX", "2019-06-01", "model-2021", "model-2024", False),
)


@pytest.mark.parametrize("state, day, current, neighbour, known", CASES)
def test_an_edition_follows_from_state_and_date(
    state: str, day: str, current: str, neighbour: str, known: bool
) -> None:
    found = editions(state, day)
    assert (found.current, found.neighbour, found.known) == (current, neighbour, known)
    assert editions(state, date.fromisoformat(day)) == found


def test_a_county_or_city_without_rows_of_its_own_follows_its_state() -> None:
    assert editions("CA", "2026-11-01", "Kern", "Tehachapi") == editions("CA", "2026-11-01")


@pytest.mark.parametrize("text", ["", "soon", "2026-02-30", "11/01/2026"])
def test_a_text_that_is_no_date_is_refused(text: str) -> None:
    with pytest.raises(ValueError):
        editions("CA", text)


# edition | electrical | residential | fire. Source: a Californian city's list of adopted codes
# (2022); public code-adoption pages (2025).
BASES = (
    ("ca-2022", "nec-2020", "irc-2021", "ifc-2021"),
    ("ca-2025", "nec-2023", "irc-2024", "ifc-2024"),
)


@pytest.mark.parametrize("edition_id, electrical, residential, fire", BASES)
def test_a_state_edition_names_the_model_codes_that_it_amends(
    edition_id: str, electrical: str, residential: str, fire: str
) -> None:
    one = code_editions()[edition_id]
    assert (one.electrical, one.residential, one.fire) == (electrical, residential, fire)


def test_editions_of_one_place_never_overlap() -> None:
    rows = list(code_editions().values())
    for one in rows:
        assert one.last is None or one.first <= one.last
        same = [r for r in rows if (r.jurisdiction, r.county, r.city) == place_of(one)]
        assert [r.id for r in same if r.governs(one.first)] == [one.id]


def place_of(one: Edition) -> tuple[str, str, str]:
    return one.jurisdiction, one.county, one.city


def test_the_default_permit_date_has_a_known_edition_in_california() -> None:
    assert default_permit_date() == date(2026, 11, 1)
    assert editions("CA", default_permit_date()).known


def edition(name: str, first: str, last: str | None, county: str = "", city: str = "") -> Edition:
    jurisdiction = MODEL if name == "model" else "ZZ"
    end = date.fromisoformat(last) if last else None
    start = date.fromisoformat(first)
    return Edition(name, jurisdiction, county, city, name, "nec", "irc", "ifc", start, end)


INVENTED = (
    edition("model", "2000-01-01", None),
    edition("first", "2010-01-01", "2012-12-31"),
    edition("second", "2013-01-01", "2015-12-31"),
    edition("third", "2016-01-01", None),
    edition("county", "2014-01-01", None, "Example"),
    edition("city", "2015-01-01", None, "Example", "Sampleton"),
)


# county | city | date | current | neighbour | known. Invented places, own arithmetic.
PLACES = (
    ("", "", "2011-06-01", "first", "second", True),
    ("", "", "2013-02-01", "second", "first", True),
    ("", "", "2015-11-01", "second", "third", True),
    ("", "", "2040-01-01", "third", "second", True),
    ("", "", "2009-01-01", "first", "second", False),
    ("Example", "", "2015-06-01", "county", None, True),
    ("Example", "Elsewhere", "2015-06-01", "county", None, True),
    ("Example", "Sampleton", "2015-06-01", "city", None, True),
    ("Example", "Sampleton", "2014-06-01", "city", None, False),
    ("Otherwhere", "Sampleton", "2015-06-01", "second", "third", True),
)


@pytest.mark.parametrize("county, city, day, current, neighbour, known", PLACES)
def test_the_nearest_rows_in_place_then_in_time_decide(
    county: str, city: str, day: str, current: str, neighbour: str | None, known: bool
) -> None:
    found = among(INVENTED, "ZZ", date.fromisoformat(day), county, city)
    assert (found.current, found.neighbour, found.known) == (current, neighbour, known)


def test_of_two_editions_equally_near_the_later_is_the_neighbour() -> None:
    rows = (
        edition("first", "2010-01-01", "2010-01-09"),
        edition("second", "2010-01-10", "2010-01-10"),
        edition("third", "2010-01-11", None),
    )
    assert among(rows, "ZZ", date(2010, 1, 10)).neighbour == "third"
