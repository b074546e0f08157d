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
    """Return an energy that is to be had [J] in words, rounded down to a tenth of a kWh."""
    return f"{math.floor(joule / KWH * 10 + _SLACK) / 10:.1f} kWh"


def asked_kilowatts(watt: float) -> str:
    """Return a power that is asked for [W] in words, rounded up to a hundredth of a kilowatt."""
    return f"{math.ceil(watt / 10 - _SLACK) / 100:.2f} kW"


def given_kilowatts(watt: float) -> str:
    """Return a power that is given [W] in words, rounded down to a hundredth of a kilowatt."""
    return f"{math.floor(watt / 10 + _SLACK) / 100:.2f} kW"


def listed(words: list[str]) -> str:
    """Return words joined as in a sentence."""
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]
