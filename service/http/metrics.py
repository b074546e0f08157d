"""Counters in the Prometheus text format; no label ever comes from a caller's text."""

from __future__ import annotations

from collections.abc import Callable

from prometheus_client import CollectorRegistry, Counter, Gauge, Histogram, generate_latest
from prometheus_client.process_collector import ProcessCollector

from service import __version__

#: Bounds of OpenTelemetry's http.server.request.duration, two finer ones in front [s].
BUCKETS = (
    0.001, 0.0025, 0.005, 0.01, 0.025, 0.05, 0.075, 0.1, 0.25, 0.5, 0.75, 1.0, 2.5, 5.0, 7.5, 10.0,
)  # fmt: skip
UNMATCHED = "unmatched"
OTHER_METHOD = "_OTHER"
_METHODS = frozenset(
    ("GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT")
)
TEXT = "text/plain; version=0.0.4; charset=utf-8"


class Metrics:
    """The counters of one application."""

    def __init__(self) -> None:
        self.registry = CollectorRegistry(auto_describe=False)
        ProcessCollector(registry=self.registry)
        self._duration = Histogram(
            "http_server_request_duration_seconds",
            "Time from the head of a request to the end of its answer.",
            ("method", "route", "status"),
            buckets=BUCKETS,
            registry=self.registry,
        )
        self._problems = Counter(
            "http_server_problems", "Refusals by type.", ("type",), registry=self.registry
        )
        self._shed = Counter(
            "http_server_requests_shed",
            "Requests answered 503 for want of room.",
            registry=self.registry,
        )
        Gauge("service_info", "Release that runs.", ("version",), registry=self.registry).labels(
            __version__
        ).set(1)
        self._active = Gauge(
            "http_server_active_requests", "Requests being answered.", registry=self.registry
        )
        self._observe: dict[tuple[str, str, int], Callable[[float], None]] = {}

    def watch_active(self, count: Callable[[], int]) -> None:
        """Read the number of active requests from `count` whenever the counters are read."""
        self._active.set_function(count)

    def answered(self, method: str, route: str, status: int, seconds: float) -> None:
        """Count one answered request."""
        key = (method, route, status)
        observe = self._observe.get(key)
        if observe is None:
            label = method if method in _METHODS else OTHER_METHOD
            observe = self._duration.labels(label, route, str(status)).observe
            if label == method:
                self._observe[key] = observe
        observe(seconds)

    def refused(self, problem: str) -> None:
        """Count one refusal by the id of its type."""
        self._problems.labels(problem).inc()
        if problem == "busy":
            self._shed.inc()

    def text(self) -> bytes:
        """Return all counters as text."""
        return generate_latest(self.registry)
