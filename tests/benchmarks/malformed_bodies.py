"""Random requests of every kind that no contract allows, from a seed."""

from __future__ import annotations

import json
import random
from collections.abc import Sequence
from typing import Any

import msgspec

from tests.benchmarks.loopback import ROOT

_EXAMPLES = ROOT / "openapi/examples"
#: An integer that MessagePack cannot write.
_TOO_LONG = 10**30
_NASTY: list[Any] = [
    None, True, False, 0, -1, 1.5, 1e308, -1e308, _TOO_LONG, "", "x", "12", "12 W", "9**9**9 ft",
    "\u0000", "\u202e", "a\nb", "é" * 300, "x" * 5000, [], {}, [[]], {"as": "range"},
    {"as": "range", "low": 2, "high": 1}, {"as": "one_of", "values": []}, {"kind": "none"},
]  # fmt: skip
_TOKENS = [
    b"NaN", b"Infinity", b"-Infinity", b"1e400", b"\\ud800", b"\\u0000", b"\x00", b"\xff",
    b"\xed\xa0\x80", b"\xef\xbb\xbf", b"{", b"}", b"[", b"]", b'"', b",", b":", b"//", b"'",
    b"9" * 5000, b'"a":1,"a":2', b"[" * 2000, b'{"a":' * 2000, b"\\", b"01", b"+1", b".5",
]  # fmt: skip
_TYPES = [
    "application/json", "application/json; charset=utf-8", "application/vnd.msgpack", "text/plain",
    "", "application/json; charset=utf-16", "multipart/form-data; boundary=x",
]  # fmt: skip
_ACCEPTS = ["*/*", "application/json", "application/vnd.msgpack", "text/html", ";;;q=x", "*/*;q=0"]
_QUERIES = ["", "", "", "", "?include=working", "?include=series,working", "?include=x", "?a=%ff"]
_METHODS = ["POST", "POST", "POST", "POST", "POST", "GET", "PUT", "HEAD", "OPTIONS"]


class Requests:
    """An endless row of requests; the same seed gives the same row."""

    def __init__(self, seed: int) -> None:
        self._random = random.Random(seed)
        self._bodies = [
            (folder.name, json.loads(path.read_bytes()))
            for folder in sorted(_EXAMPLES.iterdir())
            if folder.is_dir()
            for path in sorted(folder.glob("*.request.json"))
        ]

    def next(self) -> bytes:
        """Return the bytes of the next request."""
        draw = self._random
        operation, body = draw.choice(self._bodies)
        content, media = self._content(body)
        if draw.random() < 0.1:
            media = draw.choice(_TYPES)
        method = draw.choice(_METHODS)
        lines = [
            f"{method} /v1/{operation}{draw.choice(_QUERIES)} HTTP/1.1",
            "Host: loopback",
            f"Content-Type: {media}",
            f"Accept: {draw.choice(_ACCEPTS) if draw.random() < 0.2 else '*/*'}",
            f"Content-Length: {len(content)}",
        ]
        return "\r\n".join(lines).encode() + b"\r\n\r\n" + content

    def _content(self, body: Any) -> tuple[bytes, str]:
        draw = self._random
        kind = draw.random()
        if kind < 0.5:
            for _ in range(draw.randint(1, 3)):
                body = self._changed(body)
            packed = draw.random() < 0.3 and str(_TOO_LONG) not in str(body)
            if packed:
                return msgspec.msgpack.encode(body), "application/vnd.msgpack"
            return json.dumps(body).encode(), "application/json"
        if kind < 0.6:
            packed_text = bytearray(msgspec.msgpack.encode(body))
            return self._broken(packed_text), "application/vnd.msgpack"
        if kind < 0.65:
            return draw.randbytes(draw.randint(0, 2000)), draw.choice(_TYPES)
        return self._broken(bytearray(json.dumps(body).encode())), "application/json"

    def _changed(self, value: Any) -> Any:
        """Return the value with something else somewhere in it."""
        draw = self._random
        if isinstance(value, dict) and value and draw.random() < 0.85:
            name = draw.choice(sorted(value))
            if draw.random() < 0.15:
                return {held if held != name else name + "x": value[held] for held in value}
            return {**value, name: self._changed(value[name])}
        if isinstance(value, list) and value and draw.random() < 0.85:
            place = draw.randrange(len(value))
            if draw.random() < 0.05:
                return value * draw.choice((0, 2, 200))
            return [*value[:place], self._changed(value[place]), *value[place + 1 :]]
        return self._nasty()

    def _nasty(self) -> Any:
        nasty: Sequence[Any] = _NASTY
        return self._random.choice(nasty)

    def _broken(self, content: bytearray) -> bytes:
        """Return the bytes with pieces put in, taken out or flipped."""
        draw = self._random
        for _ in range(draw.randint(1, 4)):
            at = draw.randrange(len(content) + 1)
            how = draw.random()
            if how < 0.4:
                content[at:at] = draw.choice(_TOKENS)
            elif how < 0.6:
                del content[at:]
            elif how < 0.8 and at < len(content):
                content[at] ^= 1 << draw.randrange(8)
            else:
                del content[at : at + draw.randint(1, 30)]
        return bytes(content)
