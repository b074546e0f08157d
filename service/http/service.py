"""The web application: Litestar routes, the frame stands around it, resources answer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, cast

from litestar import Litestar, Request, Response
from litestar.exceptions import HTTPException
from litestar.handlers import ASGIRouteHandler

from service.check import Operation
from service.http.asgi import all_headers
from service.http.document import Document, document_resource
from service.http.endpoint import operation_resource
from service.http.frame import App, Frame
from service.http.gate import Gate
from service.http.metrics import Metrics
from service.http.probes import Readiness, probe_resources
from service.http.problem import PROBLEM_JSON, Problem
from service.http.resource import Resource, internal


class Service(Litestar):
    """The Litestar application inside its frame.

    Litestar's own middleware stands inside its router, where a request for an unknown path never
    comes; the frame has to see every one.
    """

    def __init__(
        self,
        operations: Sequence[Operation],
        documents: Sequence[Document],
        log: Any,
        slow_requests: int,
    ) -> None:
        self.readiness = Readiness()
        self.metrics = Metrics()
        self.gate = Gate(slow_requests)
        self._frame = Frame(cast("App", super().__call__), self.metrics, log)
        resources = [
            *(operation_resource(operation, self.gate, log) for operation in operations),
            *(document_resource(document, log) for document in documents),
            *probe_resources(self.readiness, self.metrics, log),
        ]
        super().__init__(
            [_route(resource) for resource in resources],
            exception_handlers={HTTPException: _refused_by_router, Exception: _fault(log)},
            openapi_config=None,
            logging_config=None,
            on_startup=[self.readiness.open],
            on_shutdown=[self.readiness.drain, self.gate.close],
        )

    async def __call__(self, scope: Any, receive: Any, send: Any) -> None:
        """Answer one request, or follow the life of the process."""
        if scope["type"] == "http":
            await self._frame(scope, receive, send)
        else:
            await super().__call__(scope, receive, send)


def _route(resource: Resource) -> ASGIRouteHandler:
    async def answer(scope: Any, receive: Any, send: Any) -> None:
        await resource(scope, receive, send)

    return ASGIRouteHandler(resource.path, name=resource.path, copy_scope=False)(answer)


def _refused_by_router(request: Request[Any, Any, Any], error: HTTPException) -> Response[bytes]:
    if error.status_code == 404:
        detail = "Nothing answers at this path; /openapi.json lists every path."
        return _response(request, Problem("not-found", detail))
    return _response(request, Problem("malformed", "The head of the request cannot be read."))


def _fault(log: Any) -> Any:
    def handle(request: Request[Any, Any, Any], error: Exception) -> Response[bytes]:
        scope = cast("Mapping[str, Any]", request.scope)
        log.error("fault", request_id=scope.get("request_id"), exc_info=error)
        return _response(request, internal())

    return handle


def _response(request: Request[Any, Any, Any], problem: Problem) -> Response[bytes]:
    request.scope["problem"] = problem.type.id  # type: ignore[typeddict-unknown-key]
    reply = problem.reply()
    return Response(
        reply.body,
        status_code=reply.status,
        media_type=PROBLEM_JSON,
        headers={name.decode(): value.decode() for name, value in all_headers(reply)},
    )
