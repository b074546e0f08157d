"""Rounds of a battery alone: every lane goes to its next event or to the end of its interval."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_lanes import Lanes
from service.physics.outage_power_limit import POWER_TOLERANCE, add_classes, apply_power_limit
from service.physics.outage_run import EventBudgetExceeded
from service.physics.outage_schedule import Schedule
from service.physics.outage_trace import Trace

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


@dataclass(frozen=True, slots=True)
class Converter:
    """Between the cells and the bus; every array of shape (N,).

    Attributes
    ----------
    fixed, linear, square : ndarray
        Draw on the cells as a quadratic in discharged AC power [W, 1, 1/W].
    charge_efficiency : ndarray
        Stored energy per AC energy taken for charging [1].
    discharge_limit, charge_limit : ndarray
        Largest AC power out and in [W]; may be infinite.
    sheds_tiers : ndarray of bool
        Whether the power limit drops whole tiers (True) or all classes in proportion (False).
    """

    fixed: Floats
    linear: Floats
    square: Floats
    charge_efficiency: Floats
    discharge_limit: Floats
    charge_limit: Floats
    sheds_tiers: Flags


class Firsts:
    """First times at which something happens, by row and lane [s]."""

    def __init__(self, rows: int, lanes: int) -> None:
        self.time = np.zeros((rows, lanes))
        self.seen = np.zeros((rows, lanes), dtype=np.bool_)

    def record(self, where: Flags, time: Floats) -> None:
        """Keep `time` where something happens that was not seen before."""
        new = where & ~self.seen
        np.copyto(self.time, time, where=new)
        self.seen |= new


class Rounds:
    """Simulation of a battery without source.

    Notes
    -----
    Lanes do not step in time with each other: each reads its own interval, so that an event of one
    lane costs the others nothing. Everything is element by element; a lane alone and in a batch
    goes through the same arithmetic.
    """

    def __init__(
        self, schedule: Schedule, lanes: Lanes, converter: Converter, trace: Trace | None
    ) -> None:
        classes, count = schedule.classes, schedule.lanes
        self.schedule, self.lanes, self.converter, self.trace = schedule, lanes, converter, trace
        self.curved = bool(np.any(converter.square))
        self.limit = converter.discharge_limit + POWER_TOLERANCE
        self.row = np.zeros(count, dtype=np.intp)
        self.dark_since = schedule.horizon.copy()
        self.dark_row = np.zeros(count, dtype=np.intp)
        self.open = np.ones(count, dtype=np.bool_)
        self.rounds = 0
        self.budget = schedule.intervals + classes
        self.is_bounded = False
        self.events = np.zeros(count, dtype=np.int64)
        self.served = np.zeros((classes, count))
        self.unserved = np.zeros((classes, count))
        self.loss = np.zeros(count)
        self.limited_time = np.zeros(count)
        self.first_off = Firsts(classes, count)
        self.first_drop = Firsts(classes - 1, count)
        self.first_limit = Firsts(1, count)
        self.first_overload = Firsts(1, count)
        self.first_down = Firsts(1, count)
        self.watch = np.zeros((classes, count), dtype=np.bool_)
        self.wanted = np.empty((classes, count))
        self.work = np.empty((classes, count))
        self.done = np.empty((classes, count))
        self.total = np.empty(count)
        self.net = self.total
        self.draw = np.empty(count)
        self.step = np.empty(count)
        self.move = np.empty(count)
        self.room = np.empty(count)
        self.landing = np.empty(count)
        self.hit = np.zeros(count, dtype=np.bool_)
        self.limited = np.zeros(count, dtype=np.bool_)
        self.dropped = np.zeros((classes - 1, count), dtype=np.bool_)

    def run(self) -> None:
        """Go through the whole outage."""
        self.first_down.record(~self.lanes.up[np.newaxis], self.lanes.time)
        self._retire()
        self._watch()
        while np.count_nonzero(np.less(self.row, self.schedule.intervals, out=self.open)):
            self.rounds += 1
            if self.rounds > self.budget:
                self._check_budget()
            self.schedule.read(self.row)
            self._ask()
            self._draw_on_cells()
            self._find_events()
            self._account()
            self._advance()
            self._retire()
        self._close()

    def event_bound(self) -> int:
        """Largest number of events that a lane can have: each tier goes once, the bus once."""
        return self.schedule.classes

    def _check_budget(self) -> None:
        if not self.is_bounded:
            self.budget = self.schedule.intervals + self.event_bound()
            self.is_bounded = True
        if self.rounds > self.budget:
            raise EventBudgetExceeded(f"No end after {self.budget} rounds.")

    def _ask(self) -> None:
        """Power asked for by what is on, and what the inverter carries of it [W]."""
        np.multiply(self.schedule.load, self.lanes.on, out=self.wanted)
        add_classes(self.wanted, self.total)
        self._limit(None)

    def _limit(self, supply: Floats | None) -> None:
        np.greater(self.net, self.limit, out=self.limited)
        self.is_limited = bool(np.count_nonzero(self.limited))
        if not self.is_limited:
            return
        alone = self.wanted[0] if supply is None else self.wanted[0] - supply
        self.alone_too_much = self.limited & (alone > self.limit)
        self.dropped = apply_power_limit(
            self.limited,
            self.converter.sheds_tiers,
            self.wanted,
            self.total,
            self.net,
            supply,
            self.converter.discharge_limit,
        )

    def _discharge_draw(self, power: Floats) -> None:
        """Draw on the cells for AC power out [W]."""
        if self.curved:
            np.multiply(power, self.converter.square, out=self.draw)
            np.add(self.draw, self.converter.linear, out=self.draw)
            np.multiply(self.draw, power, out=self.draw)
        else:
            np.multiply(power, self.converter.linear, out=self.draw)
        np.add(self.draw, self.lanes.standby, out=self.draw)

    def _draw_on_cells(self) -> None:
        self._discharge_draw(self.total)

    def _find_events(self) -> None:
        """Time to the next event of each lane, or to its interval's end [s]."""
        lanes = self.lanes
        np.subtract(self.schedule.end, lanes.time, out=self.step)
        np.multiply(self.draw, self.step, out=self.move)
        np.subtract(lanes.energy, lanes.reach_low, out=self.room)
        np.greater(self.move, self.room, out=self.hit)
        self.is_hit = bool(np.count_nonzero(self.hit))
        if self.is_hit:
            self._fall_to(self.hit)

    def _fall_to(self, falls: Flags) -> None:
        """Stop the lanes that fall to a threshold there: step, energy moved, landing."""
        lanes = self.lanes
        np.minimum(lanes.energy, lanes.next_low, out=self.landing)
        np.subtract(lanes.energy, self.landing, out=self.room)
        np.copyto(self.move, self.room, where=falls)
        np.divide(self.room, self.draw, out=self.step, where=falls)

    def _account(self) -> None:
        """Add up the energies of the round, and note what is first seen in it."""
        np.multiply(self.schedule.load, self.step, out=self.work)
        np.multiply(self.wanted, self.step, out=self.done)
        np.add(self.served, self.done, out=self.served)
        if self.watching:
            self._watch_off()
        np.subtract(self.work, self.done, out=self.work)
        np.add(self.unserved, self.work, out=self.unserved)
        self._account_loss()
        if self.is_limited:
            self._account_limit()

    def _account_loss(self) -> None:
        np.subtract(self.draw, self.net, out=self.room)
        np.multiply(self.room, self.step, out=self.room)
        np.add(self.loss, self.room, out=self.loss)

    def _account_limit(self) -> None:
        lasts = self.limited & (self.step > 0.0)
        self.limited_time += np.where(lasts, self.step, 0.0)
        self.first_overload.record((lasts & self.alone_too_much)[np.newaxis], self.lanes.time)
        self.first_limit.record(lasts[np.newaxis], self.lanes.time)
        self.first_drop.record(self.dropped & lasts, self.lanes.time)
        if self.trace is not None:
            self.trace.power_shed(self.lanes, lasts, self.work > 0.0)

    def _watch(self) -> None:
        """Look out for classes that are off and were never missed so far."""
        np.equal(self.lanes.on, 0.0, out=self.watch)
        np.greater(self.watch, self.first_off.seen, out=self.watch)
        self.watching = bool(np.count_nonzero(self.watch))

    def _watch_off(self) -> None:
        missed = np.greater(self.work, 0.0)
        np.logical_and(missed, self.watch, out=missed)
        if np.count_nonzero(missed):
            self.first_off.record(missed, self.lanes.time)
            self._watch()

    def _advance(self) -> None:
        lanes = self.lanes
        np.subtract(lanes.energy, self.move, out=lanes.energy)
        if not self.is_hit:
            np.copyto(lanes.time, self.schedule.end)
            np.add(self.row, 1, out=self.row)
        else:
            self._land()
            self._happen()
            lanes.settle()
            self._watch()
        if self.trace is not None:
            self.trace.record(lanes, self.hit, self.open)

    def _land(self) -> None:
        """Put every lane at its interval's end or exactly at its event."""
        lanes = self.lanes
        goes_on = ~self.hit
        np.add(lanes.time, self.step, out=lanes.time)
        np.copyto(lanes.time, self.schedule.end, where=goes_on)
        np.copyto(lanes.energy, self.landing, where=self.hit)
        np.add(self.row, goes_on, out=self.row)
        np.add(self.events, self.hit, out=self.events)

    def _happen(self) -> None:
        self._descend(self.hit)

    def _descend(self, falls: Flags) -> None:
        self.lanes.descend(falls)
        if np.count_nonzero(self.lanes.lost):
            self.first_down.record(self.lanes.lost[np.newaxis], self.lanes.time)

    def _retire(self) -> None:
        """Take lanes out whose bus is down, for there is nothing to bring it back."""
        if not self.rounds:
            self._park(~self.lanes.up)
        elif self.is_hit and np.count_nonzero(self.lanes.lost):
            self._park(self.lanes.lost)

    def _park(self, gone: Flags) -> None:
        """Put lanes at their end; `_close` accounts for the time that they skip."""
        np.copyto(self.dark_since, self.lanes.time, where=gone)
        np.copyto(self.dark_row, self.row, where=gone)
        np.copyto(self.lanes.time, self.schedule.horizon, where=gone)
        np.copyto(self.row, self.schedule.intervals, where=gone)
        if self.trace is not None:
            self.trace.park(self.lanes, gone)

    def _close(self) -> None:
        """Account for the time that parked lanes spend in the dark."""
        self.dark = self.schedule.horizon - self.dark_since
        if not np.count_nonzero(self.dark):
            return
        spans = self.schedule.remaining(self.dark_since)
        self.unserved += self.schedule.energy_asked(spans)
        self.schedule.read(self.dark_row)
        asked = (self.schedule.load > 0.0) & (self.schedule.end > self.dark_since)
        self.first_off.record(asked & (self.dark > 0.0), self.dark_since)
        if np.count_nonzero((self.dark > 0.0) & ~self.first_off.seen):
            time, asked = self.schedule.first_asked(spans, self.dark_since)
            self.first_off.record(asked, time)
