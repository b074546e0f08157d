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
        ``row_season`` (R, 2) [1], ``row_all_day`` flag, ``row_starting_watts`` [W],
        ``row_offsets`` (C + 1).
    case_of, season, asked : ndarray, shape (N,)
        Whose rows; 0 summer, 1 winter; the case's row that is asked for, -1 none.

    Returns
    -------
    dict of ndarray
        ``power_all_day``, ``power_one``, ``power_two``, ``power_total`` : shape (N, V, 3) [W] by
        variant at low, typical and high use: loads on all day; with the largest other piece;
        with the two largest; everything at once. ``power_rows`` : shape (N, 2, 3), rows of
        those two with all loads, -1 where there is none. ``power_start`` : shape (N,) [W], the
        typical running power with the largest starting increment; 0 where no row states one.

    Notes
    -----
    Source: common practice, no source: all-day loads, the two largest others, the largest
    starting increment.
    """
    known: dict[tuple[bytes, ...], dict[str, Any]] = {}
    offsets = a["row_offsets"].tolist()
    cases = []
    for whose, at, row in zip(case_of.tolist(), season.tolist(), asked.tolist(), strict=True):
        rows = slice(offsets[whose], offsets[whose + 1])
        runs = a["row_season"][rows, at] > 0
        read = [a[name][rows] for name in _READ]
        key = (*(values.tobytes() for values in read), runs.tobytes(), bytes([row + 1]))
        if key not in known:
            watts, pieces, tier, all_day_row, starting = read
            known[key] = _one_case(watts, pieces, tier, all_day_row, starting, runs, row)
        cases.append(known[key])
    return {name: np.array([case[name] for case in cases]) for name in cases[0]}


_READ = ("row_watts", "row_pieces", "row_tier", "row_all_day", "row_starting_watts")


def _one_case(
    watts: Floats,
    pieces: Floats,
    tier: Ints,
    all_day_row: NDArray[np.bool_],
    starting: Floats,
    runs: NDArray[np.bool_],
    asked: int,
) -> dict[str, Any]:
    by_variant, kept = _variants(watts, tier, asked)
    kept = kept & runs
    base = kept & all_day_row
    all_day = ((by_variant * pieces[None, :, None]) * base[..., None]).sum(axis=1)
    largest, rows = _two_largest(by_variant, kept & ~base, pieces)
    one = all_day + largest[:, 0]
    extra = np.where(kept[ALL], starting - by_variant[ALL, :, 1], 0.0)
    most = float(extra.max()) if extra.size else 0.0
    return {
        "power_all_day": all_day,
        "power_one": one,
        "power_two": one + largest[:, 1],
        "power_total": ((by_variant * pieces[None, :, None]) * kept[..., None]).sum(axis=1),
        "power_rows": rows[ALL],
        "power_start": one[ALL, 1] + most if most > 0 else 0.0,
    }
