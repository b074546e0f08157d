"""A fact that may be missing, and how it is asked for.

A fact is the bare value, or one object tagged ``as``: a range, one of a few values, a coarse
answer from the telephone, or unknown. Absent and null mean unknown too.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Annotated, Any, Generic, Literal, TypeVar

import msgspec
from msgspec import Meta, Struct

T = TypeVar("T")


class FactRange(
    Struct, Generic[T], tag="range", tag_field="as", forbid_unknown_fields=True, kw_only=True
):
    """A fact known to lie between two values."""

    low: Annotated[T, Meta(description="Lowest value it may have; not above `high`.")]
    likely: Annotated[
        T | None, Meta(description="Most likely value, between the two; absent: the middle.")
    ] = None
    high: Annotated[T, Meta(description="Highest value it may have.")]


class FactOneOf(
    Struct, Generic[T], tag="one_of", tag_field="as", forbid_unknown_fields=True, kw_only=True
):
    """A fact known to be one of a few values."""

    values: Annotated[
        list[T], Meta(description="The values it may have.", min_length=1, max_length=12)
    ]


class FactCoarse(
    Struct, Generic[T], tag="coarse", tag_field="as", forbid_unknown_fields=True, kw_only=True
):
    """A coarse answer, as had by telephone: it stands for a range, never for a pass."""

    answer: Annotated[T, Meta(description="The coarse answer.")]


class FactUnknown(Struct, tag="unknown", tag_field="as", forbid_unknown_fields=True):
    """A fact that was asked and is not known."""


def fact(
    words: str,
    *,
    ask_by: Literal["telephone", "photo", "visit", "recording", "record"],
    question: str,
    who: Literal["owner", "installer", "utility", "maker"],
    example: Any,
    coarse: Mapping[str, Sequence[float]] | None = None,
    photo: str | None = None,
) -> Meta:
    """Declare a site fact: how it is asked, by whom it is answered, what coarse answers mean.

    `coarse` maps an accepted coarse answer to the low and high value it stands for.
    """
    shown: dict[str, Any] = {"x-ask-by": ask_by, "x-question": question, "x-who-answers": who}
    if coarse:
        shown["x-coarse-answers"] = {name: list(ends) for name, ends in coarse.items()}
    if photo:
        shown["x-photograph"] = photo
    return Meta(
        description=words, examples=[example], extra={"fact": shown}, extra_json_schema=shown
    )


def fact_field(struct: type[Struct], name: str) -> Mapping[str, Any] | None:
    """Return what `fact` declared for a field of the struct, None where it is no fact."""
    info = msgspec.inspect.type_info(struct)
    assert isinstance(info, msgspec.inspect.StructType)
    for field in info.fields:
        if field.name == name and isinstance(field.type, msgspec.inspect.Metadata):
            extra = field.type.extra or {}
            shown = extra.get("fact")
            return shown if isinstance(shown, Mapping) else None
    return None
