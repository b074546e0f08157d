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
from service.published.raceway_places import raceway_places
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
        least = _inches(raceway_places()[one.id].least_trade_size)
        held = [at for at, size in enumerate(one.trade_sizes) if _inches(size) >= least]
        places = [order.index(one.trade_sizes[at]) for at in held]
        areas[row, places] = one.inside_areas[held]
        diameters[row, places] = one.inside_diameters[held]
    return names, order, areas, diameters


def _inches(size: str) -> float:
    whole = 0.0
    for piece in size.split("-"):
        top, _, bottom = piece.partition("/")
        whole += float(top) / float(bottom or 1)
    return whole


def conduits(parts: list[Part], pulled: Pulled) -> list[RacewayPart]:
    """Return the raceway of every part: the smallest trade size that holds the conductors.

    Where three equal ones, phases with a neutral or a ground of their size, may jam in its bends,
    the next trade size is taken.
    Conductors of other circuits in it are of unknown size and take no room here.
    """
    names, order, areas, diameters = _kinds()
    counts, room = _room(pulled)
    found = [
        RacewayPart(place=part.place, way=part.way, length_ft=part.length / FOOT, trade_size=None)
        for part in parts
    ]
    held = [(row, part) for row, part in zip(found, parts, strict=True) if part.way in names]
    if not held or not counts.sum():
        return found
    kinds = np.array([names.index(part.way) for _, part in held])
    many = len(held)
    fill = raceway_fill(
        np.broadcast_to(room, (many, room.size)),
        np.broadcast_to(counts, (many, counts.size)),
        kinds[:, None],
        areas,
        _limits(),
        np.array([part.nipple for _, part in held]),
    )
    taken = float((room * counts).sum())
    three_equal = pulled.phase in (pulled.neutral, pulled.ground)
    over = insulated_diameters(pulled.insulation)[pulled.phase]
    for lane, (row, _) in enumerate(held):
        kind, size = int(kinds[lane]), int(fill.trade_size[lane])
        row.allowed_percent = 100.0 * float(fill.allowed[lane])
        if size < 0:
            continue
        jams = three_equal & may_jam(diameters[kind], over)
        wider = [at for at in range(size, len(order)) if areas[kind, at] > 0]
        free = [at for at in wider if not jams[at]] or wider[:1]
        row.may_jam = bool(jams[free[0]])
        row.jams_in = order[size] if jams[size] and not row.may_jam else None
        row.trade_size = order[free[0]]
        row.filled_percent = 100.0 * taken / float(areas[kind, free[0]])
        row.next_percent = 100.0 * taken / float(areas[kind, free[1]]) if free[1:] else None
    return found


@cache
def _limits() -> Floats:
    """Return the parts that one conductor, two, more, and any number in a nipple may fill [1]."""
    return np.array([*fill_limit(np.array([1, 2, 3])), float(fill_limit(1, nipple=True))])


def _room(pulled: Pulled) -> tuple[NDArray[np.int64], Floats]:
    """Return how many of each kind of conductor, and the room that one takes [m2]."""
    over = insulated_areas(pulled.insulation)
    # A size without a printed room takes its bare one as far as it goes: it fits nowhere usual.
    over = np.where(np.isnan(over), bare_areas() * 2.0, over)
    sizes = [pulled.phase, pulled.neutral, pulled.ground]
    counts = [2 if pulled.phase >= 0 else 0, int(pulled.neutral >= 0), int(pulled.ground >= 0)]
    return np.array(counts), np.array([over[size] if size >= 0 else 0.0 for size in sizes])
