"""Every field of every body says what it is, in which unit, within which bounds, for example."""

from collections.abc import Callable, Iterator

import pytest

from tests.contract.subject import (
    Json,
    component,
    contract,
    dummy_contract,
    errors_of,
    schemas_within,
)

Document = Callable[[], Json]
DOCUMENTS = [contract, dummy_contract]


def fields_of(document: Json, *, of_requests: bool | None = None) -> Iterator[tuple[str, Json]]:
    for name, schema in document["components"]["schemas"].items():
        closed = schema.get("additionalProperties") is False
        if of_requests is None or closed is of_requests:
            for field, inside in schema.get("properties", {}).items():
                yield f"{name}.{field}", inside


def kinds_of(schema: Json) -> set[str]:
    kinds = schema.get("type", ())
    return {kinds} if isinstance(kinds, str) else set(kinds)


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_object_and_every_field_is_described(document: Document) -> None:
    for name, schema in document()["components"]["schemas"].items():
        assert schema["description"], name
    for name, schema in fields_of(document()):
        assert schema["description"].endswith((".", "?", "!")), name


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_field_has_an_example_that_fits_it(document: Document) -> None:
    for name, schema in fields_of(document()):
        assert schema["examples"], name
        for example in schema["examples"]:
            assert errors_of(document(), schema, example) == [], name


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_default_fits_its_field(document: Document) -> None:
    for name, schema in fields_of(document()):
        if "default" in schema:
            assert errors_of(document(), schema, schema["default"]) == [], name


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_number_of_a_request_has_bounds_and_a_unit(document: Document) -> None:
    for name, field in fields_of(document(), of_requests=True):
        for schema in schemas_within(field):
            if kinds_of(schema) & {"number", "integer"} and "enum" not in schema:
                assert "x-unit" in schema, name
                assert "maximum" in schema, name
                assert "minimum" in schema or "exclusiveMinimum" in schema, name


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_text_and_list_of_a_request_has_a_longest_length(document: Document) -> None:
    for name, field in fields_of(document(), of_requests=True):
        for schema in schemas_within(field):
            if "array" in kinds_of(schema):
                assert "maxItems" in schema, name
            if "string" in kinds_of(schema) and "enum" not in schema and "const" not in schema:
                assert "maxLength" in schema, name


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_number_of_an_answer_has_a_unit_and_decimals(document: Document) -> None:
    for name, field in fields_of(document(), of_requests=False):
        for schema in schemas_within(field):
            if "number" in kinds_of(schema):
                stated = {**field, **schema}
                assert "x-unit" in stated, name
                assert "x-decimals" in stated, name


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_text_with_a_unit_names_the_units_it_takes(document: Document) -> None:
    for name, field in fields_of(document(), of_requests=True):
        for schema in schemas_within(field):
            if "pattern" in schema and "x-unit" in schema:
                assert "a text carries its unit: " in schema["description"], name


@pytest.mark.parametrize("document", DOCUMENTS)
def test_every_fact_says_how_it_is_asked_and_which_coarse_answers_it_takes(
    document: Document,
) -> None:
    facts = [(name, field) for name, field in fields_of(document()) if "x-question" in field]
    assert facts
    for name, field in facts:
        ways = component(document(), "AskBy")["enum"]
        assert field["x-ask-by"] in ways, name
        assert field["x-question"].endswith("?"), name
        assert field["x-who-answers"] in ("owner", "installer", "utility", "maker"), name
        coarse = [s for s in field["oneOf"] if s.get("$ref", "").endswith("Coarse")]
        assert bool(coarse) is ("x-coarse-answers" in field), name
        for branch in coarse:
            schema = component(document(), branch["$ref"].rpartition("/")[2])
            listed = schema["properties"]["answer"]["enum"]
            assert sorted(listed) == sorted(field["x-coarse-answers"]), name


@pytest.mark.parametrize("document", DOCUMENTS)
def test_no_list_asks_for_more_than_48_items(document: Document) -> None:
    for name, field in fields_of(document(), of_requests=True):
        for schema in schemas_within(field):
            assert schema.get("minItems", 0) <= 48, name
