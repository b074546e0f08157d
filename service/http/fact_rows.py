"""One row a site fact, found by walking the request struct that declares them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any, NamedTuple

from msgspec import Struct
from msgspec import inspect as mi

from service.findings import AskBy
from service.http.reference_rows import CoarseRow, FactRow


class _Value(NamedTuple):
    """What the bare value of a fact may be."""

    kind: str
    choices: tuple[str, ...] = ()
    unit: str | None = None
    minimum: float | None = None
    maximum: float | None = None


def fact_rows(request: type[Struct]) -> list[FactRow]:
    """Return the facts that the struct and the structs inside it declare, in their order."""
    return list(_rows(mi.type_info(request), ""))


def _rows(kind: mi.Type, pointer: str) -> Iterator[FactRow]:
    if isinstance(kind, mi.Metadata):
        yield from _rows(kind.type, pointer)
    elif isinstance(kind, mi.UnionType):
        for member in kind.types:
            yield from _rows(member, pointer)
    elif isinstance(kind, (mi.ListType, mi.VarTupleType)):
        yield from _rows(kind.item_type, f"{pointer}/*")
    elif isinstance(kind, mi.StructType):
        for field in kind.fields:
            inside = f"{pointer}/{field.encode_name}"
            declared = _declared(field.type)
            if declared is None:
                yield from _rows(field.type, inside)
            else:
                yield _row(inside, field.type, declared)


def _declared(kind: mi.Type) -> Mapping[str, Any] | None:
    extra = kind.extra if isinstance(kind, mi.Metadata) else None
    return (extra or {}).get("fact")


def _row(pointer: str, kind: mi.Type, declared: Mapping[str, Any]) -> FactRow:
    assert isinstance(kind, mi.Metadata)
    value = _value(kind)
    coarse: Mapping[str, list[float]] = declared.get("x-coarse-answers", {})
    return FactRow(
        pointer=pointer,
        question=declared["x-question"],
        description=(kind.extra_json_schema or {})["description"],
        ask_by=AskBy(declared["x-ask-by"]),
        who_answers=declared["x-who-answers"],
        value=value.kind,
        choices=list(value.choices),
        unit=value.unit,
        minimum=value.minimum,
        maximum=value.maximum,
        coarse_answers=[
            CoarseRow(answer=name, low=float(low), high=float(high))
            for name, (low, high) in coarse.items()
        ],
        photograph=declared.get("x-photograph"),
    )


def _value(kind: mi.Type) -> _Value:
    """Return what the bare value is: the first member of the union that is no tagged object."""
    if isinstance(kind, mi.Metadata):
        found = _value(kind.type)
        unit = (kind.extra_json_schema or {}).get("x-unit")
        return found._replace(unit=unit) if unit and found.unit is None else found
    if isinstance(kind, mi.UnionType):
        return next((v for v in map(_value, kind.types) if v.kind != "object"), _Value("object"))
    if isinstance(kind, (mi.FloatType, mi.IntType)):
        low, high = (kind.gt if kind.ge is None else kind.ge), kind.le
        return _Value(
            "number" if isinstance(kind, mi.FloatType) else "whole_number",
            minimum=None if low is None else float(low),
            maximum=None if high is None else float(high),
        )
    if isinstance(kind, mi.BoolType):
        return _Value("yes_no")
    if isinstance(kind, mi.LiteralType):
        return _Value("choice", choices=tuple(str(v) for v in kind.values))
    if isinstance(kind, mi.EnumType):
        return _Value("choice", choices=tuple(str(m.value) for m in kind.cls))
    if isinstance(kind, mi.StrType):
        return _Value("text")
    return _Value("object")
