"""Readings made hours of local standard time."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.load_profile.readings import HOUR, Floats, Mask, Readings, Whole

#: Part of an hour that must be metered for the hour to stand (common practice, no source).
_LEAST = 0.5


class Hours(NamedTuple):
    """Consecutive hours: the first one [h since 1970], mean power [W], which are known."""

    first: int
    watts: Floats
    known: Mask
    partly: Mask

    @property
    def numbers(self) -> Whole:
        """Return the hours [h since 1970]."""
        return self.first + np.arange(len(self.watts), dtype=np.int64)


def hours_of(made: Readings) -> Hours:
    """Return the mean power of every hour from the first reading to the last.

    Parameters
    ----------
    made : Readings
        Without overlaps, none longer than an hour [s]; at least one.

    Notes
    -----
    Source: energy is conserved; a reading over the turn of the hour is split by time. An hour of
    which at least half is metered has the mean of that half (common practice, no source).
    """
    first = int(made.start.min()) // HOUR
    count = int((made.end.max() - 1) // HOUR) - first + 1
    hour = made.start // HOUR - first
    within = np.minimum(made.end, (hour + first + 1) * HOUR) - made.start
    beyond = made.length - within
    following = np.minimum(hour + 1, count - 1)
    power = made.power
    energy = np.bincount(hour, power * within, count) + np.bincount(
        following, power * beyond, count
    )
    metered = np.bincount(hour, within, count) + np.bincount(following, beyond, count)
    known = metered >= _LEAST * HOUR
    watts = np.divide(energy, metered, out=np.zeros(count), where=known)
    return Hours(first, watts, known, known & (metered < HOUR))
