"""Reading and filling a request by JSON Pointer (RFC 6901)."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import msgspec

from service.assessment.request import SiteAssessmentRequest


def mapped(pointer: str, table: Mapping[str, str], candidate: int) -> str | None:
    """Return a check's pointer as one of the site request, None where it has no place there.

    The longest prefix in `table` decides; a ``*`` in it is the candidate's place.
    """
    fits = [prefix for prefix in table if pointer == prefix or pointer.startswith(prefix + "/")]
    if not fits:
        return None
    prefix = max(fits, key=len)
    return table[prefix].replace("*", str(candidate)) + pointer[len(prefix) :]


def filled(
    request: SiteAssessmentRequest, values: Sequence[tuple[str, Any]]
) -> SiteAssessmentRequest:
    """Return the request with fields set by pointer; absent parents become objects."""
    tree = msgspec.to_builtins(request)
    for pointer, value in values:
        steps = pointer.split("/")[1:]
        at = tree
        for step in steps[:-1]:
            key = int(step) if isinstance(at, list) else step
            if not isinstance(at, list) and at.get(key) is None:
                at[key] = {}
            at = at[key]
        at[int(steps[-1]) if isinstance(at, list) else steps[-1]] = value
    return msgspec.convert(tree, SiteAssessmentRequest)
