"""One circuit sized by plain loops over sizes, written apart from the arrays."""

from __future__ import annotations

import math
from typing import Any

import numpy as np

from tests.checks.conductor_sizing.circuits import TABLES, Part
from tests.checks.conductor_sizing.table_arrays import CMIL, RATINGS, SIZES

STANDARD = [int(rating) for rating in RATINGS]
BANDS = [round(float(to) - 273.15) for to in TABLES.factors.ambient_to]


def device(amps: float) -> int:
    return next((one for one in STANDARD if one >= amps - 1e-9), 0)


def factor(part: Part) -> float:
    _, ambient, counted, column = part
    band = next((i for i, to in enumerate(BANDS) if ambient <= to + 1e-6), None)
    if band is None or math.isnan(TABLES.factors.ambient[band, column]):
        return 0.0
    company = next(
        float(f)
        for to, f in zip(TABLES.factors.counted_to, TABLES.factors.counted, strict=True)
        if counted <= to
    )
    return float(TABLES.factors.ambient[band, column]) * company


def under_conditions(size: int, material: int, parts: list[Part]) -> float:
    """Return the ampacity that governs the run: sort, then leave out a short low part."""
    amps = [float(TABLES.ampacity[material, part[3], size]) * factor(part) for part in parts]
    if min(amps) == 0:
        return 0.0
    total = sum(part[0] for part in parts)
    allowed = min(10.0, 0.1 * total)
    passed = 0.0
    for level in sorted(set(amps)):
        passed += sum(part[0] for part, one in zip(parts, amps, strict=True) if one == level)
        if passed > allowed + 1e-9:
            return level
    raise AssertionError("the whole run cannot be a short part of itself")


def scalar_size(given: dict[str, Any]) -> int:
    """Return the size of the circuit that `circuits.circuit` makes of the same; -1 for none."""
    amps, sets, material = given["amps"], given["sets"], given["material"]
    raised = 1.25 * amps
    rating = device(raised)
    if not rating:
        return -1
    columns = [(0 if rating <= 100 else 1) if one < 0 else one for one in given["marking"]]
    below = max((one for one in STANDARD if one < rating), default=0)
    for size in range(len(SIZES)):
        terminal = sets * float(TABLES.ampacity[material, min(columns), size])
        if math.isnan(terminal):
            continue
        conditions = sets * under_conditions(size, material, given["parts"])
        if terminal < raised - 1e-9 or conditions < amps - 1e-9:
            continue
        least = min(terminal, conditions)
        rounded = given["next_size"] and rating <= 800 and least > below + 1e-9
        if least < rating - 1e-9 and not rounded:
            continue
        if rating > TABLES.cap[material, size] or (sets > 1 and CMIL[size] < 105600):
            continue
        if drop(given, size) <= given["limit"] * (1 + 1e-12):
            return size
    return -1


def drop(given: dict[str, Any], size: int) -> float:
    metres = 0.3048 * sum(part[0] for part in given["parts"])
    # As hot as the tables have it, or as the load makes it: 60 K over the air at the full amps of
    # the 90 degC column. Coefficients of NEC Chapter 9, Table 8, note 2.
    hottest = max(part[1] for part in given["parts"] if part[0] > 0)
    share = (
        float(given["amps"])
        / int(given["sets"])
        / float(TABLES.ampacity[given["material"], 2, size])
    )
    celsius = min(max(75.0, hottest + 60.0 * share**2), 90.0)
    heat = 1 + (0.00323, 0.00330)[given["material"]] * (celsius - 75.0)
    r = float(TABLES.resistance[given["material"], given["wall"], size]) * heat
    x = float(TABLES.reactance[given["wall"], size])
    cosine = float(given["power_factor"])
    volts: complex = 2 * metres * complex(r, x) / int(given["sets"]) * float(given["amps"])
    volts *= complex(cosine, -math.sqrt(1 - cosine**2))
    if given["volts_at_load"]:
        return float(abs(240 + volts)) - 240
    if abs(volts.imag) > 240 or math.sqrt(240**2 - volts.imag**2) < volts.real:
        return math.inf
    return float(240 - (math.sqrt(240**2 - volts.imag**2) - volts.real))


def lanes_of(draws: list[dict[str, Any]]) -> dict[str, Any]:
    """Return many draws as the words of one call, one a lane."""
    plain = {
        name: np.array([one[name] for one in draws])
        for name in draws[0]
        if name not in ("parts", "marking")
    }
    marking = np.array([one["marking"] for one in draws])
    return plain | {"marking": marking, "parts": [one["parts"] for one in draws]}
