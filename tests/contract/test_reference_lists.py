"""The reference lists hold what a form needs, and their rows fit the contract."""

from typing import Any

import pytest
from litestar.testing import TestClient

from service import ids
from service.app import operations
from service.climate import climate_sites
from service.codes import code_editions
from service.http.reference_lists import ReferenceList, reference_lists
from service.published import data_edition
from service.published.appliances import catalogue
from service.quantities.units import UNITS, from_text
from tests.contract.dummy import DUMMY, DUMMY_SITE
from tests.contract.subject import component, contract, errors_of

LISTS = {listed.id: listed for listed in reference_lists(operations())}
DUMMY_LISTS = {listed.id: listed for listed in reference_lists((DUMMY, DUMMY_SITE))}


def rows(listed: ReferenceList) -> list[Any]:
    return list(listed.content.rows)  # type: ignore[attr-defined]  # every list has its rows


@pytest.mark.parametrize("listed", LISTS.values(), ids=LISTS)
def test_a_list_is_answered_with_an_etag_and_fits_the_closed_contract(
    client: TestClient[Any], listed: ReferenceList
) -> None:
    answer = client.get(listed.path)
    assert answer.status_code == 200
    assert answer.content == listed.body()
    assert (
        client.get(listed.path, headers={"If-None-Match": answer.headers["etag"]}).status_code
        == 304
    )
    document = contract(closed_answers=True)
    schema = component(document, listed.answer.__name__)
    assert errors_of(document, schema, answer.json()) == []
    assert answer.json()["data_edition"] == data_edition()


def test_appliances_are_those_of_the_catalogue() -> None:
    assert [row.id for row in rows(LISTS["appliances"])] == list(catalogue())


def test_code_editions_are_those_of_the_codes() -> None:
    assert [row.id for row in rows(LISTS["code-editions"])] == list(code_editions())


def test_climate_sites_are_those_that_have_a_typical_year() -> None:
    listed = rows(LISTS["climate-sites"])
    assert [row.id for row in listed] == list(climate_sites())
    assert all(row.source == f"climate_sites/{row.id}" for row in listed)
    assert {row.standing for row in listed} == {"published"}


# site | field | value. Source: TMY3 file of the station (place), percentiles of its hours;
# 145 m = 475.7 ft, 43.0 degC = 109.4 degF, 6.0 degC = 42.8 degF, -34 m = -111.5 ft.
CLIMATE_SITES = [
    ("palm_springs", "latitude_deg", 33.833),
    ("palm_springs", "longitude_deg", -116.5),
    ("palm_springs", "elevation_ft", 476.0),
    ("palm_springs", "utc_offset_h", -8.0),
    ("palm_springs", "climate_zone", 15),
    ("palm_springs", "climate_zone_standing", "secondary"),
    ("palm_springs", "terrain", "low_desert"),
    ("palm_springs", "hot_hour_degf", 109.4),
    ("palm_springs", "cold_hour_degf", 42.8),
    ("thermal", "elevation_ft", -112.0),
    ("thermal", "climate_zone_standing", "from_memory"),
    ("chicago_il", "climate_zone", None),
    ("chicago_il", "climate_zone_standing", None),
    ("china_lake", "not_observed_percent", 51.6),
    ("blythe", "notes", "2 dry-bulb hours corrected"),
]


@pytest.mark.parametrize("site, field, value", CLIMATE_SITES)
def test_a_climate_site_is_listed_in_customary_units(site: str, field: str, value: object) -> None:
    row = next(row for row in rows(LISTS["climate-sites"]) if row.id == site)
    assert getattr(row, field) == value


def test_every_spelling_of_a_unit_is_one_that_a_text_may_carry() -> None:
    assert [row.unit for row in rows(LISTS["units"])] == list(UNITS)
    for row in rows(LISTS["units"]):
        for spelling in row.spellings:
            assert from_text(f"2 {spelling}", row.unit) == 2.0


def test_the_factor_of_a_unit_is_the_exact_one() -> None:
    by_name = {row.unit: row for row in rows(LISTS["units"])}
    assert (by_name["ft"].factor, by_name["ft"].offset, by_name["ft"].si_unit) == (0.3048, 0, "m")
    assert by_name["kWh"].factor == 3.6e6
    assert by_name["degC"].offset == 273.15


def test_ids_are_all_that_an_answer_can_carry() -> None:
    assert [row.id for row in rows(LISTS["ids"])] == [entry.id for entry in ids.listed()]


def test_checks_are_the_operations_of_this_service() -> None:
    assert [row.path for row in rows(LISTS["checks"])] == [o.path for o in operations()]
    dummy = next(row for row in rows(DUMMY_LISTS["checks"]) if row.id == "dummy-check")
    assert dummy.composed
    assert dummy.facts_read == ["/run"]


FACTS = [
    # pointer, value, unit, minimum, maximum, choices
    ("/run", "number", "ft", 0.0, 10_000.0, []),
    ("/colour", "choice", None, None, None, ["blue", "red"]),
    ("/wet", "yes_no", None, None, None, []),
]


@pytest.mark.parametrize("pointer, value, unit, minimum, maximum, choices", FACTS)
def test_a_fact_is_listed_with_all_that_a_form_needs(
    pointer: str,
    value: str,
    unit: str | None,
    minimum: float | None,
    maximum: float | None,
    choices: list[str],
) -> None:
    row = next(row for row in rows(DUMMY_LISTS["facts"]) if row.pointer == pointer)
    found = (row.value, row.unit, row.minimum, row.maximum, row.choices)
    assert found == (value, unit, minimum, maximum, choices)


def test_a_coarse_answer_is_listed_with_the_range_it_stands_for() -> None:
    row = next(row for row in rows(DUMMY_LISTS["facts"]) if row.pointer == "/run")
    assert [(c.answer, c.low, c.high) for c in row.coarse_answers] == [
        ("short", 0.0, 30.0),
        ("long", 30.0, 300.0),
    ]
    assert (row.ask_by, row.who_answers, row.photograph) == (
        "photo",
        "owner",
        "The wall from end to end.",
    )


def test_every_fact_of_the_site_assessment_is_listed_once() -> None:
    pointers = [row.pointer for row in rows(LISTS["facts"])]
    assert len(pointers) == len(set(pointers))
    assert pointers
    assert all(row.question.endswith("?") for row in rows(LISTS["facts"]))


def test_no_question_asks_an_owner_to_open_equipment() -> None:
    for row in rows(LISTS["facts"]):
        words = f"{row.question} {row.photograph or ''}".lower()
        if row.who_answers == "owner":
            assert not any(
                word in words for word in ("remove", "unscrew", "dead front off", "open the panel")
            ), row.pointer
