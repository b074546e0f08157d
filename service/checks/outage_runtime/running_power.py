"""Running power by the diversity rule: what is on all day, and the largest two beside it.

Mean power inside a window is exact in energy and far too smooth for power. Here every load counts
with its running watts.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Variants of the chosen loads: all, without comfort loads, critical loads alone, and the one
#: asked row at the low and at the high end of its watts.
ALL, COMFORT_OUT, CRITICAL_ALONE, ROW_LOW, ROW_HIGH = range(5)
VARIANTS = 5
_LOWEST_TIER = (2, 1, 0, 2, 2)


def _variants(watts: Floats, tier: Ints, asked: int) -> tuple[Floats, NDArray[np.bool_]]:
    """Return the running watts (V, R, 3) and what is kept (V, R) in every variant."""
    by_variant = np.repeat(watts[None], VARIANTS, axis=0)
    if asked >= 0:
        by_variant[ROW_LOW, asked] = watts[asked, 0]
        by_variant[ROW_HIGH, asked] = watts[asked, 2]
    return by_variant, tier[None, :] <= np.array(_LOWEST_TIER)[:, None]


def _two_largest(watts: Floats, others: NDArray[np.bool_], pieces: Floats) -> tuple[Floats, Ints]:
    """Return the two largest single pieces, shape (V, 2, 3) [W], and their rows, -1: none."""
    row_of = np.repeat(np.arange(pieces.size), np.minimum(pieces, 2).astype(np.int64))
    single = np.where(others[:, row_of, None], watts[:, row_of], -1.0)
    none = np.full((single.shape[0], 2, 3), -1.0)
    single = np.concatenate([single, none], axis=1)
    order = np.argsort(-single, axis=1, kind="stable")[:, :2]
    largest = np.take_along_axis(single, order, axis=1)
    rows = np.where(largest < 0, -1, np.concatenate([row_of, [-1, -1]])[order])
    return np.maximum(largest, 0.0), rows


def running_power(a: Arrays, case_of: Ints, season: Ints, asked: Ints) -> dict[str, Any]:
    """Return the running power of N cases, each in one season.

    Parameters
    ----------
    a : mapping of ndarray
        Flat rows: ``row_watts`` (R, 3) [W], ``row_pieces`` [1], ``row_tier`` code,
        ``row_season`` (R, 2) [1], ``row_always_on`` flag, ``row_starting_watts`` [W],
        ``row_offsets`` (C + 1).
    case_of, season, asked : ndarray, shape (N,)
        Whose rows; 0 summer, 1 winter; the case's row that is asked for, -1 none.

    Returns
    -------
    dict of ndarray
        ``power_all_day``, ``power_one``, ``power_two`` : shape (N, V, 3) [W] by variant at low,
        typical and high use: critical loads on all day; with the largest other piece; with the
        two largest. ``power_rows`` : shape (N, 2, 3), rows of those two with all loads, -1 where
        there is none. ``power_start`` : shape (N,) [W], the typical running power with the
        largest starting increment; 0 where no row states one.

    Notes
    -----
    Source: common practice, no source: always-on critical loads, the two largest others, the
    largest starting increment.
    """
    found = {
        "power_all_day": np.zeros((season.size, VARIANTS, 3)),
        "power_one": np.zeros((season.size, VARIANTS, 3)),
        "power_two": np.zeros((season.size, VARIANTS, 3)),
        "power_rows": np.full((season.size, 2, 3), -1),
        "power_start": np.zeros(season.size),
    }
    offsets = a["row_offsets"].tolist()
    for case, whose in enumerate(case_of.tolist()):
        rows = slice(offsets[whose], offsets[whose + 1])
        tier, pieces = a["row_tier"][rows], a["row_pieces"][rows]
        watts, kept = _variants(a["row_watts"][rows], tier, int(asked[case]))
        kept = kept & (a["row_season"][rows, season[case]] > 0)
        base = kept & a["row_always_on"][rows] & (tier == 0)
        all_day = ((watts * pieces[None, :, None]) * base[..., None]).sum(axis=1)
        largest, of_rows = _two_largest(watts, kept & ~base, pieces)
        found["power_all_day"][case] = all_day
        found["power_one"][case] = all_day + largest[:, 0]
        found["power_two"][case] = all_day + largest[:, 0] + largest[:, 1]
        found["power_rows"][case] = of_rows[ALL]
        extra = np.where(kept[ALL], a["row_starting_watts"][rows] - watts[ALL, :, 1], 0.0)
        if extra.size and extra.max() > 0:
            found["power_start"][case] = found["power_one"][case, ALL, 1] + extra.max()
    return found
