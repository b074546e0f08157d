"""Health and counters: whether it lives, whether it takes requests, what it has done."""

from __future__ import annotations

from typing import Any

from service.http.asgi import Header, Receive, Reply, Scope, header_map
from service.http.media import answer_media
from service.http.metrics import TEXT, Metrics
from service.http.problem import busy
from service.http.query import no_query
from service.http.resource import Resource

_FRESH: tuple[Header, ...] = ((b"cache-control", b"no-store"), (b"vary", b"Accept"))
_OK = b'{"status":"ok"}'


class Readiness:
    """Whether requests may be sent here: from the end of the start to the stop signal."""

    def __init__(self) -> None:
        self.ready = False

    def open(self) -> None:
        """Take requests: every table is loaded."""
        self.ready = True

    def drain(self) -> None:
        """Take no more: the process is about to stop."""
        self.ready = False


def probe_resources(readiness: Readiness, metrics: Metrics, log: Any) -> list[Resource]:
    """Return the resources of the probes."""

    async def livez(scope: Scope, _receive: Receive) -> Reply:
        return _answer(scope, "application/json", _OK)

    async def readyz(scope: Scope, _receive: Receive) -> Reply:
        if not readiness.ready:
            raise busy("The service is starting or stopping; send requests elsewhere.", 1)
        return _answer(scope, "application/json", _OK)

    async def counters(scope: Scope, _receive: Receive) -> Reply:
        return _answer(scope, TEXT, metrics.text())

    return [
        Resource("/livez", {"GET": livez}, log),
        Resource("/readyz", {"GET": readyz}, log),
        Resource("/metrics", {"GET": counters}, log),
    ]


def _answer(scope: Scope, media: str, body: bytes) -> Reply:
    no_query(scope["query_string"])
    answer_media(header_map(scope).get(b"accept"), (media.partition(";")[0],))
    return Reply(200, ((b"content-type", media.encode()), *_FRESH), body)
