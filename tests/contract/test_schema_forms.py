"""Forms that client generators take unmodified, each pinned on the dummy check."""

from typing import Annotated, Any, Literal

import pytest
from msgspec import Struct, defstruct

from service.http.schema import Components
from service.quantities.fields import said
from tests.contract.dummy import DUMMY as DUMMY_CHECK
from tests.contract.dummy import DummyRound
from tests.contract.subject import component, dummy_contract, errors_of

_REF = "#/components/schemas/"
DUMMY = component(dummy_contract(), "DummyRequest")["properties"]


def test_a_choice_of_tagged_objects_is_one_of_with_a_discriminator_that_maps_every_tag() -> None:
    shape = component(dummy_contract(), "DummyRoundOrDummySquare")
    assert shape["oneOf"] == [{"$ref": _REF + "DummyRound"}, {"$ref": _REF + "DummySquare"}]
    assert shape["discriminator"] == {
        "propertyName": "kind",
        "mapping": {"round": _REF + "DummyRound", "square": _REF + "DummySquare"},
    }
    assert DUMMY["shape"]["$ref"] == _REF + "DummyRoundOrDummySquare"
    assert DUMMY["other_shape"]["oneOf"] == [
        {"$ref": _REF + "DummyRoundOrDummySquare"},
        {"type": "null"},
    ]


def test_a_tag_is_required_and_constant() -> None:
    square = component(dummy_contract(), "DummySquare")
    assert square["required"] == ["kind", "side"]
    assert square["properties"]["kind"]["type"] == "string"
    assert square["properties"]["kind"]["const"] == "square"


def test_requests_are_closed_and_answers_open_unless_a_test_closes_them() -> None:
    assert component(dummy_contract(), "DummySquare")["additionalProperties"] is False
    assert "additionalProperties" not in component(dummy_contract(), "DummyAnswer")
    closed = Components(closed_answers=True)
    closed.answer(DUMMY_CHECK.answer)
    assert closed.schemas["DummyAnswer"]["additionalProperties"] is False


def test_an_answer_always_has_every_field_that_no_include_asks_for() -> None:
    answer = component(dummy_contract(), "DummyAnswer")
    assert set(answer["properties"]) - set(answer["required"]) == {"working", "series"}


FIELDS = [
    # field, keyword, value
    ("run", "x-ask-by", "photo"),
    ("run", "x-question", "How long is the run?"),
    ("run", "x-coarse-answers", {"short": [0.0, 30.0], "long": [30.0, 300.0]}),
    ("run", "x-photograph", "The wall from end to end."),
    ("count", "type", "integer"),
    ("count", "default", 1),
    ("shapes", "default", []),
    ("name", "type", ["string", "null"]),
    ("mode", "oneOf", [{"type": "string", "enum": ["fast", "slow"]}, {"type": "null"}]),
]


@pytest.mark.parametrize("field, keyword, value", FIELDS)
def test_a_field_says_what_its_declaration_says(field: str, keyword: str, value: object) -> None:
    assert DUMMY[field][keyword] == value


VALUES = [
    # field, value, fits
    ("run", 30, True),
    ("run", "30 m", True),
    ("run", "3/4 in", True),
    ("run", "30 kWh", False),
    ("run", "30", False),
    ("run", -1, False),
    ("run", True, False),
    ("run", None, True),
    ("run", {"as": "range", "low": 1, "high": "2 m"}, True),
    ("run", {"as": "range", "low": 1}, False),
    ("run", {"as": "one_of", "values": [1, "2 m"]}, True),
    ("run", {"as": "one_of", "values": []}, False),
    ("run", {"as": "coarse", "answer": "long"}, True),
    ("run", {"as": "coarse", "answer": "longer"}, False),
    ("run", {"as": "unknown"}, True),
    ("run", {"as": "unknown", "why": "no"}, False),
    ("colour", "red", True),
    ("colour", "green", False),
    ("months", [1] * 12, True),
    ("months", [1] * 11, False),
    ("months", "0.7 MWh", True),
    ("shape", {"kind": "round", "across": 3}, True),
    ("shape", {"across": 3}, False),
    ("shape", {"kind": "square", "across": 3}, False),
    ("name", "a\nb", False),
    ("grid", [[1, 2], ["3 ft"]], True),
    ("grid", [[1, 2, 3, 4]], False),
]


@pytest.mark.parametrize("field, value, fits", VALUES)
def test_a_schema_takes_the_forms_of_its_field_and_no_other(
    field: str, value: object, fits: bool
) -> None:
    schema = {"type": "object", "properties": {field: DUMMY[field]}}
    assert (not errors_of(dummy_contract(), schema, {field: value})) is fits


class Anything(Struct):
    """A struct with a field that could be anything."""

    anything: Any


def test_a_name_cannot_mean_two_schemas() -> None:
    namesake = defstruct(
        "DummyRound", [("across", Literal["wide"])], namespace={"__doc__": "Other."}
    )
    components = Components()
    components.request(DummyRound)
    with pytest.raises(ValueError, match="two schemas are called DummyRound"):
        components.request(namesake)


def test_a_type_without_a_form_is_refused() -> None:
    with pytest.raises(TypeError, match="no form"):
        Components().request(Anything)


class Level(Struct):
    """A struct with a field of its own name."""

    level: Annotated[int, said("How high.", example=1)]


def test_no_schema_has_a_field_of_its_own_name_which_some_clients_confuse() -> None:
    components = Components()
    assert components.answer(Level)["$ref"] == _REF + "LevelEntry"
