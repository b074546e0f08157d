"""The contract under test, where its files stand, and what judges values by its schemas."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

import jsonschema_rs

from service.app import operations
from service.check import Operation
from service.http.contract import document
from service.http.reference_lists import reference_lists
from tests.contract.dummy import DUMMY, DUMMY_SITE

Json = Mapping[str, Any]

FOLDER = Path(__file__).resolve().parents[2] / "openapi"
EXAMPLES = FOLDER / "examples"
NO_EXAMPLES = FOLDER / "no-such-folder"


def contract_of(
    offered: Sequence[Operation], examples: Path, *, closed_answers: bool = False
) -> Json:
    """Return the contract of some operations."""
    return document(offered, reference_lists(offered), examples, closed_answers=closed_answers)


@cache
def contract(*, closed_answers: bool = False) -> Json:
    """Return the contract of this service, its answers closed where a test asks for it."""
    return contract_of(operations(), EXAMPLES, closed_answers=closed_answers)


@cache
def dummy_contract() -> Json:
    """Return a contract that has every construct."""
    return contract_of((DUMMY, DUMMY_SITE), NO_EXAMPLES)


def errors_of(document: Json, schema: Json, value: Any) -> list[str]:
    """Return why the value does not fit a schema of the document; nothing where it fits."""
    whole = {**schema, "components": document["components"]}
    return [error.message for error in jsonschema_rs.Draft202012Validator(whole).iter_errors(value)]


@cache
def validator(name: str, *, closed_answers: bool) -> jsonschema_rs.Draft202012Validator:
    """Return what judges values by a named schema of this service's contract."""
    document = contract(closed_answers=closed_answers)
    return jsonschema_rs.Draft202012Validator(
        {**component(document, name), "components": document["components"]}
    )


def component(document: Json, name: str) -> Any:
    """Return a named schema of the document."""
    return document["components"]["schemas"][name]


def schemas_within(schema: Any) -> Iterator[Json]:
    """Return the schema and every schema inside it."""
    if isinstance(schema, Mapping):
        yield schema
        for name, inside in schema.items():
            if name in ("properties", "oneOf", "anyOf"):
                parts = inside.values() if isinstance(inside, Mapping) else inside
                for part in parts:
                    yield from schemas_within(part)
            elif name in ("items", "additionalProperties"):
                yield from schemas_within(inside)
