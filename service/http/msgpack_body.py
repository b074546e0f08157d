"""MessagePack as the strict way in reads it: the values JSON has, and every name once.

The format itself allows more: extension types, binary, NaN, names that are no texts, equal names.
The first four fail the request struct; equal names are looked for here.
"""

from __future__ import annotations

import struct
from typing import Any

import msgspec

from service.check import FieldError
from service.http.problem import Problem

_decode_any = msgspec.msgpack.Decoder().decode
_encode_any = msgspec.msgpack.Encoder().encode
#: First byte -> length of the number that follows it, for values that hold nothing else.
_FIXED = {0xC0: 0, 0xC2: 0, 0xC3: 0, 0xCA: 4, 0xCB: 8, 0xCC: 1, 0xCD: 2, 0xCE: 4, 0xCF: 8}
_FIXED |= {0xD0: 1, 0xD1: 2, 0xD2: 4, 0xD3: 8}
_FIXED |= {0xD4: 2, 0xD5: 3, 0xD6: 5, 0xD7: 9, 0xD8: 17}
#: First byte -> format of the length that follows it, and bytes between length and content.
_SIZED = {0xC4: (">B", 0), 0xC5: (">H", 0), 0xC6: (">I", 0), 0xC7: (">B", 1), 0xC8: (">H", 1)}
_SIZED |= {0xC9: (">I", 1), 0xD9: (">B", 0), 0xDA: (">H", 0), 0xDB: (">I", 0)}
_LISTS = {0xDC: ">H", 0xDD: ">I"}
_MAPS = {0xDE: ">H", 0xDF: ">I"}


def parse(body: bytes) -> tuple[Any, list[FieldError]]:
    """Return the value as plain Python objects, and that a name stands twice in a map.

    Raises
    ------
    Problem
        It is no single complete MessagePack value.
    """
    try:
        tree = _decode_any(body)
    except RecursionError:
        raise malformed("it is nested too deeply; the contract needs no such depth") from None
    except UnicodeDecodeError:
        raise malformed("a text in it is no UTF-8; write texts in UTF-8") from None
    except (msgspec.MsgspecError, ValueError, OverflowError) as error:
        reason = str(error) if body else "the body is empty; send one map"
        raise malformed(reason) from None
    once = "a name stands more than once in one map; keep one of each"
    return tree, [FieldError("", once)] if _scan_repeats(body) else []


def malformed(detail: str) -> Problem:
    """Return the problem of a body that is no MessagePack value."""
    return Problem("malformed", f"The body is no valid MessagePack: {detail}.")


def repeats_a_name(body: bytes) -> bool:
    """Return whether a name stands twice in one map of a valid MessagePack value.

    Most writers choose the shortest form for every value, as ours does: then writing the decoded
    value again gives the same bytes unless a name was dropped. Other bodies are scanned.
    """
    return _encode_any(_decode_any(body)) != body and _scan_repeats(body)


def _scan_repeats(body: bytes) -> bool:
    """Walk over the values in order; each open map remembers the names it has had."""
    at = 0
    open_: list[list[Any]] = [[1, None]]  # values still to come, names had (None: a list)
    while open_:
        left, names = open_[-1]
        if left == 0:
            open_.pop()
            continue
        open_[-1][0] = left - 1
        first = body[at]
        end, inside, is_map = _head(body, at)
        if names is not None and left % 2 == 0:
            name = body[at:end] if not inside else b""
            if _text_of(name, first) in names:
                return True
            names.add(_text_of(name, first))
        if inside:
            open_.append([inside, set() if is_map else None])
        at = end
    return False


def _text_of(name: bytes, first: int) -> bytes:
    """Return the content of a name whichever way its length is written."""
    if 0xA0 <= first <= 0xBF:
        return name[1:]
    if first in (0xD9, 0xDA, 0xDB):
        return name[1 + struct.calcsize(_SIZED[first][0]) :]
    return b"\xc1" + name


def _head(body: bytes, at: int) -> tuple[int, int, bool]:
    """Return where the value's own bytes end, how many values it holds, whether it is a map."""
    first = body[at]
    if first <= 0x7F or first >= 0xE0:
        return at + 1, 0, False
    if first <= 0x8F:
        return at + 1, 2 * (first & 0x0F), True
    if first <= 0x9F:
        return at + 1, first & 0x0F, False
    if first <= 0xBF:
        return at + 1 + (first & 0x1F), 0, False
    if first in _FIXED:
        return at + 1 + _FIXED[first], 0, False
    if first in _SIZED:
        form, between = _SIZED[first]
        size = struct.unpack_from(form, body, at + 1)[0]
        return at + 1 + struct.calcsize(form) + between + size, 0, False
    form = _LISTS.get(first) or _MAPS[first]
    count = struct.unpack_from(form, body, at + 1)[0]
    end = at + 1 + struct.calcsize(form)
    return (end, 2 * count, True) if first in _MAPS else (end, count, False)
