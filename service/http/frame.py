"""What stands around every request: its id, its log line, its counters, the room it needs."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from time import perf_counter
from typing import Any

from service.http.asgi import Message, Receive, Scope, Send, header_map, send_reply
from service.http.metrics import UNMATCHED, Metrics
from service.http.problem import busy
from service.http.resource import internal
from service.http.trace import request_id, trace_of

App = Callable[[Scope, Receive, Send], Awaitable[None]]

#: Requests answered at once; each may hold a body in memory.
MOST_ACTIVE = 256
#: Paths that are answered however full the house is, and logged at debug.
PROBES = frozenset(("/livez", "/readyz", "/metrics"))


class Frame:
    """Wraps the router, so that what it refuses is framed too."""

    def __init__(
        self, app: App, metrics: Metrics, log: Any, most_active: int = MOST_ACTIVE
    ) -> None:
        self._app = app
        self._metrics = metrics
        self._log = log
        self._most_active = most_active
        self._active = 0
        metrics.watch_active(lambda: self._active)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request inside the frame."""
        started = perf_counter()
        headers = header_map(scope)
        own_id = request_id(headers.get(b"x-request-id"))
        scope["request_id"] = own_id.decode()
        status = 0

        async def marked(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
                message["headers"].append((b"x-request-id", own_id))
            await send(message)

        self._active += 1
        try:
            await self._answer(scope, receive, marked)
        except Exception:
            self._log.exception("fault", request_id=scope["request_id"])
            if not status:
                scope["problem"] = "internal"
                await send_reply(internal().reply(), marked)
        finally:
            self._active -= 1
            self._note(scope, headers, status, perf_counter() - started)

    async def _answer(self, scope: Scope, receive: Receive, send: Send) -> None:
        if self._active > self._most_active and scope["path"] not in PROBES:
            scope["problem"] = "busy"
            detail = "Too many requests are being answered; send this one again."
            await send_reply(busy(detail, 1).reply(), send)
            return
        await self._app(scope, receive, send)

    def _note(self, scope: Scope, headers: dict[bytes, bytes], status: int, seconds: float) -> None:
        route = scope.get("path_template") or UNMATCHED
        method = scope["method"]
        problem = scope.get("problem")
        self._metrics.answered(method, route, status, seconds)
        line = {
            "request_id": scope["request_id"],
            "http.request.method": method,
            "http.route": route,
            "http.response.status_code": status,
            "duration_ms": round(seconds * 1000.0, 3),
        }
        if problem is not None:
            self._metrics.refused(problem)
            line["problem"] = problem
        trace = trace_of(headers.get(b"traceparent"))
        if trace is not None:
            line["trace_id"], line["span_id"] = trace
        (self._log.debug if route in PROBES else self._log.info)("request", **line)
