"""The neutral of a sized circuit: by the same ampacities as its phases."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.checks.conductor_sizing.arguments import Amps, neutral_of
from service.checks.conductor_sizing.circuit_kinds import NEUTRALS
from service.checks.conductor_sizing.constraints import SIZES_AT_HAND
from service.checks.conductor_sizing.equipment_ground import table_area
from service.checks.conductor_sizing.neutral import UNBALANCE_AND_SOURCE, neutral, neutral_amps
from service.checks.conductor_sizing.parallel_sets import parallel_sets
from service.checks.conductor_sizing.request import Circuit
from service.checks.conductor_sizing.size_range import LARGEST
from service.checks.conductor_sizing.sizing import Sizing
from service.checks.conductor_sizing.tables import code_tables
from service.published.conductors import index_of


class CircuitNeutral(NamedTuple):
    """The neutral of one set.

    Attributes
    ----------
    size : int
        Place of its size; -1: none.
    amps : float
        What the neutrals of all sets carry together [A].
    pulled : bool
        Whether the circuit has one.
    """

    size: int
    amps: float
    pulled: bool


def circuit_neutral(
    circuit: Circuit, found: Sizing, lane: int, edition: str, current: Amps
) -> CircuitNeutral:
    """Return the neutral beside phases that have a size.

    Parameters
    ----------
    circuit : Circuit
        As asked for.
    found : Sizing
        Of both lanes of the request.
    lane : int
        The material.
    edition : str
        Of the tables.
    current : Amps
        Of the circuit [A].

    Returns
    -------
    CircuitNeutral

    Notes
    -----
    Of every size the lower of terminals and conditions of use must carry it, the short part of a
    run left out as for the phases. It is no smaller than the equipment ground of its own material
    by the breaker. One that carries the unbalance alone is no larger than the phases have to be
    apart from the distance.
    Source: NEC 2023 (NFPA 70) 110.14(C), 215.2(A)(2), 310.10(G), 310.14(A)(2), as told by secondary
    sources; 705.28(C)(2) from memory, not verified.
    """
    tables = code_tables(edition)
    use = NEUTRALS[neutral_of(circuit)]
    unbalance = current.amps if circuit.unbalance_a is None else circuit.unbalance_a
    amps = float(neutral_amps(use, unbalance, current.amps))
    if not use or found.size[lane] < 0:
        return CircuitNeutral(-1, amps, bool(use))
    material = np.array([lane])
    ampacity = np.minimum(
        tables.ampacity[lane, int(found.column[lane])], found.conditions.ampacity[lane]
    )
    permitted = parallel_sets(np.array([circuit.sets]), tables.parallel_size)
    permitted &= np.arange(tables.area.size) <= index_of(LARGEST)
    size = neutral(
        np.array([use]),
        np.array([amps / circuit.sets]),
        ampacity[np.newaxis],
        tables.area[np.newaxis],
        table_area(found.device.rating[[lane]], tables.ground, material),
        permitted,
    )[0]
    if use != UNBALANCE_AND_SOURCE:
        size = min(size, found.smallest[lane, :SIZES_AT_HAND].max())
    return CircuitNeutral(int(size), amps, pulled=True)
