"""Responses, headers and parameters that the operations of the contract share."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from service.check import JSON

Json = dict[str, Any]

_ETAG = '"5d41402abc4b2a76b9719d911017c592"'
_DIGEST = "9f86d081884c7d659a2feaa0c55ad015a3bf4f1b2b0b822cd15d6c15b0f00a08"


def _text_header(words: str, example: str) -> Json:
    return {"description": words, "schema": {"type": "string"}, "example": example}


def headers() -> Json:
    """Return the response headers by name of the component."""
    return {
        "AnswerDigest": _text_header(
            "SHA-256 of the default JSON answer without `reference`, in hex.", _DIGEST
        ),
        "ServiceVersion": _text_header("Release that answered.", "1.0.0"),
        "RequestId": _text_header(
            "The request's own `X-Request-ID`, or a new one where it had none that is safe.",
            "lead-0042-try-1",
        ),
        "ContentLanguage": _text_header("Language of the sentences.", "en"),
        "ETag": _text_header("Strong validator of what is answered.", _ETAG),
        "RetryAfter": {
            "description": "Seconds to wait before the same request is sent again.",
            "schema": {"type": "integer", "minimum": 1, "maximum": 600},
            "example": 1,
        },
    }


def parameters() -> Json:
    """Return the request headers by name of the component; any text is taken in each."""
    return {
        "RequestId": {
            "name": "X-Request-ID",
            "in": "header",
            "description": "Name of this request in the log, sent back in the answer. At most 128 "
            "of the characters A-Z a-z 0-9 . _ : -; anything else is replaced by a new one.",
            "required": False,
            "schema": {"type": "string"},
            "example": "lead-0042-try-1",
        },
        "TraceParent": {
            "name": "traceparent",
            "in": "header",
            "description": "W3C Trace Context, passed on to the log; ignored where malformed.",
            "required": False,
            "schema": {"type": "string"},
            "example": "00-0af7651916cd43dd8448eb211c80319c-b7ad6b7169203331-01",
        },
        "IfNoneMatch": {
            "name": "If-None-Match",
            "in": "header",
            "description": "ETag that the caller holds; 304 where it is still the right one.",
            "required": False,
            "schema": {"type": "string"},
            "example": _ETAG,
        },
    }


def answered(
    words: str,
    schema: Json,
    *,
    media: Sequence[str] = (JSON,),
    examples: Json | None = None,
    cached: bool = False,
) -> Json:
    """Return a 200 response: JSON first, with its examples, then the other media."""
    content: Json = {}
    for kind in media:
        content[kind] = {"schema": schema, **((examples or {}) if kind == JSON else {})}
    first = "ETag" if cached else "Answer-Digest"
    shown = (first, "Service-Version", "Content-Language", "X-Request-ID")
    return {
        "description": words,
        "headers": {name: header(name) for name in shown},
        "content": content,
    }


_COMPONENTS = {
    "Answer-Digest": "AnswerDigest",
    "Service-Version": "ServiceVersion",
    "X-Request-ID": "RequestId",
    "Content-Language": "ContentLanguage",
    "ETag": "ETag",
    "Retry-After": "RetryAfter",
}


def header(name: str) -> Json:
    """Return a reference to the component of a response header."""
    return {"$ref": f"#/components/headers/{_COMPONENTS[name]}"}
