"""The raceway of every part of a run, for conductors of some sizes."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.answer import RacewayPart
from service.checks.conductor_sizing.parts import Part
from service.checks.conductor_sizing.raceway_fill import may_jam, raceway_fill
from service.published.insulated_conductors import (
    Insulation,
    bare_areas,
    insulated_areas,
    insulated_diameters,
)
from service.published.raceways import fill_limit, raceways
from service.published.table_arrays import FOOT

Floats = NDArray[np.float64]


class Pulled(NamedTuple):
    """The conductors of one set in one raceway: places of their sizes, -1 for none."""

    phase: int
    neutral: int
    ground: int
    insulation: Insulation


@cache
def _kinds() -> tuple[tuple[str, ...], tuple[str, ...], Floats, Floats]:
    """Return raceways, trade sizes of all, inside areas [m2] and diameters [m] by both."""
    names = tuple(raceways())
    every = {size for one in raceways().values() for size in one.trade_sizes}
    order = tuple(sorted(every, key=_inches))
    areas = np.full((len(names), len(order)), np.nan)
    diameters = areas.copy()
    for row, one in enumerate(raceways().values()):
        places = [order.index(size) for size in one.trade_sizes]
        areas[row, places], diameters[row, places] = one.inside_areas, one.inside_diameters
    return names, order, areas, diameters


def _inches(size: str) -> float:
    whole = 0.0
    for piece in size.split("-"):
        top, _, bottom = piece.partition("/")
        whole += float(top) / float(bottom or 1)
    return whole


def conduits(parts: list[Part], pulled: Pulled) -> list[RacewayPart]:
    """Return the raceway of every part: the smallest trade size that holds the conductors.

    Conductors of other circuits in it are of unknown size and take no room here.
    """
    names, order, areas, diameters = _kinds()
    limits = np.array([*fill_limit(np.array([1, 2, 3])), fill_limit(1, nipple=True)])
    counts, room = _room(pulled)
    found = []
    for part in parts:
        row = RacewayPart(
            place=part.place, way=part.way, length_ft=part.length / FOOT, trade_size=None
        )
        if part.way in names and counts.sum():
            kind = names.index(part.way)
            fill = raceway_fill(
                room[None], counts[None], np.array([[kind]]), areas, limits, part.nipple
            )
            size = int(fill.trade_size[0])
            row.allowed_percent = 100.0 * float(fill.allowed[0])
            if size >= 0:
                row.trade_size = order[size]
                row.filled_percent = 100.0 * float(fill.filled[0])
                larger = [s for s in range(size + 1, len(order)) if areas[kind, s] > 0]
                if larger:
                    row.next_percent = 100.0 * float((room * counts).sum() / areas[kind, larger[0]])
                three_equal = pulled.neutral == pulled.phase
                over = insulated_diameters(pulled.insulation)[pulled.phase]
                row.may_jam = three_equal and bool(may_jam(diameters[kind, size], over))
        found.append(row)
    return found


def _room(pulled: Pulled) -> tuple[NDArray[np.int64], Floats]:
    """Return how many of each kind of conductor, and the room that one takes [m2]."""
    over = insulated_areas(pulled.insulation)
    # A size without a printed room takes its bare one as far as it goes: it fits nowhere usual.
    over = np.where(np.isnan(over), bare_areas() * 2.0, over)
    sizes = [pulled.phase, pulled.neutral, pulled.ground]
    counts = [2 if pulled.phase >= 0 else 0, int(pulled.neutral >= 0), int(pulled.ground >= 0)]
    return np.array(counts), np.array([over[size] if size >= 0 else 0.0 for size in sizes])
