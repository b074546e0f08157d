"""The ASGI vocabulary of this room: types, one pass over the headers, one finished reply."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Iterable, MutableMapping
from typing import Any, NamedTuple

from service import __version__

Scope = MutableMapping[str, Any]
Message = MutableMapping[str, Any]
Receive = Callable[[], Awaitable[Message]]
Send = Callable[[Message], Awaitable[None]]
Header = tuple[bytes, bytes]

#: Policy of everything that is no page: nothing may load, nobody may frame it.
NO_PAGE = b"default-src 'none'; frame-ancestors 'none'"
_ON_EVERY_REPLY: tuple[Header, ...] = (
    (b"x-content-type-options", b"nosniff"),
    (b"service-version", __version__.encode()),
)


class Reply(NamedTuple):
    """A finished answer: status, headers beside those of every reply, body."""

    status: int
    headers: tuple[Header, ...]
    body: bytes = b""
    policy: bytes = NO_PAGE


def header_map(scope: Scope) -> dict[bytes, bytes]:
    """Return the request headers by lower-case name, repeated ones joined by commas."""
    headers: list[Header] = scope["headers"]
    by_name = dict(headers)
    if len(by_name) < len(headers):
        by_name = _joined(headers)
    return by_name


def _joined(headers: Iterable[Header]) -> dict[bytes, bytes]:
    by_name: dict[bytes, bytes] = {}
    for name, value in headers:
        by_name[name] = by_name[name] + b", " + value if name in by_name else value
    return by_name


def all_headers(reply: Reply) -> list[Header]:
    """Return the reply's own headers and those of every reply."""
    return [*reply.headers, *_ON_EVERY_REPLY, (b"content-security-policy", reply.policy)]


async def send_reply(reply: Reply, send: Send, *, head: bool = False) -> None:
    """Send the reply, without its body where the request was a HEAD."""
    headers = all_headers(reply)
    if reply.status not in (204, 304):
        headers.append((b"content-length", b"%d" % len(reply.body)))
    await send({"type": "http.response.start", "status": reply.status, "headers": headers})
    await send({"type": "http.response.body", "body": b"" if head else reply.body})
