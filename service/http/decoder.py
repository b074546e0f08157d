"""The one strict way in: bytes to the request struct, or every error at once.

::

    bytes --fast decoder--> request --names once, ranges in order--> request
      |  (does not fit)                       |  (twice, or out of order)
      +--> plain objects --walk over the expectations--> every error, or the mended request
"""

from __future__ import annotations

from collections.abc import Callable
from types import ModuleType
from typing import Any, NamedTuple

import msgspec
from msgspec import Struct

from service.check import JSON, FieldError
from service.http import json_text, msgpack_body
from service.http.expect import expectation_of
from service.http.fact_order import range_finder
from service.http.problem import Problem, invalid
from service.http.walk import TooManyErrors, Walk


class _Form(NamedTuple):
    """One way to write a body."""

    decode: Callable[[bytes], Any]
    repeats_a_name: Callable[[bytes], bool]
    parse: Callable[[bytes], tuple[Any, list[FieldError]]]
    malformed: Callable[[str], Problem]


def _form(decode: Callable[[bytes], Any], room: ModuleType) -> _Form:
    return _Form(decode, room.repeats_a_name, room.parse, room.malformed)


class Decoder:
    """Decodes the bodies of one operation."""

    def __init__(self, request: type[Struct]) -> None:
        self._request = request
        self._expected = expectation_of(request)
        self._ranges = range_finder(request)
        self._json = _form(msgspec.json.Decoder(request).decode, json_text)
        self._msgpack = _form(msgspec.msgpack.Decoder(request).decode, msgpack_body)

    def decode(self, body: bytes, media: str = JSON) -> Struct:
        """Return the request that the body states.

        Raises
        ------
        Problem
            The body cannot be read, or is outside the contract; it lists every error.
        """
        form = self._json if media == JSON else self._msgpack
        try:
            request: Struct = form.decode(body)
        except msgspec.ValidationError:
            return self._decode_slowly(form, body)
        except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as error:
            form.parse(body)
            raise form.malformed(str(error)) from None
        if form.repeats_a_name(body) or (self._ranges is not None and self._ranges(request)):
            return self._decode_slowly(form, body)
        return request

    def _decode_slowly(self, form: _Form, body: bytes) -> Struct:
        try:
            tree, twice = form.parse(body)
        except RecursionError:
            raise form.malformed("it is nested too deeply") from None
        if twice:
            raise Problem("malformed", "Names stand more than once in one object.", twice)
        return self._read(tree)

    def _read(self, tree: Any) -> Struct:
        walk = Walk()
        try:
            read = self._expected.read(tree, "", walk)
        except TooManyErrors:
            read = None
        if walk.errors:
            raise invalid(walk.errors)
        try:
            return msgspec.convert(read, self._request)
        except msgspec.ValidationError as error:
            raise invalid([FieldError("", str(error))]) from None
