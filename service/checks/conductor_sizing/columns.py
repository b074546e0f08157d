"""From circuits to sizes: every constraint tried on every size, and how far each reaches."""

from __future__ import annotations

from typing import Any

import numpy as np

from service.check import Arrays
from service.checks.conductor_sizing.any_length import usable_at_any_length
from service.checks.conductor_sizing.arguments import lanes_of
from service.checks.conductor_sizing.circuit_drop import circuit_reach, impedance
from service.checks.conductor_sizing.sizing import sizing
from service.checks.conductor_sizing.tables import code_tables


def columns(**arrays: Any) -> Arrays:
    """Size every circuit.

    Parameters
    ----------
    **arrays : ndarray
        As `arguments` gives them [A, V, m, K].

    Returns
    -------
    dict
        ``solved``, shape (R,): of the two lanes of each request the `Sizing`, the resistance of
        every size [ohm/m] and the longest run it or a smaller one serves [m].

    Notes
    -----
    Circuits of one edition are sized together.
    Source: derived; see `sizing`.
    """
    editions = arrays["edition"]
    solved = np.full(len(editions), None, dtype=object)
    if not len(editions):
        return {"solved": solved}
    lanes = lanes_of(arrays)
    for edition in sorted(set(editions.tolist())):
        rows = np.flatnonzero(editions == edition)
        chosen = np.stack([2 * rows, 2 * rows + 1], axis=1).ravel()
        some, tables = lanes.some(chosen), code_tables(edition)
        found = sizing(some, tables)
        reach = circuit_reach(some, tables, usable_at_any_length(some, tables, found))
        resistance, _ = impedance(some, tables)
        for place, row in enumerate(rows.tolist()):
            two = slice(2 * place, 2 * place + 2)
            solved[row] = (_lanes(found, two), resistance[two], reach.up_to[two])
    return {"solved": solved}


def _lanes(found: Any, two: slice) -> Any:
    """Return some lanes of a result that is a record of arrays and of records."""
    if isinstance(found, tuple):
        return type(found)(*(_lanes(member, two) for member in found))
    return found[two]
