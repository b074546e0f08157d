"""A connection is given up where what it waits for does not come."""

from __future__ import annotations

import asyncio
from typing import Any

import pytest
import uvicorn
from uvicorn.server import ServerState

from service.http import connection
from service.http.connection import Connection


async def _app(_scope: Any, _receive: Any, send: Any) -> None:
    await send({"type": "http.response.start", "status": 204, "headers": []})
    await send({"type": "http.response.body"})


async def _is_closed_after(sent: list[bytes], wait: float) -> bool:
    """Return whether the server closes a connection on which these pieces were sent."""
    config = uvicorn.Config(_app, log_config=None, ws="none")
    config.load()
    loop = asyncio.get_running_loop()
    server = await loop.create_server(lambda: Connection(config, ServerState(), {}), "127.0.0.1", 0)
    reader, writer = await asyncio.open_connection(*server.sockets[0].getsockname()[:2])
    for piece in sent:
        writer.write(piece)
        await asyncio.sleep(0.02)
    await asyncio.sleep(wait)
    closed = False
    try:
        async with asyncio.timeout(0.05):
            while await reader.read(1024):
                pass
            closed = True
    except ConnectionError:
        closed = True
    except TimeoutError:
        pass
    writer.close()
    server.close()
    await asyncio.sleep(0.01)  # lets both ends of the connection close
    return closed


_WHOLE = b"GET / HTTP/1.1\r\nHost: x\r\n\r\n"
_BODY = b"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 2\r\n\r\naa"


@pytest.mark.parametrize("sent", [[], [b"GET / HT"], [b"GET / HTTP/1.1\r\n", b"Host: x\r\n"]])
def test_a_head_that_never_ends_is_given_up(
    sent: list[bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(connection, "DEADLINE", 0.1)
    assert asyncio.run(_is_closed_after(sent, 0.2))


@pytest.mark.parametrize("later", [b"GET / HT", b"\r\n"])
def test_a_second_head_that_never_ends_is_given_up(
    later: bytes, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(connection, "DEADLINE", 0.1)
    assert asyncio.run(_is_closed_after([_WHOLE, later], 0.2))


def test_a_refused_body_that_never_ends_is_given_up(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(connection, "DEADLINE", 0.1)
    pieces = [b"POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 99\r\n\r\n", *([b"a"] * 12)]
    assert asyncio.run(_is_closed_after(pieces, 0.05))


@pytest.mark.parametrize("sent", [[_WHOLE], [_WHOLE, _WHOLE], [_BODY], [_BODY[:-1], b"a"]])
def test_an_idle_connection_is_kept_for_the_next_request(
    sent: list[bytes], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(connection, "DEADLINE", 0.1)
    assert not asyncio.run(_is_closed_after(sent, 0.2))
