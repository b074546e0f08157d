"""JSON Schema 2020-12 of the wire structs, in the forms that client generators take unmodified.

msgspec's own generator writes tagged unions as ``anyOf``, leaves enumerations without a type and
knows nothing of quantities that may be texts. This one walks the same type information.

Requests are closed. Answers are published open, so that a later field breaks no caller;
``closed_answers`` closes them for our own tests, which must see a field that the contract lacks.
"""

from __future__ import annotations

import inspect
from collections.abc import Sequence
from enum import Enum
from typing import Any, Literal, get_origin

from msgspec import NODEFAULT, Struct, to_builtins
from msgspec import inspect as mi

from service.http.schema_forms import (
    camel,
    component_name,
    exclusive,
    given,
    listed,
    may_be_unset,
    nullable,
    or_null,
    scalar,
    with_units,
)
from service.http.schema_text import quantity_text

Json = dict[str, Any]
Side = Literal["request", "answer"]
Path = tuple[str, ...]

_REF = "#/components/schemas/"


class Components:
    """The named schemas of one document, gathered while its operations are described."""

    def __init__(self, *, closed_answers: bool = False) -> None:
        self.closed_answers = closed_answers
        self._schemas: dict[str, Json] = {}
        self._owners: dict[str, tuple[Any, Side]] = {}

    def request(self, struct: type[Struct]) -> Json:
        """Return a reference to the closed schema of a request body."""
        return _Writer(self, "request").struct(struct)

    def answer(self, struct: type[Struct]) -> Json:
        """Return a reference to the schema of an answer body."""
        return _Writer(self, "answer").struct(struct)

    @property
    def schemas(self) -> dict[str, Json]:
        """Return the schemas by name, sorted."""
        return dict(sorted(self._schemas.items()))

    def claim(self, name: str, what: Any, side: Side) -> bool:
        """Return whether `name` is new; refuse it where it already means something else."""
        owner = self._owners.setdefault(name, (what, side))
        if owner != (what, side):
            raise ValueError(f"two schemas are called {name}: {owner} and {(what, side)}")
        return name not in self._schemas

    def put(self, name: str, schema: Json) -> Json:
        """Keep `schema` under `name` and return a reference to it."""
        self._schemas[name] = schema
        return {"$ref": _REF + name}

    def example(self, schema: Json) -> Any:
        """Return a value that `schema` describes, made of the examples of its parts."""
        if schema.get("examples"):
            return schema["examples"][0]
        if "$ref" in schema:
            return self.example(self._schemas[schema["$ref"].removeprefix(_REF)])
        if "const" in schema:
            return schema["const"]
        if "enum" in schema:
            return schema["enum"][0]
        for union in ("oneOf", "anyOf"):
            if union in schema:
                return self.example(schema[union][0])
        if "properties" in schema:
            return {name: self.example(schema["properties"][name]) for name in schema["required"]}
        if "items" in schema:
            return [self.example(schema["items"])]
        if schema.get("type") == "boolean":
            return False
        raise ValueError(f"no example can be made of {schema}")


class _Writer:
    """Writes the types of one side, request or answer, into the components."""

    def __init__(self, components: Components, side: Side) -> None:
        self.components = components
        self.side = side

    def struct(self, struct: Any, path: Path = ()) -> Json:
        info = mi.type_info(struct)
        assert isinstance(info, mi.StructType)
        return self._struct(info, path)

    def schema(self, kind: mi.Type, path: Path) -> Json:
        """Return the schema of any type; `path` names its owner, for parts without a name."""
        if isinstance(kind, mi.Metadata):
            return self._annotated(kind, path)
        if isinstance(kind, mi.StructType):
            return self._struct(kind, path)
        if isinstance(kind, mi.UnionType):
            return self._union(kind, path)
        if isinstance(kind, mi.EnumType):
            return self._enum(kind.cls)
        if isinstance(kind, (mi.ListType, mi.VarTupleType)):
            return self._array(kind, path)
        if isinstance(kind, mi.DictType):
            return {
                "type": "object",
                "additionalProperties": self.schema(kind.value_type, path),
                **given(maxProperties=kind.max_length),
            }
        return scalar(kind)

    def _annotated(self, kind: mi.Metadata, path: Path) -> Json:
        words = kind.extra_json_schema or {}
        inner = self.schema(kind.type, path)
        if self.side == "request" and (unit := (kind.extra or {}).get("unit")):
            inner = quantity_text(inner, unit)
        merged = {**words, **{k: v for k, v in inner.items() if k not in words}}
        if merged.get("examples") == [None] and not nullable(inner):
            del merged["examples"]
        return with_units(merged) if "description" in merged else merged

    def _struct(self, info: mi.StructType, path: Path) -> Json:
        origin = get_origin(info.cls)
        name = component_name(info)
        if origin is not None:
            name = "".join(path) + origin.__name__.removeprefix("Fact")
        if self.components.claim(name, info.cls, self.side):
            self.components.put(name, self._object(info, name if origin is None else "", path))
        return {"$ref": _REF + name}

    def _object(self, info: mi.StructType, name: str, path: Path) -> Json:
        properties: dict[str, Json] = {}
        required: list[str] = []
        if info.tag_field is not None:
            required.append(info.tag_field)
            properties[info.tag_field] = {
                "type": "string",
                "description": "Says which of the forms this object has.",
                "const": info.tag,
                "examples": [info.tag],
            }
        for field in info.fields:
            inside = (name or "".join(path), camel(field.encode_name))
            properties[field.encode_name] = self._field(field, inside)
            if field.required or (self.side == "answer" and not may_be_unset(field)):
                required.append(field.encode_name)
        schema: Json = {
            "type": "object",
            "description": inspect.cleandoc((get_origin(info.cls) or info.cls).__doc__ or ""),
            "properties": properties,
            "required": required,
        }
        if self.side == "request" or self.components.closed_answers:
            schema["additionalProperties"] = False
        return schema

    def _field(self, field: mi.Field, path: Path) -> Json:
        schema = self.schema(field.type, path)
        if self.side == "request":
            schema.update(_default(field))
        if "examples" not in schema:
            schema["examples"] = [self.components.example(schema)]
        return schema

    def _array(self, kind: mi.ListType | mi.VarTupleType, path: Path) -> Json:
        return {
            "type": "array",
            "items": self.schema(kind.item_type, path),
            **given(minItems=kind.min_length, maxItems=kind.max_length),
        }

    def _enum(self, cls: type[Enum]) -> Json:
        values = [member.value for member in cls]
        schema = {"description": inspect.cleandoc(cls.__doc__ or ""), **listed(values)}
        return self.components.put(cls.__name__, schema)

    def _union(self, kind: mi.UnionType, path: Path) -> Json:
        members = [m for m in kind.types if not isinstance(m, mi.NoneType)]
        structs = [m for m in members if isinstance(m, mi.StructType)]
        if len(members) == 1:
            schema = self.schema(members[0], path)
        elif len(structs) == len(members):
            schema = self._tagged(structs, path)
        else:
            branches = [self.schema(m, path) for m in members]
            schema = {"oneOf" if exclusive(branches) else "anyOf": branches}
        return or_null(schema) if len(members) < len(kind.types) else schema

    def _tagged(self, structs: Sequence[mi.StructType], path: Path) -> Json:
        """Return a reference to the choice among tagged structs, a schema of its own."""
        references = [self._struct(info, path) for info in structs]
        name = "Or".join(reference["$ref"].removeprefix(_REF) for reference in references)
        mapping = {str(i.tag): r["$ref"] for i, r in zip(structs, references, strict=True)}
        schema = {
            "description": "One of several forms, told apart by "
            f"`{structs[0].tag_field}`: {', '.join(mapping)}.",
            "oneOf": references,
            "discriminator": {"propertyName": structs[0].tag_field, "mapping": mapping},
        }
        return self.components.put(name, schema)


def _default(field: mi.Field) -> Json:
    """Return the default that enters as it stands; null means that the text says what enters."""
    if field.default_factory is not NODEFAULT:
        return {"default": to_builtins(field.default_factory())}
    if field.default is NODEFAULT or field.default is None:
        return {}
    return {"default": to_builtins(field.default)}
