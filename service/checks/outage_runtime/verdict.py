"""From times to verdicts: the ladder of readings, and the power rule.

Verdict codes are ranks: 0 fail, 1 undetermined, 2 conditional, 3 pass.
"""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

from service.findings import Verdict
from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
FAIL, UNDETERMINED, CONDITIONAL, PASS = range(4)
#: The words of the ranks.
VERDICTS = tuple(Verdict)


def held(times: Floats, target: float) -> NDArray[np.bool_]:
    """Return where a time reaches its target.

    Parameters
    ----------
    times : ndarray, any shape
        [s].
    target : float
        [s].

    Notes
    -----
    Source: derived; one tolerance per dimension.
    """
    return reaches(times, target, "duration")


def target_verdicts(times: Floats, target: float, triples: NDArray[np.int64]) -> NDArray[np.int64]:
    """Return the verdicts of triples of lanes against the target.

    Parameters
    ----------
    times : ndarray, shape (..., L)
        Time that the asked tier is held in each lane [s].
    target : float
        [s]; 0: none was stated.
    triples : ndarray of int, shape (N, 4)
        Lane numbers: strict, relaxed, relaxed with defaults as they stand, strict without load
        control.

    Returns
    -------
    ndarray of int, shape (..., N)

    Notes
    -----
    ``pass``: held at high use, at the end of the warranty, from the start charge, with every
    default at its worse end, and without load control too. ``conditional``: held at typical use,
    now, from full, with every default at its worse end. ``fail``: not even that with defaults as
    they stand. Between: ``undetermined``, a default decides. Source: derived, our own choice of
    words.
    """
    if target <= 0:
        return np.full((*times.shape[:-1], triples.shape[0]), UNDETERMINED)
    strict, relaxed, default, without = np.moveaxis(held(times, target)[..., triples], -1, 0)
    better = np.where(relaxed, np.where(strict & without, PASS, CONDITIONAL), UNDETERMINED)
    return np.where(default, better, FAIL)


def power_verdicts(one: Floats, total: Floats, limit: Floats) -> NDArray[np.int64]:
    """Return the verdicts of the running power against the continuous power.

    Parameters
    ----------
    one, total : ndarray, shape (..., 3)
        Running power with the largest other load, and of everything at once [W], low, typical,
        high.
    limit : ndarray, shape (...)
        Continuous power of all units [W].

    Returns
    -------
    ndarray of int, shape (...)

    Notes
    -----
    ``pass``: everything at once at high use is carried. ``fail``: all-day loads with one other at
    typical use are not. Between: ``conditional`` on what may run together, or on a load that is
    smaller than the high end. Source: derived, our own choice.
    """
    carried = reaches(limit, one[..., 1], "power")
    everything = reaches(limit, total[..., 2], "power")
    return np.asarray(np.where(everything, PASS, np.where(carried, CONDITIONAL, FAIL)))


def tier_times(columns: Any, row: int, tier: int) -> Floats:
    """Return the time that a tier and every tier above it are held, shape (2, L) [s].

    Parameters
    ----------
    columns : mapping of ndarray
        What ``columns`` returned.
    row : int
        Case.
    tier : int
        0 critical, 1 normal, 2 comfort.

    Notes
    -----
    Source: derived.
    """
    found = columns["held"][row]
    for name in ("normal_off", "comfort_off")[:tier]:
        found = np.minimum(found, columns[name][row])
    return np.asarray(found)
