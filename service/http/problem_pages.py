"""What stands at the `type` of a problem document: the row of the list, as JSON."""

from __future__ import annotations

import msgspec

from service.http.document import Document
from service.http.problem_types import PROBLEM_TYPES


def problem_pages() -> list[Document]:
    """Return one document for each problem type."""
    return [
        Document(
            kind.uri,
            "application/json",
            msgspec.json.encode(
                {
                    "type": kind.uri,
                    "title": kind.title,
                    "status": kind.status,
                    "meaning": kind.meaning,
                }
            ),
        )
        for kind in PROBLEM_TYPES.values()
    ]
