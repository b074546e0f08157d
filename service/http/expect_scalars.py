"""Expectations of single values: numbers and quantities, texts, choices, true or false."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from service.http.walk import Walk
from service.http.wording import listed, nearest, plain, quoted, shown
from service.quantities.fields import PRINTABLE
from service.quantities.units import UnitTextError, from_text

_NUMERAL = re.compile(r"\s*[+-]?[0-9]{1,15}(?:\.[0-9]{1,15})?\s*")


@dataclass(frozen=True, slots=True)
class Bounds:
    """The closed or open interval a number lies in."""

    low: float
    high: float
    low_open: bool = False
    high_open: bool = False

    def holds(self, value: float) -> bool:
        """Return whether the value lies inside; NaN never does."""
        above = value > self.low if self.low_open else value >= self.low
        below = value < self.high if self.high_open else value <= self.high
        return above and below

    @property
    def words(self) -> str:
        """Return the interval in words."""
        low = ("above " if self.low_open else "from ") + plain(self.low)
        return low + (" to below " if self.high_open else " to ") + plain(self.high)


class Number:
    """A bounded number; a quantity where it has a unit, then a text with a unit is taken too."""

    def __init__(self, bounds: Bounds, *, whole: bool = False, unit: str | None = None) -> None:
        self._bounds = bounds
        self.whole = whole
        self._unit = unit
        self._suffix = f" {unit}" if unit else ""
        kind = "a whole number" if whole else "a number"
        self.words = f"{kind} {bounds.words}{self._suffix}"

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the number, from its text where the field has a unit."""
        if isinstance(value, str):
            return self._from_text(value, at, walk)
        if isinstance(value, bool) or not isinstance(value, (int, float)):
            walk.refuse(at, f"write {self.words}, not {shown(value)}")
        elif self.whole and isinstance(value, float) and value.is_integer():
            # JSON knows one kind of number: 10.0 is the whole number 10.
            return self.read(int(value), at, walk)
        elif self.whole and not isinstance(value, int):
            given = repr(value) if math.isfinite(value) else plain(value)
            walk.refuse(at, f"write {self.words} without decimals, not {given}")
        elif not self._bounds.holds(value):
            walk.refuse(at, f"write {self.words}, not {plain(value)}")
        return value

    def _from_text(self, value: str, at: str, walk: Walk) -> Any:
        bare = self._numeral(value)
        if bare is not None:
            or_text = f' or "{bare} {self._unit}"' if self._unit else ""
            walk.refuse(at, f"write {bare}{or_text}, not {quoted(value)}")
            return value
        if self._unit is None or self.whole:
            walk.refuse(at, f"write {self.words}, not the text {quoted(value)}")
            return value
        try:
            number = from_text(value, self._unit)
        except UnitTextError as error:
            walk.refuse(at, f"{error}; not {quoted(value)}")
            return value
        if not self._bounds.holds(number):
            is_ = f"{quoted(value)}, which is {plain(number)}{self._suffix}"
            walk.refuse(at, f"write {self.words}, not {is_}")
        return number

    def _numeral(self, value: str) -> str | None:
        """Return the number that a text without unit states, None where it would not do either."""
        if not _NUMERAL.fullmatch(value):
            return None
        number = float(value)
        fits = self._bounds.holds(number) and (number.is_integer() or not self.whole)
        return plain(number) if fits else None


class Text:
    """A bounded text."""

    def __init__(self, least: int, most: int, pattern: str | None) -> None:
        self._least = least
        self._most = most
        self._pattern = re.compile(pattern) if pattern else None
        self._plain_line = pattern == PRINTABLE
        self.words = f"a text of {least} to {most} characters"
        if pattern and not self._plain_line:
            self.words += f" that matches {pattern}"

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the text."""
        if not isinstance(value, str):
            walk.refuse(at, f"write {self.words}, not {shown(value)}")
        elif len(value) > self._most:
            walk.refuse(at, f"write at most {self._most} characters, not {len(value)}")
        elif len(value) < self._least:
            walk.refuse(at, f"write at least {self._least} characters, not {len(value)}")
        elif self._pattern and not self._pattern.search(value):
            walk.refuse(at, self._mismatch(value))
        return value

    def _mismatch(self, value: str) -> str:
        for place, character in enumerate(value, start=1):
            if unicodedata.category(character) in ("Cc", "Zl", "Zp", "Cs"):
                code = f"U+{ord(character):04X}"
                return f"remove character {place}, the control character {code}: one printable line"
        return f"write {self.words}, not {quoted(value)}"


class Choice:
    """One of a closed list of values."""

    def __init__(self, values: Sequence[str | int]) -> None:
        self._values = tuple(values)
        self._texts = tuple(str(v) for v in values if isinstance(v, str))
        self._numbers = tuple(v for v in values if isinstance(v, int))
        self.words = _choices(self._texts, self._numbers)

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the value."""
        known = isinstance(value, str) or (isinstance(value, int) and not isinstance(value, bool))
        if known and value in self._values:
            return value
        near = nearest(value, self._texts) if isinstance(value, str) else None
        meant = f'"{near}" perhaps: ' if near else ""
        walk.refuse(at, f"write {meant}{self.words}, not {shown(value)}")
        return value


def _choices(texts: Sequence[str], numbers: Sequence[int]) -> str:
    parts = [listed(texts)] if texts else []
    if numbers:
        parts.append(", ".join(map(str, numbers)))
    words = ", ".join(parts)
    return (
        words
        if words.startswith("one of") or len(texts) + len(numbers) == 1
        else (f"one of {words}")
    )


class Flag:
    """True or false."""

    words = "true or false"

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the value."""
        if not isinstance(value, bool):
            walk.refuse(at, f"write {self.words}, not {shown(value)}")
        return value


class Nothing:
    """Null alone."""

    words = "null"

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the value."""
        if value is not None:
            walk.refuse(at, f"write null, not {shown(value)}")
        return value
