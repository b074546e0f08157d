"""Walls made inside the contract are mended until no rule between fields is broken."""

from __future__ import annotations

import json
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.checks.clearance.refusals import refusals
from service.checks.clearance.request import ClearanceRequest
from service.http.decoder import Decoder
from service.http.schema import Components
from tests.checks.clearance.contradictions import CLEAN, REFUSED, Change, changed
from tests.contract.mending import mend
from tests.contract.subject import Json, component

COMPONENTS = Components()
COMPONENTS.request(ClearanceRequest)
DOCUMENT: Json = {"components": {"schemas": COMPONENTS.schemas}}
SCHEMA = component(DOCUMENT, "ClearanceRequest")
DECODER = Decoder(ClearanceRequest)


@cache
def named(name: str) -> st.SearchStrategy[Any]:
    return drawn(component(DOCUMENT, name))


def drawn(schema: Json) -> st.SearchStrategy[Any]:
    """Return values inside a schema: lists of a few, texts of a few letters."""
    if "$ref" in schema:
        return named(schema["$ref"].rpartition("/")[2])
    if "oneOf" in schema:
        return st.one_of([drawn(branch) for branch in schema["oneOf"]])
    if "enum" in schema:
        return st.sampled_from(schema["enum"])
    if "const" in schema:
        return st.just(schema["const"])
    kinds = schema["type"]
    return st.one_of([_of(kind, schema) for kind in ([kinds] if type(kinds) is str else kinds)])


def _of(kind: str, schema: Json) -> st.SearchStrategy[Any]:
    if kind == "object":
        fields = {name: drawn(inner) for name, inner in schema["properties"].items()}
        needed = {name: fields.pop(name) for name in schema["required"]}
        return st.fixed_dictionaries(needed, optional=fields)
    if kind == "array":
        longest = min(schema["maxItems"], 4)
        return st.lists(
            drawn(schema["items"]), min_size=schema.get("minItems", 0), max_size=longest
        )
    if kind in ("number", "integer"):
        bounds = schema["minimum"], schema["maximum"]
        return st.integers(*bounds) if kind == "integer" else st.floats(*bounds)
    if kind == "string" and "x-unit" in schema:
        return st.integers(-2000, 2000).map(lambda number: f"{number} {schema['x-unit']}")
    if kind == "string":
        names = [*schema.get("examples", ["a"])]
        return st.sampled_from([*names, "a"] if schema["maxLength"] == 40 else names)
    return st.booleans() if kind == "boolean" else st.none()


def broken(body: Any) -> list[str]:
    request = DECODER.decode(json.dumps(body).encode())
    assert isinstance(request, ClearanceRequest)
    return [error.pointer for error in refusals(request)]


@settings(max_examples=60)
@given(named("ClearanceRequest"))
def test_whatever_fits_the_contract_is_taken_once_mended(made: Any) -> None:
    mended = mend(DOCUMENT, SCHEMA, made)
    assert broken(mended) == []


@pytest.mark.parametrize("change", [case[0] for case in REFUSED], ids=[case[1] for case in REFUSED])
def test_every_contradiction_is_mended(change: Change) -> None:
    assert broken(mend(DOCUMENT, SCHEMA, changed(CLEAN, change))) == []


def test_a_clean_request_stays_as_it_is() -> None:
    assert mend(DOCUMENT, SCHEMA, changed(CLEAN, {})) == CLEAN
