"""Lengths as the trade reads them: feet, inches and sixteenths, rounded to a stated side."""

from __future__ import annotations

from functools import lru_cache
from math import ceil, floor
from typing import Final, Literal

from service.checks.clearance.lens import INCH

Side = Literal["nearest", "down", "up"]
_SIXTEENTHS: Final = 16
#: A length this close to a sixteenth is that sixteenth [1/16 in].
_SLACK: Final = 1e-6


def sixteenths(length: float, side: Side = "nearest") -> int:
    """Return a length in sixteenths of an inch.

    Parameters
    ----------
    length : float
        [m]
    side : str, optional
        To the nearest sixteenth, or down or up.

    Returns
    -------
    int
        [1/16 in]

    Notes
    -----
    Source: derived; 1 in is 25.4 mm.
    """
    exact = length / INCH * _SIXTEENTHS
    if side == "nearest":
        return round(exact)
    return floor(exact + _SLACK) if side == "down" else ceil(exact - _SLACK)


def to_inches(length: float, side: Side = "nearest") -> float:
    """Return a length rounded to a sixteenth [m] -> [in].

    Notes
    -----
    Source: derived; 1 in is 25.4 mm.
    """
    return sixteenths(length, side) / _SIXTEENTHS


@lru_cache(maxsize=4096)
def in_words(length: float, side: Side = "nearest") -> str:
    """Return a length in inches and a fraction, such as `10-1/2 in` [m].

    Notes
    -----
    Source: derived; 1 in is 25.4 mm.
    """
    return f"{_fraction(sixteenths(length, side))} in"


@lru_cache(maxsize=4096)
def feet_and_inches(length: float, side: Side = "nearest") -> str:
    """Return a length in feet, inches and a fraction, such as `5 ft 2-1/2 in` [m].

    Notes
    -----
    Source: derived; 1 ft is 12 in, 1 in is 25.4 mm.
    """
    total = sixteenths(length, side)
    sign, total = ("-" if total < 0 else ""), abs(total)
    feet, rest = divmod(total, 12 * _SIXTEENTHS)
    if not feet:
        return f"{sign}{_fraction(rest)} in"
    return f"{sign}{feet} ft" + (f" {_fraction(rest)} in" if rest else "")


def _fraction(total: int) -> str:
    sign, total = ("-" if total < 0 else ""), abs(total)
    whole, part = divmod(total, _SIXTEENTHS)
    if not part:
        return f"{sign}{whole}"
    under = _SIXTEENTHS
    while part % 2 == 0:
        part, under = part // 2, under // 2
    return f"{sign}{whole}-{part}/{under}" if whole else f"{sign}{part}/{under}"
