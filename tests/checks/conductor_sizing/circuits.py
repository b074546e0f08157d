"""Invented circuits, one or many, for the tests of conductor sizing."""

from __future__ import annotations

from typing import Any, Final

import numpy as np

from service.checks.conductor_sizing.circuit_lanes import CircuitLanes, DropTargets
from service.checks.conductor_sizing.equipment_ground import WITHOUT_DISTANCE
from service.checks.conductor_sizing.segment_factors import Segments
from service.checks.conductor_sizing.sizing import Sizing, sizing
from service.checks.conductor_sizing.terminal_ampacity import COLUMN_75, COLUMN_90
from tests.checks.conductor_sizing.table_arrays import CU, PVC, SIZES, ZERO_CELSIUS, code_tables

FT: Final = 0.3048
TABLES: Final = code_tables()
#: Length [ft], ambient [degC], current-carrying conductors, column of the insulation.
Part = tuple[float, float, int, int]


def segments(*lanes: list[Part], raceway_ft: float = np.inf) -> Segments:
    """Return the parts of some runs, padded to one width."""
    width = max(len(lane) for lane in lanes)
    padded = [[*lane, *[(0.0, 30.0, 1, COLUMN_90)] * (width - len(lane))] for lane in lanes]
    length, ambient, counted, column = np.moveaxis(np.array(padded), -1, 0)
    far = np.full(length.shape, raceway_ft * FT)
    return Segments(
        length * FT, ambient + ZERO_CELSIUS, counted.astype(int), far, column.astype(int)
    )


def circuit(lanes: int = 1, **changed: Any) -> CircuitLanes:
    """Return copper in PVC from a source of 48 A at 240 V, 150 ft away, with some members changed.

    `parts` are those of every lane, or one list a lane; `amps` sets the current of the drop too.
    """
    amps = np.broadcast_to(changed.pop("amps", 48.0), lanes).astype(float)
    parts = changed.pop("parts", [(150.0, 30.0, 2, COLUMN_90)])
    each = parts if isinstance(parts[0], list) else [parts] * lanes
    target: dict[str, Any] = {
        "volts": 240.0,
        "volts_at_load": True,
        "limit": 4.8,
        "amps": amps,
        "power_factor": 1.0,
        "passes": 2.0,
    }
    target |= {name: changed.pop(name) for name in list(changed) if name in target}
    target["amps"] = changed.pop("drop_amps", amps)
    members: dict[str, Any] = {
        "material": CU,
        "wall": PVC,
        "amps": amps,
        "raised_amps": 1.25 * amps,
        "least_rating": 0.0,
        "most_rating": np.inf,
        "most_known": True,
        "next_size": False,
        "own_overload": False,
        "cable_column": COLUMN_75,
        "sets": 1,
        "smallest": 0,
        "largest": len(SIZES) - 1,
        "temperature": 75 + ZERO_CELSIUS,
        "ground_material": changed.get("material", CU),
        "grown_from": WITHOUT_DISTANCE,
    } | {name: value for name, value in changed.items() if name != "marking"}
    marking = np.atleast_1d(changed.get("marking", [COLUMN_75, COLUMN_75]))
    return CircuitLanes(
        **{name: np.broadcast_to(value, lanes) for name, value in members.items()},
        marking=np.broadcast_to(marking, (lanes, marking.shape[-1])),
        segments=segments(*each),
        targets=DropTargets(
            **{k: np.broadcast_to(v, lanes)[:, np.newaxis] for k, v in target.items()}
        ),
    )


def sized(lanes: int = 1, **changed: Any) -> Sizing:
    """Return the sizing of `circuit`."""
    return sizing(circuit(lanes, **changed), TABLES)


def named(size: Any) -> list[str]:
    """Return the names of sizes, "none" for -1."""
    return ["none" if index < 0 else SIZES[index] for index in np.atleast_1d(size)]
