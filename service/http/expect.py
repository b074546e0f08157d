"""From a request struct to its expectations: one per type that the contract allows.

The decoder stops at its first error, so a body that does not fit is read again by these, which
find every error and say what to do about each. They accept exactly what the decoder accepts, and
texts with a unit beside.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

import msgspec
from msgspec import Struct
from msgspec import inspect as mi

from service.http.expect_choice import Either, OneOfKinds
from service.http.expect_containers import Fields, Items, Member, Table
from service.http.expect_scalars import Bounds, Choice, Flag, Nothing, Number, Text
from service.http.fact_order import is_fact_range
from service.http.walk import Expectation

#: A longer example is left to the contract.
_LONGEST_EXAMPLE = 100


class UnboundedError(TypeError):
    """A request struct has a field that the strict way in cannot hold to a bound."""


def expectation_of(request: type[Struct]) -> Expectation:
    """Return what the struct expects of a body.

    Raises
    ------
    UnboundedError
        A number has no bounds, or a type is none that a request may have.
    """
    return _expect(mi.type_info(request), None)


def _expect(kind: mi.Type, unit: str | None) -> Expectation:
    if isinstance(kind, mi.Metadata):
        return _expect(kind.type, (kind.extra or {}).get("unit", unit))
    if isinstance(kind, (mi.FloatType, mi.IntType)):
        return _number(kind, unit)
    if isinstance(kind, mi.StrType):
        return Text(*_length(kind), kind.pattern)
    if isinstance(kind, mi.LiteralType):
        return Choice([value for value in kind.values if isinstance(value, (str, int))])
    if isinstance(kind, mi.EnumType):
        return Choice([member.value for member in kind.cls])
    if isinstance(kind, mi.BoolType):
        return Flag()
    if isinstance(kind, mi.NoneType):
        return Nothing()
    return _expect_container(kind, unit)


def _expect_container(kind: mi.Type, unit: str | None) -> Expectation:
    if isinstance(kind, mi.StructType):
        return _lone(kind)
    if isinstance(kind, mi.UnionType):
        return _either(kind, unit)
    if isinstance(kind, mi.ListType):
        item = _expect(kind.item_type, unit)
        return Items(item, *_length(kind))
    if isinstance(kind, mi.DictType):
        name = _expect(kind.key_type, None)
        item = _expect(kind.value_type, unit)
        return Table(name, item, *_length(kind))
    raise UnboundedError(f"a request cannot hold {kind}")


def _length(kind: mi.StrType | mi.ListType | mi.DictType) -> tuple[int, int]:
    if kind.max_length is None:
        raise UnboundedError(f"a request states the longest it takes: {kind}")
    return kind.min_length or 0, kind.max_length


def _number(kind: mi.FloatType | mi.IntType, unit: str | None) -> Number:
    low = kind.ge if kind.gt is None else kind.gt
    high = kind.le if kind.lt is None else kind.lt
    if low is None or high is None or kind.multiple_of is not None:
        raise UnboundedError("a request number states its lowest and highest value, and no more")
    bounds = Bounds(low, high, low_open=kind.gt is not None, high_open=kind.lt is not None)
    return Number(bounds, whole=isinstance(kind, mi.IntType), unit=unit)


def _lone(kind: mi.StructType) -> Fields:
    if kind.tag_field is not None:
        raise UnboundedError(
            f"the decoder does not ask for the tag of {kind.cls}, which is no choice"
        )
    return _fields(kind)


def _fields(kind: mi.StructType) -> Fields:
    if kind.array_like:
        raise UnboundedError(f"{kind.cls} is written as a list; a request has objects")
    tag = None if kind.tag_field is None or kind.tag is None else (kind.tag_field, kind.tag)
    return Fields(
        {field.encode_name: _member(field) for field in kind.fields},
        closed=kind.forbid_unknown_fields,
        tag=tag,
        ordered=is_fact_range(kind),
    )


def _member(field: mi.Field) -> Member:
    return Member(_expect(field.type, None), field.required, _example(field.type))


def _example(kind: mi.Type) -> str:
    """Return the field's example as JSON, empty where it has none that fits a sentence."""
    if not isinstance(kind, mi.Metadata):
        return ""
    schema: Mapping[str, Any] = kind.extra_json_schema or {}
    examples = schema.get("examples") or [None]
    if examples[0] is None:
        return _example(kind.type)
    text = msgspec.json.encode(examples[0]).decode()
    return text if len(text) <= _LONGEST_EXAMPLE else ""


def _either(kind: mi.UnionType, unit: str | None) -> Expectation:
    bare = [member.type if isinstance(member, mi.Metadata) else member for member in kind.types]
    structs = [member for member in bare if isinstance(member, mi.StructType)]
    others = [
        _expect(member, unit)
        for member, plain in zip(kind.types, bare, strict=True)
        if not isinstance(plain, mi.StructType)
    ]
    if len(structs) > 1:
        return Either([*others, _kinds(structs)])
    return Either([*others, *map(_lone, structs)])


def _kinds(structs: list[mi.StructType]) -> OneOfKinds:
    tag_field = structs[0].tag_field
    if tag_field is None:
        raise UnboundedError("the kinds of a choice are told apart by a tag")
    return OneOfKinds(
        tag_field, {struct.tag: _fields(struct) for struct in structs if struct.tag is not None}
    )
