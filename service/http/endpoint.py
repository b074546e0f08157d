"""The one endpoint: every operation is answered here, each at its own path."""

from __future__ import annotations

from typing import Any

from service.check import JSON, MIB, MSGPACK, Operation
from service.http.answering import Answered, Answering
from service.http.asgi import Header, Receive, Reply, Scope, header_map
from service.http.gate import Gate
from service.http.media import answer_media, body_media
from service.http.query import includes_asked
from service.http.request_body import read_body
from service.http.resource import Resource

#: Time that reading a body takes at most, measured on the slowest refusals [ms/byte].
_READ_PER_BYTE = 250.0 / MIB
#: The same where a body is one long text, raw or in a JSON body of little else [ms/byte].
_READ_TEXT_PER_BYTE = 15.0 / MIB
_HEADERS: dict[str, tuple[Header, ...]] = {
    media: (
        (b"content-type", media.encode()),
        (b"content-language", b"en"),
        (b"cache-control", b"no-store"),
        (b"vary", b"Accept"),
    )
    for media in (JSON, MSGPACK)
}


class Endpoint:
    """Answers POST requests of one operation."""

    def __init__(self, operation: Operation, gate: Gate) -> None:
        self._operation = operation
        self._answering = Answering(operation)
        self._gate = gate
        self._read_per_byte = _READ_TEXT_PER_BYTE if operation.raw else _READ_PER_BYTE

    async def respond(self, scope: Scope, receive: Receive) -> Reply:
        """Return the answer to one request.

        Raises
        ------
        Problem
            The request gets no answer.
        """
        headers = header_map(scope)
        get = headers.get
        media_in = body_media(
            get(b"content-type"), get(b"content-encoding"), self._operation.accepted
        )
        media_out = answer_media(get(b"accept"), self._operation.answers)
        includes = includes_asked(scope["query_string"], self._operation.includes)
        body = await read_body(receive, headers, self._operation.limit_of(media_in))
        request, predicted = await self._gate.run(
            len(body) * self._read_per_byte, lambda: self._answering.take(body, media_in)
        )
        answered = await self._gate.run(
            predicted, lambda: self._answering.answer(request, includes, media_out)
        )
        return _reply(answered, media_out)


def _reply(answered: Answered, media: str) -> Reply:
    return Reply(200, (*_HEADERS[media], (b"answer-digest", answered.digest)), answered.body)


def operation_resource(operation: Operation, gate: Gate, log: Any) -> Resource:
    """Return the resource at the operation's path."""
    return Resource(operation.path, {"POST": Endpoint(operation, gate).respond}, log)
