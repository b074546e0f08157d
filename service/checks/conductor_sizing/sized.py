"""One circuit in one material as it came out, with what hangs on its size."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.answer import RacewayPart
from service.checks.conductor_sizing.arguments import Amps, amps_of, neutral_of
from service.checks.conductor_sizing.circuit_kinds import NEUTRALS
from service.checks.conductor_sizing.conduit import Pulled, conduits
from service.checks.conductor_sizing.neutral import neutral, neutral_amps
from service.checks.conductor_sizing.parts import Part, parts_of, wall_of
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.sizing import Sizing
from service.checks.conductor_sizing.tables import MATERIALS, WALLS, code_tables
from service.published.insulation_columns import insulation_columns


class Sized(NamedTuple):
    """A circuit in one material; sizes are places, -1 none.

    Attributes
    ----------
    material, lane : str, int
        Of the phases.
    current : Amps
        [A].
    parts : list of Part
        Of the run.
    found : Sizing
        Both lanes of the request.
    up_to : ndarray, shape (N,)
        Longest run that each size or a smaller one serves [m].
    neutral : int
        Size of the neutral.
    raceways : list of RacewayPart
        Of every part.
    resistance : float
        Of one conductor of the run, of all sets [ohm].
    """

    material: str
    lane: int
    current: Amps
    parts: list[Part]
    found: Sizing
    up_to: NDArray[np.float64]
    neutral: int
    raceways: list[RacewayPart]
    resistance: float

    @property
    def size(self) -> int:
        """Return the size of the phases."""
        return int(self.found.size[self.lane])

    @property
    def ground(self) -> int:
        """Return the size of the equipment ground."""
        return int(self.found.ground.size[self.lane])

    @property
    def length(self) -> float:
        """Return the length of the run, one way [m]."""
        return sum(part.length for part in self.parts)


def sized(request: ConductorSizingRequest, solved: Any, edition: str) -> list[Sized]:
    """Return a circuit in copper and in aluminum."""
    found, _, up_to = solved
    current, parts = amps_of(request.circuit), parts_of(request)
    return [
        _one(request, found, up_to[lane], lane, edition, current, parts)
        for lane in range(len(MATERIALS))
    ]


def _one(
    request: ConductorSizingRequest,
    found: Sizing,
    up_to: NDArray[np.float64],
    lane: int,
    edition: str,
    current: Amps,
    parts: list[Part],
) -> Sized:
    size = int(found.size[lane])
    third = _neutral(request, found, lane, edition, current) if size >= 0 else -1
    over = insulation_columns()[request.insulation].over
    pulled = Pulled(size, third, int(found.ground.size[lane]), over)  # type: ignore[arg-type]
    tables = code_tables(edition)
    wall = [str(w) for w in WALLS].index(wall_of(parts))
    length = sum(part.length for part in parts)
    per_metre = tables.resistance[lane, wall, size] / request.circuit.sets if size >= 0 else 0.0
    return Sized(
        MATERIALS[lane],
        lane,
        current,
        parts,
        found,
        up_to,
        third,
        conduits(parts, pulled),
        float(per_metre * length),
    )


def _neutral(
    request: ConductorSizingRequest, found: Sizing, lane: int, edition: str, current: Amps
) -> int:
    """Return the size of the neutral, no larger than the phases have to be."""
    circuit, tables = request.circuit, code_tables(edition)
    use = np.array([NEUTRALS[neutral_of(circuit)]])
    unbalance = current.amps if circuit.unbalance_a is None else circuit.unbalance_a
    amps = neutral_amps(use, unbalance, current.amps) / circuit.sets
    column = int(found.column[lane])
    ground = int(found.ground.table_size[lane])
    if ground < 0:
        return -1
    size = neutral(
        use,
        np.asarray(amps),
        tables.ampacity[lane, column][None] * found.conditions.factor[lane].min(),
        tables.area[None],
        tables.area[[ground]],
        np.ones((1, tables.area.size), bool),
    )
    return int(size[0])
