"""The contract: one OpenAPI 3.1 document, made of the operations and the reference lists.

It is written by ``python -m service openapi``, pinned, and compared byte for byte by a test, so
its order is that of the operations, and nothing in it depends on the machine or the time.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from service import __version__
from service.check import JSON, MIB, Operation
from service.http.contract_examples import Example, examples_of
from service.http.contract_pages import pages
from service.http.contract_problems import Problem, problem_responses, refused
from service.http.contract_responses import answered, headers, parameters
from service.http.contract_words import DESCRIPTION, TAGS, TITLE
from service.http.reference_lists import ReferenceList
from service.http.schema import Components

Json = dict[str, Any]


def document(
    operations: Sequence[Operation],
    lists: Sequence[ReferenceList],
    examples_root: Path,
    *,
    closed_answers: bool = False,
) -> Json:
    """Return the contract of the operations and lists.

    Parameters
    ----------
    operations : sequence of Operation
    lists : sequence of ReferenceList
    examples_root : Path
        Folder that holds one folder of examples an operation.
    closed_answers : bool
        Whether answers refuse further fields: for our own tests, never for publication.
    """
    components = Components(closed_answers=closed_answers)
    components.answer(Problem)
    paths: dict[str, Json] = {}
    for operation in operations:
        examples = examples_of(operation, examples_root)
        paths[operation.path] = {"post": _post(operation, components, examples)}
    for listed in lists:
        paths[listed.path] = {"get": _reference(listed, components)}
    paths.update(pages(components))
    return {
        "openapi": "3.1.0",
        "info": _info(),
        "servers": [
            {
                "url": "http://127.0.0.1:8080",
                "description": "Where `python -m service serve` listens by default.",
            }
        ],
        "security": [],
        "tags": _tags(paths),
        "paths": paths,
        "components": {
            "schemas": components.schemas,
            "parameters": parameters(),
            "headers": headers(),
            "responses": problem_responses(),
        },
    }


def to_bytes(contract: Json) -> bytes:
    """Return the contract as it is pinned and served."""
    return (json.dumps(contract, indent=2, ensure_ascii=False) + "\n").encode()


def _info() -> Json:
    return {
        "title": TITLE,
        "version": __version__,
        "summary": "Design checks for residential battery backup in the United States.",
        "description": DESCRIPTION,
        "contact": {"name": "Service maintainers"},
        "license": {"name": "Apache-2.0", "identifier": "Apache-2.0"},
    }


def _tags(paths: dict[str, Json]) -> list[Json]:
    used = {tag for path in paths.values() for method in path.values() for tag in method["tags"]}
    if unknown := used - TAGS.keys():
        raise ValueError(f"tags without a description: {sorted(unknown)}")
    return [{"name": name, "description": TAGS[name]} for name in TAGS if name in used]


def _post(operation: Operation, components: Components, examples: Sequence[Example]) -> Json:
    return {
        "operationId": operation.id.replace("-", "_"),
        "summary": operation.title,
        "description": f"{operation.description}\n\n{_body_words(operation)}",
        "tags": [operation.tag],
        "parameters": [
            *([_include(operation)] if operation.includes else []),
            {"$ref": "#/components/parameters/RequestId"},
            {"$ref": "#/components/parameters/TraceParent"},
        ],
        "requestBody": {
            "description": _body_words(operation),
            "required": True,
            "content": {
                JSON: {
                    "schema": components.request(operation.request),
                    **_shown([e for e in examples if not e.is_raw], "request"),
                },
                **_raw_content(operation, examples),
            },
        },
        "responses": {
            "200": answered(
                _answer_words(operation),
                components.answer(operation.answer),
                media=operation.answers,
                examples=_shown(examples, "response"),
            ),
            **refused(400, 406, 413, 415, 422, 503),
        },
    }


def _answer_words(operation: Operation) -> str:
    if "verdict" in operation.answer.__struct_fields__:
        return "The answer. What it says of a home stands in `verdict`, never in the status."
    return "The answer."


def _raw_content(operation: Operation, examples: Sequence[Example]) -> Json:
    """Return the raw body beside JSON: one media type for all that are accepted."""
    if operation.raw is None:
        return {}
    shown = _shown([e for e in examples if e.is_raw], "request")
    return {operation.raw.media[0]: {"schema": {"type": "string", "format": "binary"}, **shown}}


def _body_words(operation: Operation) -> str:
    """Return the sentences on what the body may be; the contract lists JSON and raw bytes alone."""
    further = [f"`{media}`" for media in operation.bodies if media != JSON]
    also = f" Further accepted as {', '.join(further)}." if further else ""
    words = f"The request as JSON, at most {operation.limit / MIB:g} MiB.{also}"
    if operation.raw is None:
        return words
    named = ", ".join(f"`{media}`" for media in operation.raw.media)
    return (
        f"{words} Or the document itself, raw, at most {operation.raw.limit / MIB:g} MiB: {named}."
    )


def _shown(examples: Sequence[Example], part: str) -> Json:
    """Return the examples of one side as the contract holds them, the first one leading."""
    shown = {e.name: {"summary": e.summary, "value": getattr(e, part)} for e in examples}
    return {"examples": shown} if shown else {}


def _include(operation: Operation) -> Json:
    return {
        "name": "include",
        "in": "query",
        "description": "Parts that the answer leaves out unless asked for, divided by commas.",
        "required": False,
        "style": "form",
        "explode": False,
        "schema": {
            "type": "array",
            "items": {"type": "string", "enum": list(operation.includes)},
            "minItems": 1,
            "maxItems": len(operation.includes),
            "uniqueItems": True,
        },
        "example": [operation.includes[0]],
    }


def _reference(listed: ReferenceList, components: Components) -> Json:
    return {
        "operationId": listed.operation_id,
        "summary": listed.title,
        "description": listed.description,
        "tags": ["reference"],
        "parameters": [
            {"$ref": "#/components/parameters/RequestId"},
            {"$ref": "#/components/parameters/IfNoneMatch"},
        ],
        "responses": {
            "200": answered("The list.", components.answer(listed.answer), cached=True),
            "304": {"description": "The list is the one whose ETag was sent."},
            **refused(406, 422, 503),
        },
    }
