"""Where a JSON text breaks, in words: line, column and byte."""

from __future__ import annotations

import re

from service.http.wording import quoted

_ESCAPE = re.compile(r"\\(?:u([0-9a-fA-F]{4})|.)", re.DOTALL)


class LoneSurrogateError(Exception):
    """A text holds half of a surrogate pair; the message says where."""


def place_of(text: str, position: int) -> str:
    """Return where a position [character] stands: line, column, byte."""
    before = text[:position]
    line = before.count("\n") + 1
    column = position - (before.rfind("\n") + 1) + 1
    return f"line {line}, column {column} (byte {len(before.encode('utf-8'))})"


def unexpected(text: str, position: int) -> str:
    """Return what a parser did not expect at a position [character]."""
    if position >= len(text.rstrip(" \t\r\n")):
        return "it ends too early; send the whole text"
    return f"unexpected {quoted(text[position])} at {place_of(text, position)}"


def refuse_lone_surrogate(text: str) -> None:
    """Refuse an escape that is half of a surrogate pair.

    Raises
    ------
    LoneSurrogateError
        There is one.
    """
    if "\\u" not in text:
        return
    waiting: re.Match[str] | None = None
    for escape in _ESCAPE.finditer(text):
        code = int(escape[1], 16) if escape[1] else 0
        follows = waiting is not None and waiting.end() == escape.start()
        if follows and _is_low(code):
            waiting = None
        elif waiting is not None or _is_low(code):
            raise _lone(text, waiting or escape)
        elif 0xD800 <= code <= 0xDBFF:
            waiting = escape
    if waiting is not None:
        raise _lone(text, waiting)


def _is_low(code: int) -> bool:
    return 0xDC00 <= code <= 0xDFFF


def _lone(text: str, escape: re.Match[str]) -> LoneSurrogateError:
    place = place_of(text, escape.start())
    return LoneSurrogateError(f"{escape[0]} at {place} is half of a surrogate pair; write both")
