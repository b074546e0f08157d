"""The lanes of one request: every reading, corner and alternative, laid out once.

All of them run in one call of the outage engine. A *triple* is what a verdict takes: the strict
lane (high use, end of warranty, from the start charge) and the relaxed lane (typical use, now,
from full) with every default at its worse end, and the relaxed lane with defaults as they stand.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from itertools import product
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.day_profile import (
    HIGH,
    HIGH_ROW_LOW,
    LOW,
    TYPICAL,
    TYPICAL_ROW_HIGH,
    TYPICAL_ROW_LOW,
)

Ints = NDArray[np.int64]

#: Parameters that may be defaults, in the order of the `parameters` array.
PARAMETERS = (
    "depth_of_discharge",
    "round_trip_efficiency",
    "idle_w",
    "end_of_warranty_retention",
    "warranty_years",
    "ambient_degf",
    "floor_percent",
    "reserve_percent",
)
#: Of the weather, in the course of a year alone: parameters that may be defaults, in this order.
SUN_PARAMETERS = ("system_losses_percent", "shading_percent", "yield_factor", "outdoor_offset")
VALUE, WORSE, BETTER = range(3)
NOW, END_OF_WARRANTY = range(2)
#: From the start charge; from full; from full unless the start charge was stated.
FROM_START, FROM_FULL, FROM_BEST = range(3)
CONTROL_AS_STATED, CONTROL_NONE, CONTROL_USUAL = range(3)
MOST_UNITS = 20
#: Points by which the alternative lowers the reserve.
RESERVE_STEP = 0.20


@dataclass(frozen=True, slots=True)
class Lane:
    """One simulation: how it departs from the request as it stands."""

    use: int = TYPICAL
    age: int = NOW
    start: int = FROM_START
    hour: int = -1
    ends: tuple[int, ...] = (VALUE,) * len(PARAMETERS)
    sun: tuple[int, ...] = (VALUE,) * len(SUN_PARAMETERS)
    more_units: int = 0
    units: int = 0
    tiers_off: int = 0
    control: int = CONTROL_AS_STATED
    reserve_less: float = 0.0
    energy_scale: float = 1.0
    power_scale: float = 1.0
    heat: int = 0


def _ends(end: int, pinned: tuple[str, int] | None) -> dict[str, Any]:
    """Return the ends of all parameters, one of them pinned; the worse end is in the heat."""

    def of(names: tuple[str, ...]) -> tuple[int, ...]:
        return tuple(pinned[1] if pinned and pinned[0] == name else end for name in names)

    return {"ends": of(PARAMETERS), "sun": of(SUN_PARAMETERS), "heat": int(end == WORSE)}


class Triple(NamedTuple):
    """Lane numbers that a verdict takes, and the typical lane shown beside it.

    ``without`` is the strict lane without load control: a pass that only load control gives is
    conditional.
    """

    strict: int
    relaxed: int
    relaxed_default: int
    without: int
    typical: int


@dataclass(slots=True)
class Layout:
    """All lanes, and where each stands.

    ``readings`` are use by age by start with the values as they stand, ``hardest`` the same with
    every default at its worse end, ``plain`` the number of lanes that an outage takes which is
    the same on every day of a season; the rest move the sun.
    """

    lanes: list[Lane] = field(default_factory=list)
    triples: dict[str, Triple] = field(default_factory=dict)
    readings: dict[tuple[int, int, int], int] = field(default_factory=dict)
    hardest: dict[tuple[int, int, int], int] = field(default_factory=dict)
    units: list[int] = field(default_factory=list)
    single: dict[str, int] = field(default_factory=dict)
    plain: int = 0

    def add(self, lane: Lane) -> int:
        """Append the lane and return its number."""
        self.lanes.append(lane)
        return len(self.lanes) - 1

    def add_triple(
        self,
        name: str,
        base: Lane,
        pinned: tuple[str, int] | None = None,
        uses: tuple[int, int] = (HIGH, TYPICAL),
    ) -> None:
        """Append the lanes of a verdict under `base`, one parameter pinned to one end."""
        worst, stands = _ends(WORSE, pinned), _ends(VALUE, pinned)
        strict, typical = uses
        best = FROM_FULL if base.start == FROM_FULL else FROM_BEST
        relaxed = replace(base, use=typical, age=NOW, start=best)
        hardest = replace(base, use=strict, age=END_OF_WARRANTY, **worst)
        self.triples[name] = Triple(
            self.add(hardest),
            self.add(replace(relaxed, **worst)),
            self.add(replace(relaxed, **stands)),
            self.add(replace(hardest, control=CONTROL_NONE)),
            self.add(replace(base, use=typical, **stands)),
        )

    def table(self) -> LaneTable:
        """Return the lanes as arrays."""
        return LaneTable(
            *(np.array([getattr(lane, name) for lane in self.lanes]) for name in _FIELDS)
        )

    def shown(self) -> NDArray[np.bool_]:
        """Return which lanes show their hours; the others are held against the target alone."""
        found = np.zeros(len(self.lanes), dtype=np.bool_)
        base = self.triples.get("base")
        found[[triple.typical for triple in self.triples.values()]] = True
        found[[*self.readings.values(), *self.single.values(), *self.units[-1:]]] = True
        if base is not None:
            found[list(base)] = True
        return found

    def at_own_hour(self) -> Ints:
        """Return the numbers of the lanes that start at the request's own hour."""
        return np.array([at for at, lane in enumerate(self.lanes) if lane.hour < 0])


@dataclass(frozen=True, slots=True)
class LaneTable:
    """Fields of L lanes as arrays of shape (L,), `ends` (L, parameters); see `Lane`."""

    use: Ints
    age: Ints
    start: Ints
    hour: Ints
    ends: Ints
    sun: Ints
    more_units: Ints
    units: Ints
    tiers_off: Ints
    control: Ints
    reserve_less: NDArray[np.float64]
    energy_scale: NDArray[np.float64]
    power_scale: NDArray[np.float64]
    heat: Ints

    def some(self, at: Ints | slice) -> LaneTable:
        """Return some of the lanes."""
        return LaneTable(*(getattr(self, name)[at] for name in _FIELDS))


_FIELDS = tuple(LaneTable.__slots__)


def _lay_out() -> Layout:
    layout = Layout()
    for use, age, start in product((LOW, TYPICAL, HIGH), (NOW, END_OF_WARRANTY), (0, 1)):
        layout.readings[use, age, start] = layout.add(Lane(use=use, age=age, start=start))
    worst = _ends(WORSE, None)
    for use, age, start in product((TYPICAL, HIGH), (NOW, END_OF_WARRANTY), (0, 1)):
        best = FROM_BEST if start else FROM_START
        layout.hardest[use, age, start] = layout.add(Lane(use=use, age=age, start=best, **worst))
    layout.add_triple("base", Lane())
    for name, end in product(PARAMETERS, (WORSE, BETTER)):
        layout.add_triple(f"{name}/{end}", Lane(), pinned=(name, end))
    for hour in range(24):
        layout.add_triple(f"hour/{hour}", Lane(hour=hour))
    layout.add_triple("one-more-unit", Lane(more_units=1))
    layout.add_triple("comfort-left-out", Lane(tiers_off=1))
    layout.add_triple("critical-alone", Lane(tiers_off=2))
    layout.add_triple("from-full", Lane(start=FROM_FULL))
    layout.add_triple("lower-reserve", Lane(reserve_less=RESERVE_STEP))
    layout.add_triple("no-load-control", Lane(control=CONTROL_NONE))
    layout.add_triple("with-load-control", Lane(control=CONTROL_USUAL))
    layout.add_triple("row-watts-low", Lane(), uses=(HIGH_ROW_LOW, TYPICAL_ROW_LOW))
    layout.add_triple("row-watts-high", Lane(), uses=(HIGH, TYPICAL_ROW_HIGH))
    layout.single["more-energy"] = layout.add(Lane(energy_scale=1.1))
    layout.single["more-power"] = layout.add(Lane(power_scale=1.1))
    strict = Lane(use=HIGH, age=END_OF_WARRANTY)
    layout.units = [layout.add(replace(strict, units=n)) for n in range(1, MOST_UNITS + 1)]
    layout.plain = len(layout.lanes)
    for name, end in product(SUN_PARAMETERS, (WORSE, BETTER)):
        layout.add_triple(f"{name}/{end}", Lane(), pinned=(name, end))
    return layout


def _verdict_layout() -> Layout:
    layout = Layout()
    layout.add_triple("base", Lane())
    layout.plain = len(layout.lanes)
    return layout


#: Everything an answer shows.
LAYOUT = _lay_out()
TABLE = LAYOUT.table()
PLAIN_TABLE = TABLE.some(slice(LAYOUT.plain))
#: The verdict alone, for many requests at once.
VERDICT_LAYOUT = _verdict_layout()
VERDICT_TABLE = VERDICT_LAYOUT.table()
