"""The lanes' schedules: each lane walks the day's intervals from its own start hour."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.day_profile import DAY, DayProfile

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def padded_days(profiles: Sequence[DayProfile]) -> tuple[Floats, Floats]:
    """Stack the days of C cases to one number of intervals; the filling has no length.

    Returns
    -------
    edges : ndarray, shape (C, M + 1)
        Interval ends [s].
    power : ndarray, shape (C, 6, 2, 3, M)
        Mean power [W].

    Notes
    -----
    An interval of no length changes nothing. Source: derived, own arithmetic.
    """
    most = max(profile.edges.size for profile in profiles)
    edges = np.full((len(profiles), most), DAY)
    power = np.zeros((len(profiles), 6, 2, 3, most - 1))
    for case, profile in enumerate(profiles):
        edges[case, : profile.edges.size] = profile.edges
        power[case, ..., : profile.edges.size - 1] = profile.power
    return edges, power


def walk(edges: Floats, start: Floats, horizon: Floats, days: int) -> tuple[Floats, Ints]:
    """Return durations and interval numbers of outages that start inside a day.

    Parameters
    ----------
    edges : ndarray, shape (W, M + 1)
        Interval ends of the day of each walk [s].
    start : ndarray, shape (W,)
        Second of the day at which it starts [s].
    horizon : ndarray, shape (W,)
        Length of the outage [s]; what lies beyond it has no length.
    days : int
        Whole days walked.

    Returns
    -------
    duration : ndarray, shape (days * M + 1, W)
        [s]; the first interval is what is left of the one that holds the start, the last is the
        part of it before the start.
    interval : ndarray of int, shape (days * M + 1, W)
        Which of the M intervals of the day it is.

    Notes
    -----
    Source: derived, own arithmetic.
    """
    walks, many = edges.shape[0], edges.shape[1] - 1
    first = np.minimum((edges[:, 1:] <= start[:, None]).sum(axis=1), many - 1)
    interval = (first[None, :] + np.arange(days * many + 1)[:, None]) % many
    lengths = np.diff(edges, axis=1)
    duration = lengths[np.arange(walks)[None, :], interval]
    duration[0] = edges[np.arange(walks), first + 1] - start
    duration[-1] = start - edges[np.arange(walks), first]
    before = np.cumsum(duration, axis=0) - duration
    return np.clip(horizon - before, 0.0, duration), interval
