"""Who asked: the request id, and the trace (W3C Trace Context) the request belongs to."""

from __future__ import annotations

import os
import re
from typing import NamedTuple

_SAFE_ID = re.compile(rb"[A-Za-z0-9._:-]{1,128}")
_PARENT = re.compile(
    r"(?P<version>[0-9a-f]{2})-(?P<trace>[0-9a-f]{32})-(?P<span>[0-9a-f]{16})-[0-9a-f]{2}"
    r"(?P<more>-.*)?"
)
_NO_TRACE = "0" * 32
_NO_SPAN = "0" * 16


class Trace(NamedTuple):
    """A trace and the span in it that called us."""

    trace_id: str
    span_id: str


def request_id(sent: bytes | None) -> bytes:
    """Return the id the caller sent where it is safe to repeat, else a new one."""
    if sent is not None and _SAFE_ID.fullmatch(sent):
        return sent
    return os.urandom(16).hex().encode()


def trace_of(sent: bytes | None) -> Trace | None:
    """Return what a ``traceparent`` header says, None where it is absent or malformed."""
    match = _PARENT.fullmatch(sent.decode("latin-1")) if sent is not None else None
    if match is None or match["version"] == "ff":
        return None
    if match["version"] == "00" and match["more"]:
        return None
    if match["trace"] == _NO_TRACE or match["span"] == _NO_SPAN:
        return None
    return Trace(match["trace"], match["span"])
