"""Course of an outage, one scenario at a time: the independent reference of the outage engine.

Plain numbers, one event after the other, in kWh, kW and hours. Every operation is +, -, *, / or a
comparison, so that it runs on `fractions.Fraction` as well as on `float`; on fractions it is exact
and needs no tolerance anywhere.

Source: derived here from the energy balance of the AC bus; the rules at the thresholds are those
that the engine states in its notes.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

Number = float | Fraction
Interval = tuple[Any, Sequence[Any], Any, Any]  # hours, kW by class, source kW, generator kW


@dataclass
class Home:
    """A battery and what hangs on it; `None` stands for unlimited or absent."""

    capacity: Any
    start: Any
    floor: Any = 0
    fixed: Any = 0
    linear: Any = 1
    square: Any = 0
    charge_efficiency: Any = 1
    discharge_limit: Any = None
    charge_limit: Any = None
    tiers: Sequence[tuple[Any, Any]] = ()  # (shed at, restore at) of class 1, 2, ...
    proportional: bool = False
    black_start: Any = None
    delay: Any = 0
    excludes: bool = True


@dataclass
class Course:
    """What happened; a time that never came is None."""

    classes: int
    first_loss: Any = None
    first_off_energy: list[Any] = field(default_factory=list)
    first_off_power: list[Any] = field(default_factory=list)
    first_power_limit: Any = None
    full_first: Any = None
    served: list[Any] = field(default_factory=list)
    unserved: list[Any] = field(default_factory=list)
    source_used: Any = 0
    curtailed: Any = 0
    lost_source: Any = 0
    generator_used: Any = 0
    loss: Any = 0
    down_time: Any = 0
    limited_time: Any = 0
    overload: bool = False
    restarts: int = 0
    end: Any = 0
    least: Any = 0
    happenings: list[tuple[Any, str, int]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.first_off_energy = [None] * (self.classes - 1)
        self.first_off_power = [None] * (self.classes - 1)
        self.served = [0] * self.classes
        self.unserved = [0] * self.classes


@dataclass
class Flow:
    """Powers on the bus while it is up and nothing changes."""

    served: list[Any]
    discharge: Any
    charge: Any
    refused: Any
    rate: Any
    limited: bool
    dropped: set[int]
    full: bool


class Outage:
    """One scenario under way."""

    def __init__(self, home: Home, classes: int) -> None:
        self.home = home
        self.course = Course(classes)
        self.energy = home.start
        self.time: Any = 0
        self.up = home.start > home.floor
        self.waited: Any = 0
        self.on = [
            home.start > home.tiers[k][0] if k < len(home.tiers) else True
            for k in range(classes - 1)
        ]
        self.course.least = home.start

    def run(self, intervals: Sequence[Interval]) -> Course:
        for hours, loads, source, generator in intervals:
            bus = 0 if self.home.excludes and generator > 0 else source
            left = hours
            while left > 0:
                live = self._up if self.up else self._down
                left -= live(left, loads, source, bus, generator)
        self.course.end = self.energy
        return self.course

    def _down(self, left: Any, loads: Sequence[Any], source: Any, bus: Any, generator: Any) -> Any:
        home, course = self.home, self.course
        asked = loads[0] + sum(p for p, on in zip(loads[1:], self.on, strict=True) if on)
        surplus = bus + generator - asked
        if home.charge_limit is not None:
            surplus = min(surplus, home.charge_limit)
        covers = surplus * home.charge_efficiency >= home.fixed
        sun = home.black_start is not None and bus > 0 and bus >= home.black_start
        wait = 0 if generator > 0 else max(home.delay - self.waited, 0)
        back = covers and (sun or generator > 0) and wait < left
        hours = wait if back else left
        if hours > 0:
            for k, power in enumerate(loads):
                course.unserved[k] += power * hours
                if power > 0:
                    self._miss(k)
        course.lost_source += source * hours
        course.down_time += hours
        self.waited = self.waited + hours if sun else 0
        self.time += hours
        if back:
            self.up = True
            course.restarts += 1
            course.happenings.append((self.time, "restart", -1))
        return hours

    def _up(self, left: Any, loads: Sequence[Any], source: Any, bus: Any, generator: Any) -> Any:
        course = self.course
        flow = self._flow(loads, bus + generator)
        hours, event, k = self._next(flow, left)
        if hours > 0:
            self._record(flow, loads)
        self._add(flow, hours, loads, source, bus, generator)
        self.energy += flow.rate * hours
        self.time += hours
        self._happen(event, k)
        course.least = min(course.least, self.energy)
        return hours

    def _flow(self, loads: Sequence[Any], supply: Any) -> Flow:
        home = self.home
        served = [loads[0]] + [p if on else 0 for p, on in zip(loads[1:], self.on, strict=True)]
        limit = home.discharge_limit
        limited = limit is not None and sum(served) - supply > limit
        dropped: set[int] = set()
        if limited and not home.proportional:
            for k in range(len(served) - 1, 0, -1):
                if sum(served) - supply > limit:
                    if served[k] > 0:
                        dropped.add(k)
                    served[k] = 0
        if limited and sum(served) - supply > limit:
            share = (limit + supply) / sum(served)
            served = [p * share for p in served]
            discharge = limit
            surplus: Any = 0
        else:
            discharge = max(sum(served) - supply, 0)
            surplus = max(supply - sum(served), 0)
        charge = surplus if home.charge_limit is None else min(surplus, home.charge_limit)
        draw = home.fixed + home.linear * discharge + home.square * discharge * discharge
        rate = home.charge_efficiency * charge - draw
        full = self.energy >= home.capacity and rate >= 0 and surplus > 0
        if full:
            charge, rate = home.fixed / home.charge_efficiency, 0
        return Flow(served, discharge, charge, surplus - charge, rate, limited, dropped, full)

    def _next(self, flow: Flow, left: Any) -> tuple[Any, str, int]:
        """Soonest event strictly before the interval's end; of equal ones the first listed."""
        home = self.home
        due: list[tuple[Any, str, int]] = []
        if flow.rate < 0:
            for k in range(len(home.tiers) - 1, -1, -1):
                if self.on[k]:
                    due.append(((self.energy - home.tiers[k][0]) / -flow.rate, "shed", k))
            due.append(((self.energy - home.floor) / -flow.rate, "empty", -1))
        for k, (shed, restore) in enumerate(home.tiers):
            level = min(restore, home.capacity)
            if self.on[k] or level <= shed:
                continue
            if flow.full:
                due.append((0, "restore", k))
            elif flow.rate > 0:
                due.append(((level - self.energy) / flow.rate, "restore", k))
        if flow.rate > 0:
            due.append(((home.capacity - self.energy) / flow.rate, "full", -1))
        due = [(max(hours, 0), event, k) for hours, event, k in due]
        first = min(due, key=lambda one: one[0], default=(left, "", -1))
        return first if first[0] < left else (left, "", -1)

    def _record(self, flow: Flow, loads: Sequence[Any]) -> None:
        course = self.course
        for k, on in enumerate(self.on):
            if not on and loads[k + 1] > 0:
                self._miss(k + 1)
            if k + 1 in flow.dropped and course.first_off_power[k] is None:
                course.first_off_power[k] = self.time
        if flow.full and course.full_first is None:
            course.full_first = self.time
        if flow.limited and course.first_power_limit is None:
            course.first_power_limit = self.time

    def _miss(self, k: int) -> None:
        course = self.course
        if k == 0:
            course.first_loss = self.time if course.first_loss is None else course.first_loss
        elif course.first_off_energy[k - 1] is None:
            course.first_off_energy[k - 1] = self.time

    def _add(
        self, flow: Flow, hours: Any, loads: Sequence[Any], source: Any, bus: Any, generator: Any
    ) -> None:
        course, home = self.course, self.home
        for k, power in enumerate(flow.served):
            course.served[k] += power * hours
            course.unserved[k] += (loads[k] - power) * hours
        idle = min(flow.refused, generator)
        course.generator_used += (generator - idle) * hours
        course.curtailed += (flow.refused - idle) * hours
        course.source_used += (bus - (flow.refused - idle)) * hours
        course.lost_source += (source - bus) * hours
        course.loss += (flow.charge - flow.discharge - flow.rate) * hours
        if flow.limited:
            course.limited_time += hours
            excess = loads[0] - bus - generator > home.discharge_limit
            course.overload = course.overload or (excess and hours > 0)

    def _happen(self, event: str, k: int) -> None:
        home = self.home
        if not event:
            return
        self.course.happenings.append((self.time, event, k))
        if event == "shed":
            self.on[k] = False
            self.energy = min(self.energy, home.tiers[k][0])
        elif event == "restore":
            self.on[k] = True
        elif event == "empty":
            self.up = False
            self.waited = 0
        elif event == "full":
            self.energy = home.capacity


def follow(intervals: Sequence[Interval], home: Home) -> Course:
    """Follow an outage over intervals of constant power.

    Intervals are (hours, kW by class, source kW, generator kW); class 0 is critical, the last has
    the lowest priority.
    """
    return Outage(home, len(intervals[0][1])).run(intervals)
