"""Highest demand: what a mean over 15 minutes was at least, and what it can have been at most."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.load_profile.readings import Readings, readings

#: Window of the metered-demand method [s].
WINDOW = 900


class Demand(NamedTuple):
    """The highest demand of the readings."""

    highest: float
    at_most: float
    start: int
    length: int


def demand_of(made: Readings) -> Demand:
    """Return the highest mean power and the most that any 15 minutes can have had [W].

    Parameters
    ----------
    made : Readings
        Without overlaps, in order of time; at least one.

    Notes
    -----
    Fifteen minutes lie within two neighbouring readings at most where these are no shorter, so
    their energy together bounds it.

    References
    ----------
    .. [1] NFPA 70 (NEC), 2023, section 220.87: the maximum demand is a mean over 15 minutes
       (secondary: read in public summaries).
    """
    windows = _quarters(made)
    top = int(np.argmax(windows.power))
    together = windows.energy.copy()
    follows = windows.start[1:] == windows.end[:-1]
    together[:-1] += np.where(follows, np.maximum(windows.energy[1:], 0.0), 0.0)
    return Demand(
        float(windows.power[top]),
        max(float(together.max()) / WINDOW, float(windows.power[top])),
        int(windows.start[top]),
        int(windows.length[top]),
    )


def _quarters(made: Readings) -> Readings:
    """Return readings shorter than the window added up to whole windows of the clock."""
    short = made.length < WINDOW
    if not short.any():
        return made
    group = made.start[short] // WINDOW
    places, inverse = np.unique(group, return_inverse=True)
    covered = np.bincount(inverse, made.length[short])
    whole = covered == WINDOW
    if not whole.any():
        return made
    energy = np.bincount(inverse, made.energy[short])[whole]
    starts = places[whole] * WINDOW
    both = readings(
        np.concatenate([starts, made.start[~short]]),
        np.concatenate([np.full(len(starts), WINDOW), made.length[~short]]),
        np.concatenate([energy, made.energy[~short]]),
    )
    return both.where(np.argsort(both.start, kind="stable"))
