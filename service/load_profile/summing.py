"""Statistics of clean readings: sums, extremes, months, gaps."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.load_profile.calendar_year import month_of
from service.load_profile.readings import J_PER_KWH, Readings, Whole


class Figures(NamedTuple):
    """Figures of all readings: times [s], power [W], energy [J]."""

    readings: int
    first: int
    last: int
    interval: int
    covered: int
    energy: float
    least: float
    mean: float
    p95: float
    most: float


def figures_of(made: Readings) -> Figures:
    """Return the figures of readings without overlaps, in order of time; at least one.

    Notes
    -----
    Source: statistics; times [s], energy [J], power [W]. The percentile is of readings.
    """
    power = made.power
    covered = int(made.length.sum())
    energy = float(made.energy.sum())
    lengths, counts = np.unique(made.length, return_counts=True)
    return Figures(
        readings=len(made),
        first=int(made.start[0]),
        last=int(made.start[-1]),
        interval=int(lengths[np.argmax(counts)]),
        covered=covered,
        energy=energy,
        least=float(power.min()),
        mean=energy / covered,
        p95=float(np.percentile(power, 95)),
        most=float(power.max()),
    )


def gaps_of(made: Readings) -> tuple[Whole, Whole]:
    """Return begin and end of every stretch without a reading [s]. Source: the readings alone."""
    after, before = made.end[:-1], made.start[1:]
    gap = before > after
    return after[gap], before[gap]


class Month(NamedTuple):
    """One month: its place since January 1970, energy [kWh], share of it metered."""

    place: int
    kwh: float
    share: float


def months_of(made: Readings) -> list[Month]:
    """Return the months that have readings; a reading counts in the month it begins in.

    Source: addition; energy [kWh].
    """
    month = month_of(made.start)
    places, inverse = np.unique(month, return_inverse=True)
    energy = np.bincount(inverse, made.energy) / J_PER_KWH
    metered = np.bincount(inverse, made.length.astype(np.float64))
    months = places.astype("datetime64[M]")
    lasting = (months + 1).astype("datetime64[s]") - months.astype("datetime64[s]")
    share = np.minimum(metered / lasting.astype(np.int64), 1.0)
    return [
        Month(int(p), float(e), float(s)) for p, e, s in zip(places, energy, share, strict=True)
    ]
