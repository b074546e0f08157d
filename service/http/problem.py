"""Refusals as exceptions, and the problem document (RFC 9457) each of them becomes.

::

    Exception
    +-- Problem          whatever ends a request without an answer; raised anywhere on its way
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import msgspec

from service.check import FieldError
from service.http.asgi import Header, Reply
from service.http.problem_types import PROBLEM_TYPES, ProblemType

PROBLEM_JSON = "application/problem+json"


class Problem(Exception):
    """The request gets no answer: which type of problem, what happened, what to do."""

    def __init__(
        self,
        kind: str,
        detail: str,
        errors: Sequence[FieldError] = (),
        headers: Sequence[Header] = (),
    ) -> None:
        super().__init__(detail)
        self.type: ProblemType = PROBLEM_TYPES[kind]
        self.detail = detail
        self.errors = tuple(errors)
        self.headers = tuple(headers)

    def document(self) -> dict[str, Any]:
        """Return the members of the problem document."""
        return {
            "type": self.type.uri,
            "title": self.type.title,
            "status": self.type.status,
            "detail": self.detail,
            "errors": [{"pointer": at, "detail": detail} for at, detail in self.errors],
        }

    def body(self) -> bytes:
        """Return the problem document as JSON."""
        return msgspec.json.encode(self.document())

    def reply(self) -> Reply:
        """Return the problem as a reply."""
        return Reply(
            self.type.status,
            (
                (b"content-type", PROBLEM_JSON.encode()),
                (b"content-language", b"en"),
                (b"cache-control", b"no-store"),
                *self.headers,
            ),
            self.body(),
        )


def invalid(errors: Sequence[FieldError]) -> Problem:
    """Return the problem of a request that was read and is outside the contract."""
    count = len(errors)
    fields = "1 field is" if count == 1 else f"{count} fields are"
    return Problem("invalid", f"{fields} outside the contract; see errors.", errors)


def busy(detail: str, seconds: int) -> Problem:
    """Return the problem of a request that finds no room now."""
    return Problem("busy", detail, headers=[(b"retry-after", b"%d" % seconds)])
