"""Running power by the diversity rule: what is on all day, and the largest two beside it.

Mean power inside a window is exact in energy and far too smooth for power. Here every load counts
with its running watts.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays


def _two_largest(pieces: list[tuple[float, int]]) -> list[tuple[float, int]]:
    """Return the two largest single pieces with their row."""
    return sorted(pieces, key=lambda piece: (-piece[0], piece[1]))[:2]


def running_power(
    a: Arrays, case_of: NDArray[np.int64], season: NDArray[np.int64]
) -> dict[str, Any]:
    """Return the running power of N cases, each in one season.

    Parameters
    ----------
    a : mapping of ndarray
        Flat rows: ``row_watts`` (R, 3) [W], ``row_pieces`` [1], ``row_tier`` code,
        ``row_season`` (R, 2) [1], ``row_always_on`` flag, ``row_starting_watts`` [W],
        ``row_offsets`` (C + 1).
    case_of, season : ndarray, shape (N,)
        Whose rows; 0 summer, 1 winter.

    Returns
    -------
    dict of ndarray
        ``power_all_day``, ``power_one``, ``power_two`` : shape (N, 3) [W] at low, typical and
        high use: critical loads on all day; with the largest other piece; with the two largest.
        ``power_start`` : shape (N,) [W], the typical running power with the largest starting
        increment; 0 where no row states one. ``power_largest_rows`` : shape (N, 2), rows of the
        two largest at typical use, -1 where there is none.

    Notes
    -----
    Source: common practice, no source: always-on critical loads, the two largest others, the
    largest starting increment.
    """
    cases = season.size
    found = {
        "power_all_day": np.zeros((cases, 3)),
        "power_one": np.zeros((cases, 3)),
        "power_two": np.zeros((cases, 3)),
        "power_start": np.zeros(cases),
        "power_largest_rows": np.full((cases, 2), -1),
    }
    offsets = a["row_offsets"].tolist()
    for case, whose in enumerate(case_of.tolist()):
        rows = np.arange(offsets[whose], offsets[whose + 1])
        runs = (a["row_tier"][rows] < 3) & (a["row_season"][rows, season[case]] > 0)
        rows = rows[runs]
        base = a["row_always_on"][rows] & (a["row_tier"][rows] == 0)
        watts, pieces = a["row_watts"][rows], a["row_pieces"][rows]
        all_day = (watts[base] * pieces[base, None]).sum(axis=0)
        found["power_all_day"][case] = all_day
        others = rows[~base].tolist()
        for level in range(3):
            single = [
                (float(a["row_watts"][row, level]), row)
                for row in others
                for _ in range(min(int(a["row_pieces"][row]), 2))
            ]
            two = _two_largest(single)
            found["power_one"][case, level] = all_day[level] + sum(w for w, _ in two[:1])
            found["power_two"][case, level] = all_day[level] + sum(w for w, _ in two)
            if level == 1:
                for place, (_, row) in enumerate(two):
                    found["power_largest_rows"][case, place] = row - offsets[whose]
        extra = a["row_starting_watts"][rows] - watts[:, 1] if rows.size else np.zeros(0)
        if extra.size and extra.max() > 0:
            found["power_start"][case] = found["power_one"][case, 1] + extra.max()
    return found
