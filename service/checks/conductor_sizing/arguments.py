"""From requests to circuits as lanes: every request in copper and in aluminum."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import NamedTuple

import numpy as np

from service.check import Arrays
from service.checks.conductor_sizing.circuit_kinds import KINDS, NEUTRALS
from service.checks.conductor_sizing.circuit_lanes import CircuitLanes, DropTargets
from service.checks.conductor_sizing.current_carrying import (
    LIKE_A_PHASE,
    NO_NEUTRAL,
    UNBALANCE_ALONE,
    current_carrying,
    is_wye,
)
from service.checks.conductor_sizing.design_current import array_current, design_current
from service.checks.conductor_sizing.equipment_ground import WITHOUT_DISTANCE
from service.checks.conductor_sizing.motor_protection import largest_device, largest_standard
from service.checks.conductor_sizing.neutral import (
    NOT_NEEDED,
    UNBALANCE,
    UNBALANCE_AND_SOURCE,
)
from service.checks.conductor_sizing.parts import ROOF_HEIGHT, Part, parts_of, wall_of
from service.checks.conductor_sizing.request import Circuit, ConductorSizingRequest
from service.checks.conductor_sizing.rooftop import rooftop_ambient
from service.checks.conductor_sizing.segment_factors import NO_COLUMN, Segments
from service.checks.conductor_sizing.size_range import size_range
from service.checks.conductor_sizing.tables import (
    COLUMNS,
    MATERIALS,
    WALLS,
    ZERO_CELSIUS,
    code_tables,
)
from service.checks.conductor_sizing.terminal_ampacity import UNMARKED, UNMARKED_SMALL
from service.codes import code_editions, default_permit_date, editions
from service.facts import Terminal
from service.published.conductors import index_of, sizes
from service.published.raceways import raceways

#: Edition that stands in where the place is not known. Standing: derived, our choice.
USUAL_EDITION = "nec-2023"
#: Largest conductor of terminals that take 60 degC at any amps. Source: NEC 2023 (NFPA 70)
#: 110.14(C)(1)(a). Standing: secondary.
_SMALL_LUG = "1"
#: Temperature of the conductor for the drop: that of the tables [K].
_CONDUCTOR = 75.0 + ZERO_CELSIUS
_PASSES = 2.0
#: Of fewer volts a circuit has no conductor in the middle: its neutral is one of its two [V].
#: Standing: derived, below the 208 V between two phases of a wye.
_THREE_WIRE = 200.0
_OTHER = {"nec-2020": "nec-2023", "nec-2023": "nec-2020"}


class Amps(NamedTuple):
    """Currents of a circuit: for the conditions of use, raised, and at full load [A]."""

    amps: float
    raised: float
    flowing: float


def edition_of(request: ConductorSizingRequest) -> tuple[str, bool]:
    """Return the edition that is read, and whether it is known."""
    if request.edition == "nec-2026":
        return USUAL_EDITION, False
    if request.edition is not None:
        return request.edition, True
    return edition_of_place(request)


def edition_of_place(request: ConductorSizingRequest) -> tuple[str, bool]:
    """Return the edition that place and date read, and whether they are known to."""
    return _edition(request.state or "", request.permit_date)


def other_edition(request: ConductorSizingRequest) -> str | None:
    """Return the edition that may be read instead: of the place, or of another permit date."""
    edition, known = edition_of(request)
    place, place_known = edition_of_place(request)
    if request.edition == "nec-2026":
        return None
    if request.edition is not None:
        return place if place_known and place != edition else None
    dated = known and request.permit_date is not None
    return None if dated else _OTHER[edition]


@lru_cache(maxsize=256)
def _edition(state: str, permit_date: str | None) -> tuple[str, bool]:
    found = editions(state, permit_date or default_permit_date().isoformat())
    electrical = code_editions()[found.current].electrical
    known = found.known and electrical in ROOF_HEIGHT
    return (electrical if known else USUAL_EDITION), known


def amps_of(circuit: Circuit) -> Amps:
    """Return the current of a circuit, and that with its continuous part raised."""
    stated = circuit.amps
    if stated is None:
        stated = 1000.0 * (circuit.kw or 0.0) / (circuit.volts * circuit.power_factor)
    if circuit.kind == "pv_source":
        found = array_current(stated, circuit.strings)
        # Amps of the operating point are less than those of the short circuit: safe for the drop.
        return Amps(float(found.amps), float(found.raised_amps), stated * circuit.strings)
    if circuit.continuous or KINDS[circuit.kind].nameplate:
        found = design_current(stated, circuit.other_a)
    else:
        found = design_current(0.0, stated + circuit.other_a)
    return Amps(float(found.amps), float(found.raised_amps), float(found.amps))


def neutral_of(circuit: Circuit) -> str:
    """Return what a neutral is pulled for."""
    usual = KINDS[circuit.kind].neutral if circuit.volts >= _THREE_WIRE else "none"
    return circuit.neutral or usual


def arguments(requests: Sequence[ConductorSizingRequest]) -> Arrays:
    """Return the circuits of some requests, each in copper and in aluminum.

    Parameters
    ----------
    requests : sequence of ConductorSizingRequest
        R requests; lane 2 r is copper, lane 2 r + 1 aluminum.

    Returns
    -------
    dict
        ``edition``, shape (R,), and the members of `CircuitLanes`, `Segments` and `DropTargets` by
        name, shape (2 R, ...) [A, V, m, K].
    """
    parts = [parts_of(request) for request in requests]
    longest = max((len(one) for one in parts), default=1)
    lanes = [
        lane
        for request, own in zip(requests, parts, strict=True)
        for lane in _lanes(request, own, longest)
    ]
    found = {name: np.array([lane[name] for lane in lanes]) for name in (lanes[0] if lanes else ())}
    return {"edition": np.array([edition_of(request)[0] for request in requests]), **found}


def lanes_of(arrays: Arrays) -> CircuitLanes:
    """Return the circuits out of their arrays."""
    segments = Segments(*(arrays[f"segment_{name}"] for name in Segments._fields))
    targets = DropTargets(*(arrays[f"target_{name}"] for name in DropTargets._fields))
    members = {
        name: arrays[name] for name in CircuitLanes._fields if name not in ("segments", "targets")
    }
    return CircuitLanes(segments=segments, targets=targets, **members)


def _lanes(
    request: ConductorSizingRequest, parts: list[Part], longest: int
) -> list[dict[str, object]]:
    """Return the circuit in both materials, which differ in no more than the sizes there are."""
    circuit, kind = request.circuit, KINDS[request.circuit.kind]
    current = amps_of(circuit)
    ends = (circuit.near, circuit.far)
    target = kind.target
    if request.drop_target_percent is not None:
        target = request.drop_target_percent / 100.0
    found: dict[str, object] = {
        "wall": [str(w) for w in WALLS].index(wall_of(parts)),
        "amps": current.amps,
        "raised_amps": current.raised,
        **_device(request),
        "next_size": kind.next_size,
        "own_overload": circuit.kind == "motor_branch",
        "marking": [_marking(end) for end in ends],
        "cable_column": COLUMNS.index(min(part.cap for part in parts)),
        "sets": circuit.sets,
        "temperature": _CONDUCTOR,
        "ground_material": 0,
        "grown_from": WITHOUT_DISTANCE,
        "target_volts": [circuit.volts],
        "target_volts_at_load": [kind.source],
        "target_limit": [circuit.volts * (target - request.path_drop_percent / 100.0)],
        "target_amps": [current.flowing],
        "target_power_factor": [1.0 if circuit.kind == "pv_source" else circuit.power_factor],
        "target_passes": [_PASSES],
    }
    found |= _segments(request, parts, longest)
    ranges = [size_range(circuit, parts, material) for material in MATERIALS]
    return [
        found | {"material": place, "smallest": one.least, "largest": one.most}
        for place, one in enumerate(ranges)
    ]


def _device(request: ConductorSizingRequest) -> dict[str, object]:
    """Return the bounds of the overcurrent device: a motor's is as large as it may be."""
    circuit = request.circuit
    there, most = circuit.breaker_a, circuit.most_breaker_a
    if circuit.kind != "motor_branch":
        # A feeder's breaker is the designer's choice: no nameplate bounds it.
        known = most is not None or not KINDS[circuit.kind].nameplate
        found = (there or 0.0, most or np.inf, known)
    else:
        ratings = code_tables(edition_of(request)[0]).ratings
        own = amps_of(circuit).amps - circuit.other_a
        limit = float(largest_device(own, circuit.other_a, ratings)) if most is None else most
        least = float(largest_standard(limit, ratings)) if there is None else there
        found = (least, limit, most is not None or least > limit)
    return dict(zip(("least_rating", "most_rating", "most_known"), found, strict=True))


def _marking(end: Terminal) -> int:
    if end.marked is not None:
        return COLUMNS.index(end.marked)
    small = end.largest is not None and index_of(end.largest) <= index_of(_SMALL_LUG)
    return UNMARKED_SMALL if small else UNMARKED


def own_conductors(request: ConductorSizingRequest) -> int:
    """Return the current-carrying conductors of the circuit itself."""
    circuit = request.circuit
    use = NEUTRALS[neutral_of(circuit)]
    carries = use == UNBALANCE_AND_SOURCE or (use == UNBALANCE and is_wye(circuit.volts))
    neutral = NO_NEUTRAL if use == NOT_NEEDED else LIKE_A_PHASE if carries else UNBALANCE_ALONE
    return int(current_carrying(2, neutral))


def ambient_of(request: ConductorSizingRequest, part: Part, edition: str) -> float:
    """Return the temperature around a part, with what a roof adds [K]."""
    # The insulation stated is that of conductors in raceways: a cable has its own.
    exempt = request.insulation == "xhhw_2" and part.way in raceways()
    return _around(part.ambient, part.roof_height, part.place == "rooftop", edition, exempt)


@lru_cache(maxsize=4096)
def _around(ambient: float, height: float, roof: bool, edition: str, exempt: bool) -> float:
    kelvin = ambient + ZERO_CELSIUS
    return float(rooftop_ambient(kelvin, height, roof, ROOF_HEIGHT[edition], exempt))


def _segments(
    request: ConductorSizingRequest, parts: list[Part], longest: int
) -> dict[str, object]:
    """Return the members of the segments, padded with parts of no length."""
    edition, _ = edition_of(request)
    own = own_conductors(request)
    pad = longest - len(parts)
    ambient = [ambient_of(request, part, edition) for part in parts]
    columns = [NO_COLUMN if part.column is None else COLUMNS.index(part.column) for part in parts]
    return {
        "segment_length": [*(part.length for part in parts), *[0.0] * pad],
        "segment_ambient": [*ambient, *[303.15] * pad],
        "segment_counted": [*(own + part.counted for part in parts), *[1] * pad],
        "segment_raceway_length": [
            *(part.length if part.nipple else 1e6 for part in parts),
            *[1e6] * pad,
        ],
        "segment_column": [*columns, *[columns[0]] * pad],
    }


def size_name(index: int) -> str | None:
    """Return the name of a size by its place, None where there is none."""
    return sizes()[index] if 0 <= index < len(sizes()) else None
