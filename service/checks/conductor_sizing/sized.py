"""One circuit in one material as it came out, with what hangs on its size."""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.answer import RacewayPart
from service.checks.conductor_sizing.arguments import Amps, amps_of
from service.checks.conductor_sizing.circuit_neutral import CircuitNeutral, circuit_neutral
from service.checks.conductor_sizing.conduit import Pulled, conduits
from service.checks.conductor_sizing.parts import Part, parts_of
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.sizing import Sizing
from service.checks.conductor_sizing.tables import MATERIALS
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
    neutral_found : CircuitNeutral
        The neutral of one set.
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
    neutral_found: CircuitNeutral
    raceways: list[RacewayPart]
    resistance: float

    @property
    def size(self) -> int:
        """Return the size of the phases."""
        return int(self.found.size[self.lane])

    @property
    def neutral(self) -> int:
        """Return the size of the neutral."""
        return self.neutral_found.size

    @property
    def lacks_neutral(self) -> bool:
        """Return whether it needs a neutral that no size makes."""
        return self.neutral_found.pulled and self.neutral < 0

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
    found, resistance, up_to = solved
    current, parts = amps_of(request.circuit), parts_of(request)
    return [
        _one(request, found, resistance[lane], up_to[lane], lane, edition, current, parts)
        for lane in range(len(MATERIALS))
    ]


def _one(
    request: ConductorSizingRequest,
    found: Sizing,
    resistance: NDArray[np.float64],
    up_to: NDArray[np.float64],
    lane: int,
    edition: str,
    current: Amps,
    parts: list[Part],
) -> Sized:
    size = int(found.size[lane])
    third = circuit_neutral(request.circuit, found, lane, edition, current)
    over = insulation_columns()[request.insulation].over
    # Without the neutral that it needs nothing is pulled: no raceway is told for half a circuit.
    told = size >= 0 and (third.size >= 0 or not third.pulled)
    held = (size, third.size, int(found.ground.size[lane])) if told else (-1, -1, -1)
    pulled = Pulled(*held, over)  # type: ignore[arg-type]
    length = sum(part.length for part in parts)
    per_metre = resistance[size] if size >= 0 else 0.0
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
