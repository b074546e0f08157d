"""JSON as the strict way in reads it: I-JSON (RFC 7493), with the place where it breaks.

The decoder of the request struct is fast and stops at the first fault. What it cannot say is said
here: whether a name stands twice in one object, and the line and column of a fault.
"""

from __future__ import annotations

import contextlib
import json
import math
from collections import Counter
from collections.abc import Iterable
from functools import partial
from typing import Any, NoReturn

import msgspec

from service.check import FieldError
from service.http.json_places import LoneSurrogateError, refuse_lone_surrogate, unexpected
from service.http.problem import Problem
from service.http.walk import TooManyErrors, Walk, step

_BLANKS = " \t\r\n"
#: More digits than a double can hold; Python refuses to read integers far beyond.
_LONGEST_INTEGER = 400
_decode_any = msgspec.json.Decoder().decode
_encode_any = msgspec.json.Encoder().encode


def repeats_a_name(body: bytes) -> bool:
    r"""Return whether a name stands twice in one object of a valid JSON text.

    Notes
    -----
    Every member of an object has one colon. Decoding to plain objects drops all but the last of
    equal names, so writing the text again loses a colon; the colons inside texts stay, unless an
    escape ``\u003a`` hid one. Then the objects are looked through one by one.
    """
    hides_none = b"\\" not in body or b"\\u" not in body
    if hides_none and body.count(b":") == _encode_any(_decode_any(body)).count(b":"):
        return False
    objects: list[list[tuple[str, Any]]] = []
    json.loads(body, object_pairs_hook=objects.append)
    return any(len(dict(pairs)) < len(pairs) for pairs in objects)


def malformed(detail: str) -> Problem:
    """Return the problem of a body that is no JSON text."""
    return Problem("malformed", f"The body is no valid JSON text: {detail}.")


def parse(body: bytes) -> tuple[Any, list[FieldError]]:
    """Return the text as plain Python objects, and every name that stands twice in an object.

    Raises
    ------
    Problem
        It is no I-JSON text; the detail says where and what to do.
    """
    try:
        text = body.decode("utf-8")
    except UnicodeDecodeError as error:
        raise malformed(f"byte {error.start} is no UTF-8; write the text in UTF-8") from None
    if not text.strip(_BLANKS):
        raise malformed("the body is empty; send one JSON object")
    if text.startswith("\ufeff"):
        raise malformed("byte 0 begins a byte order mark; send the text without it")
    try:
        refuse_lone_surrogate(text)
        return _parse(text)
    except json.JSONDecodeError as error:
        raise malformed(unexpected(text, error.pos)) from None
    except RecursionError:
        raise malformed("it is nested too deeply; the contract needs no such depth") from None
    except (_NotJsonError, LoneSurrogateError) as error:
        raise malformed(str(error)) from None


class _NotJsonError(Exception):
    """Something stands in the text that JSON does not have."""


class _Repeating(dict[str, Any]):
    """An object in which names stand more than once."""

    names: tuple[str, ...] = ()


class _Objects:
    """Makes objects of their members, and remembers whether any name stood twice."""

    def __init__(self) -> None:
        self.repeat = False

    def make(self, pairs: list[tuple[str, Any]]) -> dict[str, Any]:
        """Return one object."""
        members = dict(pairs)
        if len(members) == len(pairs):
            return members
        self.repeat = True
        repeating = _Repeating(members)
        counted = Counter(name for name, _ in pairs)
        repeating.names = tuple(name for name, count in counted.items() if count > 1)
        return repeating


def _parse(text: str) -> tuple[Any, list[FieldError]]:
    objects = _Objects()
    reader = partial(json.JSONDecoder, object_pairs_hook=objects.make, parse_constant=_no_number)
    try:
        tree = reader().decode(text)
    except json.JSONDecodeError:
        raise
    except ValueError:
        # Python refuses to read an integer of thousands of digits; it is beyond every bound.
        tree = reader(parse_int=_integer).decode(text)
    return tree, _repeats(tree) if objects.repeat else []


def _no_number(word: str) -> NoReturn:
    raise _NotJsonError(f"{word} is no JSON number; write a number or leave the field out")


def _integer(digits: str) -> float:
    return int(digits) if len(digits) < _LONGEST_INTEGER else math.inf


def _repeats(tree: Any) -> list[FieldError]:
    walk = Walk()
    with contextlib.suppress(TooManyErrors):
        _note_repeats(tree, "", walk)
    return walk.errors


def _note_repeats(tree: Any, at: str, walk: Walk) -> None:
    if isinstance(tree, _Repeating):
        for name in tree.names:
            walk.refuse(step(at, name), "this name stands more than once; keep one of them")
    for place, value in _inside(tree):
        if isinstance(value, (dict, list)):
            _note_repeats(value, step(at, place), walk)


def _inside(tree: Any) -> Iterable[tuple[str | int, Any]]:
    if isinstance(tree, dict):
        return tree.items()
    return enumerate(tree) if isinstance(tree, list) else ()
