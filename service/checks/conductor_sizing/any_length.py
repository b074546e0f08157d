"""Which sizes a run may have however long it is."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.circuit_lanes import CircuitLanes, CodeTables
from service.checks.conductor_sizing.conditions_of_use import SHORT_PART_EXCEPTED
from service.checks.conductor_sizing.segment_factors import NIPPLE
from service.checks.conductor_sizing.sizing import Sizing, sizing
from service.quantities.comparison import reaches

Bools = NDArray[np.bool_]

#: A length of which no part of the run is a short one [m]: any beyond 10 ft will do.
_LONG = 100.0


def usable_at_any_length(lanes: CircuitLanes, tables: CodeTables, found: Sizing) -> Bools:
    """Return the sizes that meet every rule but those of drop, whatever the length of the run.

    Parameters
    ----------
    lanes : CircuitLanes
        Circuits, their parts in [m].
    tables : CodeTables
        Tables of the code.
    found : Sizing
        Of these circuits at their own length.

    Returns
    -------
    ndarray of bool, shape (L, N)

    Notes
    -----
    A short hot part is left out of this run and not of every shorter one, and a nipple that is the
    whole run is no nipple when it grows. Where one of both helped, the sizes are tried without.
    Source: NEC 2023 (NFPA 70) 310.14(A)(2), exception, and 310.15(C)(1)(b), by secondary sources.
    """
    segments = lanes.segments
    real = segments.length > 0
    spared = reaches(NIPPLE, segments.raceway_length, "length")
    nipples = np.asarray((spared | ~real).all(axis=1))
    lifted = found.conditions.code == SHORT_PART_EXCEPTED
    again = np.flatnonzero(lifted | nipples)
    if not again.size:
        return found.usable
    raceway = np.where(nipples[:, np.newaxis], np.inf, segments.raceway_length)
    longer = segments._replace(length=np.where(real, _LONG, 0.0), raceway_length=raceway)
    tried = sizing(lanes._replace(segments=longer).some(again), tables)
    usable = found.usable.copy()
    usable[again] = tried.usable
    return usable
