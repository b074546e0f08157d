"""One connection: the head of a request, and what follows a refusal, are bounded.

The web server bounds neither, so a sender could fill the memory with headers, or hold a connection
by never ending a head, or by never ending a body that was refused unread.
"""

from __future__ import annotations

import asyncio
from typing import Any

from uvicorn.protocols.http.httptools_impl import HttpToolsProtocol

#: Longest head of a request, its line and all headers [byte].
LONGEST_HEAD = 32 * 1024
#: Time that a head may take to arrive, or a body that nobody reads any more [s].
DEADLINE = 15.0


class Connection(HttpToolsProtocol):
    """The web server's HTTP/1.1 connection, with bounds on what it waits for."""

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
        if not self._in_head or self._head_size == 0 or self.transport.is_closing():
            return
        if self._head_size > LONGEST_HEAD:
            self.send_400_response("The head of the request is too long.")
        elif self._deadline is None:
            self._wait()

    def on_headers_complete(self) -> None:
        """End a head; what comes now is its body."""
        self._in_head = False
        self._head_size = 0
        self._stop_waiting()
        super().on_headers_complete()

    def on_message_complete(self) -> None:
        """End a request; what comes now is the head of the next."""
        self._in_head = True
        self._stop_waiting()
        super().on_message_complete()

    def on_response_complete(self) -> None:
        """End an answer; a body that is still arriving has been refused."""
        super().on_response_complete()
        if not self._in_head:
            self._wait()

    def _wait(self) -> None:
        if self._deadline is None:
            self._deadline = self.loop.call_later(DEADLINE, self._give_up)

    def _stop_waiting(self) -> None:
        if self._deadline is not None:
            self._deadline.cancel()
            self._deadline = None

    def _give_up(self) -> None:
        if not self.transport.is_closing():
            self.transport.close()
