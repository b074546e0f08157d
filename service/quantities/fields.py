"""Declarations of quantity fields: unit, bounds, example, words, decimals.

A field is ``Annotated[float, quantity("kWh", ge=0, le=1000, ...)]``. msgspec checks bare numbers
by itself; the strict way in turns texts with a unit into numbers by ``extra["unit"]``; the answer
encoder rounds by ``extra["decimals"]``; the contract shows all of them.
"""

from __future__ import annotations

from typing import Any, Literal

from msgspec import Meta

from service.quantities.units import UNITS

Rounding = Literal["nearest", "down", "up"]


def quantity(
    unit: str,
    text: str,
    *,
    ge: float,
    le: float,
    example: float,
) -> Meta:
    """Declare a request field: a bare number of `unit`, or a text with a unit of its dimension."""
    if unit not in UNITS:
        raise ValueError(f"{unit} is not in the closed list of units")
    return Meta(
        ge=ge,
        le=le,
        description=text,
        examples=[example],
        extra={"unit": unit},
        extra_json_schema={"x-unit": unit},
    )


def number(text: str, *, ge: float, le: float, example: float, unit: str = "1") -> Meta:
    """Declare a request number that has no unit to write (a count, a factor, an hour of day)."""
    return Meta(
        ge=ge, le=le, description=text, examples=[example], extra_json_schema={"x-unit": unit}
    )


def text(
    words: str,
    *,
    example: str,
    max_length: int = 200,
    min_length: int = 1,
    pattern: str | None = None,
) -> Meta:
    """Declare a request text: bounded, without control characters."""
    return Meta(
        description=words,
        examples=[example],
        min_length=min_length,
        max_length=max_length,
        pattern=pattern or PRINTABLE,
    )


#: Printable text on one line: no control characters, no lone surrogates, no line separators.
PRINTABLE = "^[^\\x00-\\x1f\\x7f-\\x9f\\u2028\\u2029]*\\Z"
#: The caller's own reference: opaque, safe in a log, a URL or a file name.
SAFE_REFERENCE = "^[A-Za-z0-9._:-]{1,64}\\Z"


def choice(words: str, *, example: str | int) -> Meta:
    """Declare a field of a closed list of words."""
    return Meta(description=words, examples=[example])


def out(
    unit: str,
    words: str,
    *,
    example: float,
    decimals: int = 2,
    rounding: Rounding = "nearest",
) -> Meta:
    """Declare an answer number: its unit, the decimals it is rounded to, and to which side."""
    extra: dict[str, Any] = {"decimals": decimals, "rounding": rounding}
    return Meta(
        description=words,
        examples=[example],
        extra=extra,
        extra_json_schema={"x-unit": unit, "x-decimals": decimals, "x-rounding": rounding},
    )


def said(words: str, *, example: Any) -> Meta:
    """Declare an answer field that is no number: text, list, choice."""
    return Meta(description=words, examples=[example])
