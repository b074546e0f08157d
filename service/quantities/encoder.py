"""The one way out: every float is rounded as its field states, then written.

Rounding hides the last bit, in which processors differ, so that the same release gives the same
bytes on every machine. A number that is not finite is a fault of ours and never leaves.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from functools import cache, partial
from typing import Any

import msgspec
from msgspec import Struct
from msgspec import inspect as mi

_Step = Callable[[Any], Any]
_JSON = msgspec.json.Encoder(order=None)
_MSGPACK = msgspec.msgpack.Encoder()
#: A number this close below a step of the last decimal belongs to that step.
_SLACK = 1e-6


class NotFiniteError(ArithmeticError):
    """A calculation produced NaN or infinity: a fault of the service, not of the request."""


def _plan(kind: mi.Type, decimals: int | None, rounding: str) -> _Step | None:
    """Return what rounds a value of the type, or None where it holds no float."""
    if isinstance(kind, mi.Metadata):
        extra = kind.extra or {}
        return _plan(kind.type, extra.get("decimals", decimals), extra.get("rounding", rounding))
    if isinstance(kind, mi.FloatType):
        if decimals is None:
            raise TypeError("an answer number states no decimals")
        return _number_plan(decimals, rounding)
    if isinstance(kind, mi.UnionType):
        return _union_plan(kind, decimals, rounding)
    if isinstance(kind, (mi.ListType, mi.VarTupleType)):
        return _list_plan(_plan(kind.item_type, decimals, rounding))
    if isinstance(kind, mi.StructType):
        return _round_struct if _struct_plan(kind.cls) else None
    return None


def _number_plan(decimals: int, rounding: str) -> _Step:
    """Return what rounds to some decimals: to the nearest step, downwards or upwards."""
    scale = 10.0**decimals
    steps: dict[str, Callable[[float], float]] = {
        "nearest": partial(round, ndigits=decimals),
        "down": lambda value: math.floor(value * scale + _SLACK) / scale,
        "up": lambda value: math.ceil(value * scale - _SLACK) / scale,
    }
    step = steps[rounding]

    def rounded(value: float) -> float:
        if not math.isfinite(value):
            raise NotFiniteError("an answer number is not finite")
        # No negative zero leaves.
        return step(value) + 0.0

    return rounded


def _list_plan(item: _Step | None) -> _Step | None:
    if item is None:
        return None
    each = item
    return lambda values: [each(value) for value in values]


def _union_plan(kind: mi.UnionType, decimals: int | None, rounding: str) -> _Step | None:
    number: _Step | None = None
    items: _Step | None = None
    structs = False
    for member in kind.types:
        step = _plan(member, decimals, rounding)
        bare = member.type if isinstance(member, mi.Metadata) else member
        if step is None:
            continue
        if isinstance(bare, mi.FloatType):
            number = step
        elif isinstance(bare, mi.StructType):
            structs = True
        else:
            items = step
    if number is None and items is None and not structs:
        return None

    def step_for(value: Any) -> Any:
        if isinstance(value, Struct):
            return _round_struct(value)
        if isinstance(value, float):
            return number(value) if number else value
        if isinstance(value, (list, tuple)):
            return items(value) if items else value
        return value

    return step_for


@cache
def _struct_plan(cls: type[Struct]) -> tuple[tuple[str, _Step], ...]:
    info = mi.type_info(cls)
    assert isinstance(info, mi.StructType)
    steps = ((field.name, _plan(field.type, None, "nearest")) for field in info.fields)
    return tuple((name, step) for name, step in steps if step is not None)


def _round_struct(value: Struct) -> Struct:
    for name, step in _struct_plan(type(value)):
        current = getattr(value, name)
        if current is not None and current is not msgspec.UNSET:
            made = step(current)
            if made is not current:
                setattr(value, name, made)
    return value


def round_answer(answer: Struct) -> Struct:
    """Round every float of the answer in place and return it.

    Raises
    ------
    NotFiniteError
        A number is NaN or infinite.
    """
    return _round_struct(answer)


def to_json(answer: Struct) -> bytes:
    """Return the answer as JSON text, its numbers already rounded."""
    return _JSON.encode(answer)


def to_msgpack(answer: Struct) -> bytes:
    """Return the answer as MessagePack, its numbers already rounded."""
    return _MSGPACK.encode(answer)
