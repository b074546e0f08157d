"""Documents that change with a release alone: strong ETag, 304, HEAD, a time to keep them."""

from __future__ import annotations

import hashlib
from dataclasses import dataclass
from typing import Any

from service.http.asgi import NO_PAGE, Header, Receive, Reply, Scope, header_map
from service.http.media import answer_media
from service.http.query import no_query
from service.http.resource import Resource

#: Policy of a page: its own style sheets and pictures, no script, no frame.
PAGE = b"default-src 'none'; style-src 'self'; img-src 'self'; frame-ancestors 'none'"
#: A release may change a document, so it is asked for again after this time [s].
_KEPT = 300


@dataclass(frozen=True, slots=True)
class Document:
    """Bytes at a path."""

    path: str
    media: str
    body: bytes
    policy: bytes = NO_PAGE


class DocumentEndpoint:
    """Answers GET requests for one document."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self._offered = (document.media.partition(";")[0],)
        self._etag = b'"' + hashlib.sha256(document.body).hexdigest()[:32].encode() + b'"'
        self._kept: tuple[Header, ...] = (
            (b"etag", self._etag),
            (b"cache-control", b"public, max-age=%d" % _KEPT),
            (b"vary", b"Accept"),
        )

    async def respond(self, scope: Scope, _receive: Receive) -> Reply:
        """Return the document, or 304 where the caller holds it.

        Raises
        ------
        Problem
            The query has a parameter, or Accept leaves out the document's media type.
        """
        headers = header_map(scope)
        no_query(scope["query_string"])
        answer_media(headers.get(b"accept"), self._offered)
        document = self._document
        if self._is_held(headers.get(b"if-none-match")):
            return Reply(304, self._kept, policy=document.policy)
        media = (b"content-type", document.media.encode())
        return Reply(
            200, (media, (b"content-language", b"en"), *self._kept), document.body, document.policy
        )

    def _is_held(self, held: bytes | None) -> bool:
        if held is None:
            return False
        tags = [tag.strip().removeprefix(b"W/") for tag in held.split(b",")]
        return b"*" in tags or self._etag in tags


def document_resource(document: Document, log: Any) -> Resource:
    """Return the resource at the document's path."""
    return Resource(document.path, {"GET": DocumentEndpoint(document).respond}, log)
