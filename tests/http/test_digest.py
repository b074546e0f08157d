"""The digest is of the default answer: parts asked for and the reference are left out."""

from __future__ import annotations

import hashlib
from typing import Annotated, Any

from msgspec import UNSET, Struct, UnsetType

from service.http.digest import default_json, digest_of
from service.quantities.encoder import to_json
from service.quantities.fields import said


class Part(Struct, kw_only=True):
    """A part of an answer that has parts of its own."""

    name: Annotated[str, said("Name.", example="a")]
    series: list[float] | UnsetType = UNSET
    parts: dict[str, Part] = {}


class Whole(Struct, kw_only=True):
    """An answer."""

    parts: list[Part]
    reference: str | None = None
    series: list[float] | UnsetType = UNSET
    working: list[str] | UnsetType = UNSET


def _whole(**given: Any) -> Whole:
    series = given.get("series", UNSET)
    inner = Part(name="b", series=series)
    return Whole(parts=[Part(name="a", series=series, parts={"x": inner})], **given)


def test_parts_asked_for_are_left_out_however_deep_they_stand() -> None:
    asked = _whole(series=[1.0], reference="lead-1")
    assert default_json(asked, ["series"]) == to_json(_whole())


def test_parts_that_were_not_asked_for_stay() -> None:
    asked = _whole(working=["1 + 1"])
    assert b"1 + 1" in default_json(asked, ["series"])


def test_the_digest_is_the_sha_256_in_hex() -> None:
    assert digest_of(b"{}") == hashlib.sha256(b"{}").hexdigest().encode()
