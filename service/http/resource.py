"""A path and the methods it answers: OPTIONS and 405 with Allow, HEAD beside GET."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping
from typing import Any

from service.http.asgi import Receive, Reply, Scope, Send, send_reply
from service.http.problem import Problem
from service.http.wording import quoted

Respond = Callable[[Scope, Receive], Awaitable[Reply]]


class Resource:
    """An ASGI application for one path.

    Parameters
    ----------
    path : str
        The path, as the router knows it.
    methods : mapping
        Method -> what responds to it; HEAD is added beside GET, OPTIONS beside all.
    log : structlog logger
        Where a fault of ours is written with its traceback.
    """

    def __init__(self, path: str, methods: Mapping[str, Respond], log: Any) -> None:
        self.path = path
        self._methods = dict(methods)
        if "GET" in methods:
            self._methods["HEAD"] = methods["GET"]
        self._allow = ", ".join(sorted([*self._methods, "OPTIONS"])).encode()
        self._log = log

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer one request, whatever happens on its way."""
        reply = await self._reply(scope, receive)
        await send_reply(reply, send, head=scope["method"] == "HEAD")

    async def _reply(self, scope: Scope, receive: Receive) -> Reply:
        try:
            respond = self._methods.get(scope["method"])
            if respond is not None:
                return await respond(scope, receive)
            return self._without_method(scope["method"])
        except Problem as problem:
            scope["problem"] = problem.type.id
            return problem.reply()
        except Exception:
            self._log.exception("fault", request_id=scope.get("request_id"))
            scope["problem"] = "internal"
            return internal().reply()

    def _without_method(self, method: str) -> Reply:
        if method == "OPTIONS":
            return Reply(204, ((b"allow", self._allow), (b"cache-control", b"no-store")))
        detail = f"{quoted(method)} is not answered here; use {self._allow.decode()}."
        raise Problem("method-not-allowed", detail, headers=[(b"allow", self._allow)])


def internal() -> Problem:
    """Return the problem of a fault of ours; its cause stands in the log alone."""
    return Problem("internal", "The service failed at this request; its log says why.")
