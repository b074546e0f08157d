"""Schemas of the contract in words: what a field takes, its bounds, how a fact is asked."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from typing import Any

from service.http.docs_markup import escape, inline

Json = Mapping[str, Any]
_REF = "#/components/schemas/"
#: Longer lists of choices fold away behind their number.
_CHOICES_SHOWN = 8


def fields(schema: Json) -> str:
    """Return the fields of an object as a list of definitions."""
    rows = [
        f"<dt><code>{escape(name)}</code> <div>{type_words(field)}{_need(name, schema)}</div>"
        f"</dt>\n<dd>{_field(field)}</dd>"
        for name, field in schema["properties"].items()
    ]
    return "<dl>\n" + "\n".join(rows) + "\n</dl>" if rows else "<p>No fields.</p>"


def type_words(schema: Json) -> str:
    """Return in words, with links, which values the schema takes."""
    if "$ref" in schema:
        name = escape(schema["$ref"].removeprefix(_REF))
        return f'<a href="#object-{name}">{name}</a>'
    for union in ("oneOf", "anyOf"):
        if union in schema:
            return " or ".join(dict.fromkeys(type_words(branch) for branch in schema[union]))
    if "const" in schema:
        return f"always <code>{escape(json.dumps(schema['const']))}</code>"
    if "enum" in schema:
        return _choices(schema["enum"])
    if schema.get("type") == "array":
        length = _bounds(schema, "minItems", "maxItems").removeprefix(",")
        return f"list{f' of{length}' if length else ''}; each {type_words(schema['items'])}"
    return _scalar_words(schema)


def _need(name: str, schema: Json) -> str:
    return ", required" if name in schema["required"] else ""


def _choices(values: list[Any]) -> str:
    shown = ", ".join(f"<code>{escape(json.dumps(value))}</code>" for value in values)
    if len(values) <= _CHOICES_SHOWN:
        return f"one of {shown}"
    return f"<details><summary>one of {len(values)}</summary> {shown}</details>"


def _scalar_words(schema: Json) -> str:
    kinds = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    parts = []
    for kind in kinds:
        if kind in ("number", "integer"):
            unit = schema.get("x-unit", "1")
            stated = "" if unit == "1" else f" [{escape(unit)}]"
            limits = _bounds(schema, "minimum", "maximum", "exclusiveMinimum")
            parts.append({"number": "number", "integer": "whole number"}[kind] + stated + limits)
        elif kind == "string" and "x-unit" in schema:
            parts.append("text with a unit")
        elif kind == "string":
            form = f" ({schema['format']})" if "format" in schema else ""
            longest = schema.get("maxLength")
            parts.append("text" + form + (f" of at most {longest} characters" if longest else ""))
        else:
            parts.append("true or false" if kind == "boolean" else str(kind))
    return " or ".join(parts)


def _bounds(schema: Json, low: str, high: str, above: str = "") -> str:
    least, most = schema.get(low), schema.get(high)
    if above in schema:
        return f", above {schema[above]:,} up to {most:,}"
    if least is not None and most is not None:
        return f", {least:,} to {most:,}" if least != most else f", {least:,}"
    if most is not None:
        return f", at most {most:,}"
    return "" if least is None else f", at least {least:,}"


def _field(field: Json) -> str:
    return " ".join([inline(field["description"]), *_notes(field)])


def _notes(field: Json) -> Iterator[str]:
    if "x-decimals" in field:
        yield f"Rounded to {field['x-decimals']} decimals."
    if "default" in field:
        yield f"Default: <code>{escape(json.dumps(field['default']))}</code>."
    if "x-question" in field:
        who, how = escape(field["x-who-answers"]), escape(field["x-ask-by"])
        yield f"<br>Ask the {who} by {how}: <q>{escape(field['x-question'])}</q>"
    if "x-coarse-answers" in field:
        said = (
            f"<code>{escape(name)}</code> ({low:g} to {high:g})"
            for name, (low, high) in field["x-coarse-answers"].items()
        )
        yield f"<br>Coarse answers: {', '.join(said)}."
    if "x-photograph" in field:
        yield f"<br>Photograph: {escape(field['x-photograph'])}"
    if field.get("examples"):
        shown = escape(json.dumps(field["examples"][0], ensure_ascii=False))
        yield f"<br>Example: <code>{shown}</code>"
