"""Drop of the heavier leg of a 120/240 V circuit, at the largest unbalance of its neutral."""

from __future__ import annotations

import math

import numpy as np

from service.checks.conductor_sizing.ac_resistance import TABLE_TEMPERATURE
from service.checks.conductor_sizing.arguments import ambient_of, edition_of, neutral_of
from service.checks.conductor_sizing.circuit_drop import heated
from service.checks.conductor_sizing.parts import wall_of
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.sized import Sized
from service.checks.conductor_sizing.tables import WALLS, code_tables
from service.checks.conductor_sizing.terminal_ampacity import COLUMN_90
from service.checks.conductor_sizing.three_wire_drop import three_wire_drop

_UNBALANCED = ("unbalance", "unbalance_and_source")
#: Volts between the hots of a circuit with a neutral in the middle [V]. Standing: common practice,
#: nominal 120/240 V service.
_LEAST, _MOST = 220.0, 250.0


def leg_drop(request: ConductorSizingRequest, sized: Sized) -> float | None:
    """Return the drop of the heavier leg, in parts of its volts; None: it has no such leg [1]."""
    circuit = request.circuit
    carries = neutral_of(circuit) in _UNBALANCED and _LEAST <= circuit.volts <= _MOST
    if sized.size < 0 or sized.neutral < 0 or not carries:
        return None
    edition, _ = edition_of(request)
    tables = code_tables(edition)
    wall = WALLS.index(wall_of(sized.parts))
    metres = sized.length / circuit.sets
    full = sized.current.flowing
    unbalance = min(circuit.unbalance_a if circuit.unbalance_a is not None else full, full)
    heat = heated(
        max((ambient_of(request, p, edition) for p in sized.parts if p.length), default=0.0),
        unbalance / circuit.sets,
        tables.ampacity[sized.lane, COLUMN_90, sized.neutral],
        np.array(sized.lane),
        TABLE_TEMPERATURE,
    )
    ohm = float(tables.resistance[sized.lane, wall, sized.neutral] * heat) * metres
    hot, neutral = (
        complex(resistance, metres * float(tables.reactance[wall, size]))
        for resistance, size in ((sized.resistance, sized.size), (ohm, sized.neutral))
    )
    factor = circuit.power_factor
    lagging = complex(factor, -math.sqrt(1 - factor**2))
    volts = circuit.volts / 2
    found = three_wire_drop(volts, full * lagging, (full - unbalance) * lagging, hot, neutral)
    return float(found.leg_1) / volts
