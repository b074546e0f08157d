"""The one rule between fields that every request shares: low <= likely <= high of a range.

msgspec cannot say it, so it is checked after decoding, only where the request struct holds a
`FactRange` at all.
"""

from __future__ import annotations

import typing
from collections.abc import Callable
from typing import Any

from msgspec import Struct
from msgspec import inspect as mi

from service.check import FieldError
from service.facts import FactRange
from service.http.wording import plain

_Find = Callable[[Any, str, list[FieldError]], None]


def order_errors(low: Any, likely: Any, high: Any) -> list[FieldError]:
    """Return what is out of order among the numbers of a range; others are none of its business."""
    if not _is_number(low) or not _is_number(high):
        return []
    if low > high:
        return [FieldError("/low", f"write a value not above `high`, which is {plain(high)}")]
    if _is_number(likely) and not low <= likely <= high:
        return [FieldError("/likely", f"write a value from {plain(low)} to {plain(high)}")]
    return []


def _is_number(value: Any) -> bool:
    return isinstance(value, (int, float)) and not isinstance(value, bool)


def is_fact_range(kind: mi.StructType) -> bool:
    """Return whether the struct is a `FactRange` of any type."""
    return (typing.get_origin(kind.cls) or kind.cls) is FactRange


def range_finder(request: type[Struct]) -> Callable[[Struct], list[FieldError]] | None:
    """Return what lists the ranges out of order in a decoded request, None where it holds none."""
    find = _finder(mi.type_info(request), {})
    if find is None:
        return None

    def errors_of(decoded: Struct) -> list[FieldError]:
        errors: list[FieldError] = []
        find(decoded, "", errors)
        return errors

    return errors_of


def _finder(kind: mi.Type, seen: dict[type, _Find | None]) -> _Find | None:
    if isinstance(kind, mi.Metadata):
        return _finder(kind.type, seen)
    if isinstance(kind, mi.StructType):
        if is_fact_range(kind):
            return _range
        if kind.cls not in seen:
            seen[kind.cls] = None
            seen[kind.cls] = _struct_finder(kind, seen)
        return seen[kind.cls]
    if isinstance(kind, mi.ListType):
        return _list_finder(_finder(kind.item_type, seen))
    if isinstance(kind, mi.DictType):
        return _dict_finder(_finder(kind.value_type, seen))
    if isinstance(kind, mi.UnionType):
        return _union_finder(kind, seen)
    return None


def _range(value: Any, at: str, errors: list[FieldError]) -> None:
    for pointer, detail in order_errors(value.low, value.likely, value.high):
        errors.append(FieldError(at + pointer, detail))


def _struct_finder(kind: mi.StructType, seen: dict[type, _Find | None]) -> _Find | None:
    finders = [
        (field.name, f"/{field.encode_name}", _finder(field.type, seen)) for field in kind.fields
    ]
    steps = [(name, below, find) for name, below, find in finders if find is not None]

    def find_in(value: Any, at: str, errors: list[FieldError]) -> None:
        for name, below, find in steps:
            held = getattr(value, name)
            if held is not None:
                find(held, at + below, errors)

    return find_in if steps else None


def _list_finder(item: _Find | None) -> _Find | None:
    if item is None:
        return None

    def find_in(values: Any, at: str, errors: list[FieldError]) -> None:
        for place, value in enumerate(values):
            item(value, f"{at}/{place}", errors)

    return find_in


def _dict_finder(item: _Find | None) -> _Find | None:
    if item is None:
        return None

    def find_in(values: Any, at: str, errors: list[FieldError]) -> None:
        for name, value in values.items():
            below = name.replace("~", "~0").replace("/", "~1")
            item(value, f"{at}/{below}", errors)

    return find_in


def _union_finder(kind: mi.UnionType, seen: dict[type, _Find | None]) -> _Find | None:
    by_type: dict[type, _Find] = {}
    for member in kind.types:
        bare = member.type if isinstance(member, mi.Metadata) else member
        find = _finder(bare, seen)
        if find is None:
            continue
        if isinstance(bare, mi.StructType):
            by_type[typing.get_origin(bare.cls) or bare.cls] = find
        else:
            by_type[dict if isinstance(bare, mi.DictType) else list] = find
    if not by_type:
        return None

    def find_in(value: Any, at: str, errors: list[FieldError]) -> None:
        find = by_type.get(type(value))
        if find is not None:
            find(value, at, errors)

    return find_in
