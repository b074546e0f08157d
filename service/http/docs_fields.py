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
_WAYS = {
    "telephone": "by telephone",
    "photo": "by photo",
    "record": "from a record",
    "recording": "by a recording",
    "visit": "on a visit",
}


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
    return _typed_words(schema)


def _need(name: str, schema: Json) -> str:
    return ", required" if name in schema["required"] else ""


def _choices(values: list[Any]) -> str:
    shown = ", ".join(f"<code>{escape(json.dumps(value))}</code>" for value in values)
    if len(values) <= _CHOICES_SHOWN:
        return f"one of {shown}"
    return f"<details><summary>one of {len(values)}</summary> {shown}</details>"


def _typed_words(schema: Json) -> str:
    kinds = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    words = {
        "array": _list_words,
        "boolean": lambda _schema: "true or false",
        "integer": lambda schema: "whole " + _number_words(schema),
        "null": lambda _schema: "null",
        "number": _number_words,
        "object": lambda _schema: "object",
        "string": _text_words,
    }
    return " or ".join(words[kind](schema) for kind in kinds)


def _list_words(schema: Json) -> str:
    length = _bounds(schema, "minItems", "maxItems").removeprefix(",")
    return f"list{f' of{length}' if length else ''}, each {type_words(schema['items'])}"


def _number_words(schema: Json) -> str:
    unit = schema.get("x-unit", "1")
    stated = "" if unit == "1" else f" [{escape(unit)}]"
    return f"number{stated}" + _bounds(schema, "minimum", "maximum", "exclusiveMinimum")


def _text_words(schema: Json) -> str:
    if "x-unit" in schema:
        return "text with a unit"
    form = f" ({schema['format']})" if "format" in schema else ""
    longest = schema.get("maxLength")
    return "text" + form + (f" of at most {longest} characters" if longest else "")


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
        who, how = escape(field["x-who-answers"]), _WAYS[field["x-ask-by"]]
        yield f"<br>Ask the {who} {how}: <q>{escape(field['x-question'])}</q>"
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
