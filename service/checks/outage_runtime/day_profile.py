"""From load rows to a day of merged intervals of constant mean power.

Between two neighbouring window edges of all rows nothing changes, so a day is a handful of
intervals, not a grid of steps.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

DAY = 86_400.0
#: Profile variants beside low, typical and high use: the one asked row at the ends of its watts.
LOW, TYPICAL, HIGH, HIGH_ROW_LOW, TYPICAL_ROW_LOW, TYPICAL_ROW_HIGH = range(6)
#: Which watts level and which duty level the asked row has in each variant.
_ROW_WATTS = (0, 1, 2, 0, 0, 2)
_LEVEL = (0, 1, 2, 2, 1, 1)


@dataclass(frozen=True, slots=True)
class DayProfile:
    """A day of M intervals of constant power.

    Attributes
    ----------
    edges : ndarray, shape (M + 1,)
        Interval ends from midnight to midnight [s].
    power : ndarray, shape (6, 2, 3, M)
        Mean power [W] by variant, season (summer, winter), tier (critical, normal, comfort).
    energy : ndarray, shape (3, 2)
        Energy of a day [J] by use level and season, tier shed left out.
    asked_row : int
        The row whose unstated watts spread the day's energy most; -1 where none does.
    """

    edges: Floats
    power: Floats
    energy: Floats
    asked_row: int


def window_seconds(starts: Floats, ends: Floats) -> list[tuple[float, float]]:
    """Return the union of windows as sorted spans inside one day [s].

    Parameters
    ----------
    starts, ends : ndarray, shape (W,)
        Window limits [s]; an end not after its start wraps past midnight.

    Notes
    -----
    Union of intervals by sweep. Source: derived, own arithmetic.
    """
    spans: list[tuple[float, float]] = []
    for start, end in zip(starts.tolist(), ends.tolist(), strict=True):
        spans += [(start, end)] if end > start else [(start, DAY), (0.0, end)]
    merged: list[tuple[float, float]] = []
    for start, end in sorted(span for span in spans if span[1] > span[0]):
        if merged and start <= merged[-1][1]:
            merged[-1] = (merged[-1][0], max(end, merged[-1][1]))
        else:
            merged.append((start, end))
    return merged


def day_profile(
    *,
    watts: Floats,
    duty: Floats,
    use_seconds: Floats,
    pieces: Floats,
    season: Floats,
    tier: Ints,
    askable: NDArray[np.bool_],
    window_offsets: Ints,
    window_start: Floats,
    window_end: Floats,
) -> DayProfile:
    """Merge R load rows into one day of intervals of constant mean power.

    Parameters
    ----------
    watts, duty : ndarray, shape (R, 3)
        Running power of one piece [W] and duty [fraction], at low, typical and high use.
    use_seconds : ndarray, shape (R,)
        Time in use per day [s], not above the length of the row's windows.
    pieces : ndarray, shape (R,)
        How many of them [1].
    season : ndarray, shape (R, 2)
        Factor in summer and winter [1].
    tier : ndarray, shape (R,)
        0 critical, 1 normal, 2 comfort, 3 shed.
    askable : ndarray, shape (R,)
        Whether the row's watts were taken from the catalogue.
    window_offsets : ndarray, shape (R + 1,)
        Slices of `window_start`, `window_end` [s] by row.

    Notes
    -----
    Mean power inside a window is watts x duty x hours in use / window length: exact in energy,
    optimistic in power; common practice, no source. Energy is watts x hours. Source: US Department
    of Energy, Energy Saver, "Estimating Appliance and Home Electronic Energy Use".
    """
    rows = len(pieces)
    spans = [
        window_seconds(window_start[a:b], window_end[a:b])
        for a, b in zip(window_offsets[:-1].tolist(), window_offsets[1:].tolist(), strict=True)
    ]
    edges = np.unique([0.0, DAY, *(edge for row in spans for span in row for edge in span)])
    middles = 0.5 * (edges[1:] + edges[:-1])
    inside = np.zeros((rows, middles.size))
    for index, row in enumerate(spans):
        for start, end in row:
            inside[index, (middles > start) & (middles < end)] = 1.0
    lengths = np.diff(edges)
    share = (pieces * use_seconds / (inside @ lengths))[:, None]
    mean = watts * duty * share
    runs = np.where(tier < 3, 1.0, 0.0)[:, None] * season
    energy = np.einsum("ru,rs,r->us", mean, runs, inside @ lengths)
    spread = np.where(askable, (watts[:, 2] - watts[:, 0]) * duty[:, 1] * share[:, 0], 0.0)
    spread *= (inside @ lengths) * runs.max(axis=1)
    asked = int(np.argmax(spread)) if rows and spread.max() > 0 else -1
    levels = np.array(_LEVEL)
    by_variant = mean[:, levels]
    if asked >= 0:
        by_variant[asked, 3:] = (
            watts[asked, list(_ROW_WATTS[3:])] * duty[asked, levels[3:]] * share[asked, 0]
        )
    by_tier = np.zeros((rows, 3))
    kept = tier < 3
    by_tier[np.flatnonzero(kept), tier[kept]] = 1.0
    weight = np.einsum("rv,rs,rk->vskr", by_variant, season, by_tier)
    return DayProfile(edges=edges, power=weight @ inside, energy=energy, asked_row=asked)
