"""The server process: one worker, bounded connections, a clean end at SIGTERM."""

from __future__ import annotations

import contextlib
import gc
import signal
import socket
import sys
from collections.abc import Iterator
from types import FrameType
from typing import Any

import uvicorn

from service.http.connection import Connection
from service.http.log import ServerLog
from service.http.service import Service
from service.settings import Settings

#: Longer than the idle time of the usual load balancers, so that they close first [s].
_KEEP_ALIVE = 75
#: The interpreter changes between the event loop and slow work this often [s].
_SWITCH_INTERVAL = 0.001
#: New objects after which the collector looks at the young ones, and looks that each older
#: generation waits for.
_COLLECT_AFTER = (10_000, 20, 20)
#: Connections that may wait to be taken.
_BACKLOG = 2048


class Server(uvicorn.Server):
    """The web server; a stop signal ends it with success, its requests answered."""

    def __init__(self, config: uvicorn.Config, service: Service, log: Any) -> None:
        super().__init__(config)
        self._service = service
        self._log = log

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        """Start, then say at which address; port 0 has become a real one."""
        await super().startup(sockets)
        for bound in sockets or ():
            host, port = bound.getsockname()[:2]
            shown = f"[{host}]" if ":" in host else host
            self._log.info("listening", host=host, port=port, url=f"http://{shown}:{port}")

    def handle_exit(self, sig: int, frame: FrameType | None) -> None:
        """Say at once that no more requests are wanted, then stop."""
        self._service.readiness.drain()
        super().handle_exit(sig, frame)

    @contextlib.contextmanager
    def capture_signals(self) -> Iterator[None]:
        """Stop at a signal without raising it again afterwards."""
        before = {
            number: signal.signal(number, self.handle_exit)
            for number in (signal.SIGINT, signal.SIGTERM)
        }
        try:
            yield
        finally:
            for number, handler in before.items():
                signal.signal(number, handler)


def listen(host: str, port: int) -> socket.socket:
    """Return a socket bound to the address.

    Raises
    ------
    OSError
        The address cannot be had.
    """
    family = socket.AF_INET6 if ":" in host else socket.AF_INET
    bound = socket.socket(family, socket.SOCK_STREAM)
    try:
        bound.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        bound.bind((host, port))
        # From here on callers wait in the queue instead of being turned away during the start.
        bound.listen(_BACKLOG)
    except OSError:
        bound.close()
        raise
    return bound


def collect_seldom() -> None:
    """Have the collector leave what was loaded alone, and look seldom at what comes."""
    # What was loaded at start lives as long as the process; the collector need not revisit it.
    gc.collect()
    gc.freeze()
    # An answer is made of thousands of small tuples that die with it.
    gc.set_threshold(*_COLLECT_AFTER)


def serve(service: Service, settings: Settings, bound: socket.socket, log: Any) -> None:
    """Serve until a stop signal; running requests get `drain_seconds` to end."""
    sys.setswitchinterval(_SWITCH_INTERVAL)
    collect_seldom()
    ServerLog.attach(log)
    config = uvicorn.Config(
        service,
        loop="uvloop",
        http=Connection,
        ws="none",
        lifespan="on",
        log_config=None,
        access_log=False,
        proxy_headers=False,
        server_header=False,
        timeout_keep_alive=_KEEP_ALIVE,
        timeout_graceful_shutdown=settings.drain_seconds,
    )
    Server(config, service, log).run(sockets=[bound])
    log.info("stopped")
