"""The tables of the code as arrays, put together for the sizing of conductors."""

from __future__ import annotations

from functools import cache

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.ac_resistance import (
    LARGER_OF_BOTH,
    ac_resistance,
    from_smaller,
)
from service.checks.conductor_sizing.circuit_lanes import CodeTables
from service.checks.conductor_sizing.equipment_ground import GroundTable
from service.checks.conductor_sizing.segment_factors import Factors
from service.published import conductor_resistance, conductors, load
from service.published.conductors import Material, TemperatureColumn
from service.published.equipment_grounding import grounding_size
from service.published.overcurrent_ratings import standard_ratings
from service.published.small_conductors import largest_protection
from service.published.table_arrays import at, column

MATERIALS: tuple[Material, ...] = ("copper", "aluminum")
COLUMNS: tuple[TemperatureColumn, ...] = (60, 75, 90)
#: Rows of the impedance tables.
WALLS: tuple[conductor_resistance.RacewayMaterial, ...] = ("pvc", "aluminum", "steel")
ZERO_CELSIUS = 273.15


@cache
def code_tables(edition: str) -> CodeTables:
    """Return the tables of an edition, by material, raceway and rising size [A, m2, ohm/m, K].

    Notes
    -----
    The larger of the tables for direct and for alternating current stands for the resistance.
    Source: tables ampacity, small_conductor_protection, conductor_properties, ac_impedance,
    overcurrent_ratings, ambient_correction, bundling_adjustment, equipment_grounding.
    """
    area = conductors.areas()
    small = np.arange(area.size) <= conductors.index_of("1")
    resistance = [
        [
            ac_resistance(
                conductor_resistance.dc_resistance(material),
                conductor_resistance.ac_resistance(material, wall),
                small,
                LARGER_OF_BOTH,
            )
            for wall in WALLS
        ]
        for material in MATERIALS
    ]
    caps = np.stack([largest_protection(material) for material in MATERIALS])
    return CodeTables(
        area=area,
        ampacity=np.stack(
            [[conductors.ampacities(material, c) for c in COLUMNS] for material in MATERIALS]
        ),
        cap=np.where(np.isnan(caps), _uncapped(), caps),
        parallel_size=np.arange(area.size) >= conductors.index_of("1/0"),
        resistance=np.array(resistance),
        reactance=np.stack([from_smaller(conductor_resistance.reactance(wall)) for wall in WALLS]),
        ratings=standard_ratings(edition),
        factors=_factors(),
        ground=_ground(area),
    )


def _uncapped() -> NDArray[np.float64]:
    """Return infinite, and below any rating where a material has no such size, shape (M, N)."""
    none = np.stack([np.isnan(conductors.ampacities(material, 75)) for material in MATERIALS])
    return np.where(none, -np.inf, np.inf)


def _factors() -> Factors:
    ambient, company = load("ambient_correction").rows, load("bundling_adjustment").rows
    counted_to = column("bundling_adjustment", company, "most")
    return Factors(
        column("ambient_correction", ambient, "most") + ZERO_CELSIUS,
        np.stack([column("ambient_correction", ambient, f"degc_{c}") for c in COLUMNS], axis=1),
        np.where(np.isnan(counted_to), np.inf, counted_to),
        column("bundling_adjustment", company, "factor"),
    )


def _ground(area: NDArray[np.float64]) -> GroundTable:
    rows = load("equipment_grounding").rows
    keys = [key for key, row in rows.items() if row["material"] == "copper"]
    ratings = column("equipment_grounding", keys, "most")
    ladders = [
        np.where(np.isnan(conductors.ampacities(material, 75)), np.nan, area)
        for material in MATERIALS
    ]
    sizes = [at(area, grounding_size(ratings, material)) for material in MATERIALS]
    return GroundTable(ratings, np.stack(sizes), np.stack(ladders))
