"""JSON as the strict way in reads it: I-JSON (RFC 7493), with the place where it breaks.

The decoder of the request struct is fast and stops at the first fault. What it cannot say is said
here: whether a name stands twice in one object, and the line and column of a fault.
"""

from __future__ import annotations

import json
import math
import re
from collections import Counter
from typing import Any, NoReturn

import msgspec

from service.http.problem import Problem
from service.http.walk import Walk, step
from service.http.wording import quoted

_BLANKS = b" \t\r\n"
_ESCAPE = re.compile(r"\\(?:u([0-9a-fA-F]{4})|.)", re.DOTALL)
#: More digits than a double can hold; Python refuses to read integers far beyond.
_LONGEST_INTEGER = 400
_decode_any = msgspec.json.Decoder().decode
_encode_any = msgspec.json.Encoder().encode


class Members(dict[str, Any]):
    """An object of a parsed text, with the names that stand in it more than once."""

    repeated: tuple[str, ...] = ()


def _members(pairs: list[tuple[str, Any]]) -> Members:
    members = Members(pairs)
    if len(members) < len(pairs):
        counted = Counter(name for name, _ in pairs)
        members.repeated = tuple(name for name, count in counted.items() if count > 1)
    return members


def _integer(digits: str) -> float:
    return int(digits) if len(digits) < _LONGEST_INTEGER else math.inf


def _no_number(word: str) -> NoReturn:
    raise ValueError(word)


_parse = json.JSONDecoder(
    object_pairs_hook=_members, parse_int=_integer, parse_constant=_no_number
).decode


def repeats_a_name(body: bytes) -> bool:
    r"""Return whether a name stands twice in one object of a valid JSON text.

    Notes
    -----
    Decoding to plain objects drops all but the last of equal names, so writing the text again
    loses at least one ``":``. Every other ``":`` survives, in names and in texts alike, unless an
    escape ``\uXXXX`` hides a sign; then the objects are counted one by one.
    """
    if b"\\u" not in body and _names(body) == _names(_encode_any(_decode_any(body))):
        return False
    objects: list[list[tuple[str, Any]]] = []
    json.loads(body, object_pairs_hook=objects.append)
    return any(len(dict(pairs)) < len(pairs) for pairs in objects)


def _names(text: bytes) -> int:
    return text.translate(None, _BLANKS).count(b'":')


def parse(body: bytes) -> Any:
    """Return the text as plain Python objects, its objects as `Members`.

    Raises
    ------
    Problem
        It is no I-JSON text; the detail says where and what to do.
    """
    try:
        text = body.decode("utf-8")
    except UnicodeDecodeError as error:
        raise malformed(f"byte {error.start} is no UTF-8; write the text in UTF-8") from None
    if not text.strip(" \t\r\n"):
        raise malformed("the body is empty; send one JSON object")
    if text.startswith("\ufeff"):
        raise malformed("byte 0 begins a byte order mark; send the text without it")
    _refuse_lone_surrogate(text)
    try:
        return _parse(text)
    except json.JSONDecodeError as error:
        raise malformed(_fault(text, error.pos)) from None
    except RecursionError:
        raise malformed("it is nested too deeply; the contract needs no such depth") from None
    except ValueError as error:
        raise malformed(f"{error} is no JSON number; write a number or leave the field out") from None


def note_repeats(tree: Any, _body: bytes, walk: Walk, at: str = "") -> None:
    """Note on the walk every name that stands more than once in one object of a parsed text."""
    if isinstance(tree, Members):
        for name in tree.repeated:
            walk.refuse(step(at, name), "this name stands more than once; keep one of them")
    if isinstance(tree, dict):
        for name, value in tree.items():
            note_repeats(value, _body, walk, step(at, name))
    elif isinstance(tree, list):
        for place, value in enumerate(tree):
            note_repeats(value, _body, walk, step(at, place))


def malformed(detail: str) -> Problem:
    """Return the problem of a body that is no JSON text."""
    return Problem("malformed", f"The body is no valid JSON text: {detail}.")


def _refuse_lone_surrogate(text: str) -> None:
    waiting: re.Match[str] | None = None
    for escape in _ESCAPE.finditer(text) if "\\u" in text else ():
        code = int(escape[1], 16) if escape[1] else 0
        follows = waiting is not None and waiting.end() == escape.start()
        if follows and 0xDC00 <= code <= 0xDFFF:
            waiting = None
        elif waiting is not None or 0xDC00 <= code <= 0xDFFF:
            raise _lone(text, waiting or escape)
        elif 0xD800 <= code <= 0xDBFF:
            waiting = escape
    if waiting is not None:
        raise _lone(text, waiting)


def _lone(text: str, escape: re.Match[str]) -> Problem:
    place = _place(text, escape.start())
    return malformed(f"{escape[0]} at {place} is half of a surrogate pair; write both halves")


def _fault(text: str, position: int) -> str:
    if position >= len(text.rstrip(" \t\r\n")):
        return "it ends too early; send the whole text"
    return f"unexpected {quoted(text[position])} at {_place(text, position)}"


def _place(text: str, position: int) -> str:
    before = text[:position]
    line = before.count("\n") + 1
    column = position - (before.rfind("\n") + 1) + 1
    return f"line {line}, column {column} (byte {len(before.encode('utf-8', 'replace'))})"
