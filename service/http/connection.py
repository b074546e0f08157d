"""One connection: the head of a request is bounded in size and in time.

The web server bounds neither, so a sender could fill the memory with headers, or hold a connection
by never ending one.
"""

from __future__ import annotations

import asyncio
from typing import Any

from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol

#: Longest head of a request, its line and all headers [byte].
LONGEST_HEAD = 32 * 1024
#: Time from the opening of a connection, or the first byte of a later head, to its end [s].
HEAD_DEADLINE = 15.0


class Connection(HttpToolsProtocol):
    """The web server's HTTP/1.1 connection, with bounds on the head of a request."""

    _in_head = True
    _head_size = 0
    _deadline: asyncio.TimerHandle | None = None

    def connection_made(self, transport: Any) -> None:
        """Wait for the first head."""
        super().connection_made(transport)
        self._wait()

    def connection_lost(self, exc: Exception | None) -> None:
        """Wait for nothing more."""
        self._stop_waiting()
        super().connection_lost(exc)

    def data_received(self, data: bytes) -> None:
        """Take bytes while the head they belong to is within its bounds."""
        if self._in_head:
            self._head_size += len(data)
        super().data_received(data)
        if self._in_head and self._head_size > LONGEST_HEAD and not self.transport.is_closing():
            self.send_400_response("The head of the request is too long.")

    def on_message_begin(self) -> None:
        """Begin a head."""
        super().on_message_begin()
        self._in_head = True
        if self._deadline is None:
            self._wait()

    def on_headers_complete(self) -> None:
        """End a head; what comes now is its body."""
        self._in_head = False
        self._head_size = 0
        self._stop_waiting()
        super().on_headers_complete()

    def _wait(self) -> None:
        self._deadline = self.loop.call_later(HEAD_DEADLINE, self._give_up)

    def _stop_waiting(self) -> None:
        if self._deadline is not None:
            self._deadline.cancel()
            self._deadline = None

    def _give_up(self) -> None:
        if not self.transport.is_closing():
            self.transport.close()
