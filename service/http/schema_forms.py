"""The forms of single values in a schema: scalars, closed lists, null beside them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any

from msgspec import NODEFAULT
from msgspec import inspect as mi

from service.http.schema_text import text_units

Json = dict[str, Any]

#: Texts with a format of their own, and the longest of each.
_TEXT_FORMATS: dict[type[mi.Type], tuple[str, int]] = {
    mi.DateType: ("date", 10),
    mi.DateTimeType: ("date-time", 40),
    mi.TimeType: ("time", 30),
    mi.UUIDType: ("uuid", 36),
}


def scalar(kind: mi.Type) -> Json:
    """Return the schema of a number, text, truth value or closed list.

    Raises
    ------
    TypeError
        The contract has no form for the type.
    """
    if isinstance(kind, (mi.FloatType, mi.IntType)):
        whole = isinstance(kind, mi.IntType)
        schema = {
            "type": "integer" if whole else "number",
            **given(
                minimum=kind.ge,
                exclusiveMinimum=kind.gt,
                maximum=kind.le,
                exclusiveMaximum=kind.lt,
                multipleOf=kind.multiple_of,
            ),
        }
        return {**schema, "x-unit": "1"} if whole else schema
    if isinstance(kind, mi.StrType):
        pattern = kind.pattern and kind.pattern.replace("\\Z", "$")
        lengths = given(minLength=kind.min_length, maxLength=kind.max_length)
        return {"type": "string", **lengths, **given(pattern=pattern)}
    if isinstance(kind, mi.BoolType):
        return {"type": "boolean"}
    if isinstance(kind, mi.LiteralType):
        return listed(list(kind.values))
    if type(kind) in _TEXT_FORMATS:
        name, longest = _TEXT_FORMATS[type(kind)]
        return {"type": "string", "format": name, "maxLength": longest}
    raise TypeError(f"the contract has no form for {kind}")


def listed(values: list[Any]) -> Json:
    """Return the schema of a closed list, all texts or all whole numbers."""
    kinds = {"string" if isinstance(v, str) else "integer" for v in values}
    if len(kinds) != 1:
        raise TypeError(f"a closed list mixes texts and numbers: {values}")
    return {"type": kinds.pop(), "enum": values}


def given(**words: Any) -> Json:
    """Return the keywords that have a value."""
    return {name: value for name, value in words.items() if value is not None}


def component_name(info: mi.StructType) -> str:
    """Return the name of a struct's schema: its own, unless one of its fields has that name.

    A generated client may hold the object and its field in variables of their names, so the two
    must differ.
    """
    name: str = info.cls.__name__
    variable = re.sub("(?<=[a-z0-9])(?=[A-Z])", "_", name).lower()
    taken = any(field.encode_name == variable for field in info.fields)
    return f"{name}Entry" if taken else name


def camel(name: str) -> str:
    """Return a field's name as a part of a schema's name."""
    return "".join(part.capitalize() for part in re.split("[_-]", name))


def may_be_unset(field: mi.Field) -> bool:
    """Return whether an answer may leave the field out."""
    return not field.required and field.default is NODEFAULT and field.default_factory is NODEFAULT


def with_units(schema: Json) -> Json:
    """Return `schema` with the units that a text may carry said in words, once."""
    if "pattern" not in schema or "x-unit" not in schema:
        return schema
    words = text_units(schema["x-unit"])
    said = schema["description"].removesuffix(words).rstrip()
    return {**schema, "description": f"{said} {words}"}


def nullable(schema: Json) -> bool:
    """Return whether null fits the schema."""
    branches: list[Json] = schema.get("oneOf") or schema.get("anyOf") or []
    kinds = schema.get("type")
    return (
        kinds == "null"
        or (isinstance(kinds, list) and "null" in kinds)
        or any(nullable(branch) for branch in branches)
    )


def or_null(schema: Json) -> Json:
    """Return `schema` with null beside it: one more type where that says it all."""
    for union in ("oneOf", "anyOf"):
        if union in schema:
            return {**schema, union: [*schema[union], {"type": "null"}]}
    if "type" in schema and "enum" not in schema:
        kinds = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
        return {**schema, "type": [*kinds, "null"]}
    words = {k: v for k, v in schema.items() if k in ("description", "examples")}
    bare = {k: v for k, v in schema.items() if k not in words}
    return {**words, "oneOf": [bare, {"type": "null"}]}


def exclusive(branches: Sequence[Json]) -> bool:
    """Return whether no value can be of two branches: each JSON type in one of them at most."""
    seen: list[str] = []
    for branch in branches:
        kinds = branch.get("type", "object")
        for kind in kinds if isinstance(kinds, list) else [kinds]:
            seen.append("number" if kind == "integer" else kind)
    scalars = [kind for kind in seen if kind != "object"]
    return len(scalars) == len(set(scalars))
