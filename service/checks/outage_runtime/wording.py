"""How numbers are said: rounded to the cautious side, with their unit."""

from __future__ import annotations

import math

HOUR = 3600.0
KWH = 3.6e6
_SLACK = 1e-6


def hours(seconds: float, at_least: bool = False) -> str:
    """Return a time [s] in words, rounded down to a tenth of an hour."""
    figure = math.floor(seconds / HOUR * 10 + _SLACK) / 10
    return f"{'at least ' if at_least else ''}{figure:g} h"


def stated_hours(seconds: float) -> str:
    """Return a time that was asked for [s] as it was asked."""
    return f"{seconds / HOUR:.6g} h"


def kwh(joule: float) -> str:
    """Return an energy [J] in words, to a tenth of a kilowatt-hour."""
    return f"{joule / KWH:.1f} kWh"


def kilowatts(watt: float) -> str:
    """Return a power [W] in words, to a hundredth of a kilowatt."""
    return f"{watt / 1000:.2f} kW"


def listed(words: list[str]) -> str:
    """Return words joined as in a sentence."""
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]
