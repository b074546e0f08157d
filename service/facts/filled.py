"""A request with one field filled in, named by its JSON Pointer."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, TypeVar

import msgspec
from msgspec import Struct

Request = TypeVar("Request", bound=Struct)


def filled(
    request: Request,
    pointer: str,
    value: object,
    parents: Mapping[str, dict[str, Any]] | None = None,
) -> Request:
    """Return the request with the field filled in.

    Parameters
    ----------
    request : Struct
        As it came in.
    pointer : str
        JSON Pointer of the field (RFC 6901).
    value : object
        What stands there then.
    parents : mapping of str to dict, optional
        What is put in the place of an absent parent, by its pointer; an empty object by default.
    """
    tree: Any = msgspec.to_builtins(request)
    *path, last = pointer.removeprefix("/").split("/")
    at, here = tree, ""
    for step in path:
        here += f"/{step}"
        if isinstance(at, dict) and at.get(step) is None:
            at[step] = dict((parents or {}).get(here, {}))
        at = at[int(step)] if isinstance(at, list) else at[step]
    at[int(last) if isinstance(at, list) else last] = value
    return msgspec.convert(tree, type(request))
