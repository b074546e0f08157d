"""``Answer-Digest``: the SHA-256 of what an answer says, whichever way it was asked for.

It is taken of the JSON answer as it stands when the request asks for no ``include`` and sends no
``reference``, so the same facts give the same digest in JSON and in MessagePack, with and without
the working. Where neither was asked for, it is the digest of the very bytes of the answer.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from typing import Any

from msgspec import UNSET, Struct

from service.quantities.encoder import to_json


def digest_of(default_json: bytes) -> bytes:
    """Return the digest of a default JSON answer, in hex."""
    return hashlib.sha256(default_json).hexdigest().encode()


def default_json(answer: Struct, included: Iterable[str]) -> bytes:
    """Return the default JSON of an answer that was given with more; the answer loses it."""
    if getattr(answer, "reference", None) is not None:
        answer.reference = None  # type: ignore[attr-defined]  # every answer that echoes one has it
    names = frozenset(included)
    if names:
        _strip(answer, names)
    return to_json(answer)


def _strip(value: Any, names: frozenset[str]) -> None:
    if isinstance(value, Struct):
        for field in value.__struct_fields__:
            if field in names:
                setattr(value, field, UNSET)
            else:
                _strip(getattr(value, field), names)
    elif isinstance(value, (list, tuple)):
        for item in value:
            _strip(item, names)
    elif isinstance(value, dict):
        for item in value.values():
            _strip(item, names)
