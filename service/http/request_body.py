"""The body of a request: read whole, never longer than its limit, never waited for without end."""

from __future__ import annotations

import asyncio

from service.check import MIB
from service.http.asgi import Header, Receive
from service.http.problem import Problem

#: Time from the head of the request to the last byte of its body [s].
DEADLINE = 30.0
#: What a sender may send too much and still be answered before the connection closes [byte].
_DRAINED = 8 * MIB
_CLOSE: Header = (b"connection", b"close")


async def read_body(
    receive: Receive,
    headers: dict[bytes, bytes],
    limit: int,
    deadline: float = DEADLINE,
) -> bytes:
    """Return the body.

    Parameters
    ----------
    receive : callable
        ASGI channel of the request.
    headers : dict
        Its headers by lower-case name.
    limit : int
        Largest body [byte].
    deadline : float
        Longest wait for all of it [s].

    Raises
    ------
    Problem
        It is longer than the limit, breaks off, or does not come in time.
    """
    if _stated(headers) > limit and b"expect" in headers:
        raise _too_large(limit, closing=True)
    try:
        async with asyncio.timeout(deadline):
            return await _read(receive, limit)
    except TimeoutError:
        detail = f"The body did not arrive within {deadline:g} seconds; send it again at once."
        raise Problem("malformed", detail, headers=[_CLOSE]) from None


def _stated(headers: dict[bytes, bytes]) -> int:
    length = headers.get(b"content-length", b"0")
    return int(length) if length.isdigit() and len(length) < 20 else 0


async def _read(receive: Receive, limit: int) -> bytes:
    message = await receive()
    if message["type"] == "http.request" and not message.get("more_body", False):
        body: bytes = message.get("body", b"")
        if len(body) > limit:
            raise _too_large(limit, closing=False)
        return body
    parts: list[bytes] = []
    size = 0
    while True:
        if message["type"] != "http.request":
            raise Problem("malformed", "The body broke off; send it again in full.")
        part: bytes = message.get("body", b"")
        size += len(part)
        if size <= limit:
            parts.append(part)
        elif size > limit + _DRAINED:
            raise _too_large(limit, closing=True)
        if not message.get("more_body", False):
            break
        message = await receive()
    if size > limit:
        raise _too_large(limit, closing=False)
    return b"".join(parts)


def _too_large(limit: int, *, closing: bool) -> Problem:
    detail = f"The body may have at most {limit} bytes ({limit / MIB:g} MiB); send less."
    return Problem("too-large", detail, headers=[_CLOSE] if closing else [])
