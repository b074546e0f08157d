"""Rounds of a battery beside a source or a generator: charging, the full battery, restarts."""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_lanes import Lanes
from service.physics.outage_power_limit import add_classes
from service.physics.outage_rounds import Converter, Firsts, Rounds
from service.physics.outage_schedule import Schedule
from service.physics.outage_trace import Trace

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

TIME_TOLERANCE: Final = 1e-6
"""Time before an interval's end within which a restart waits for the next one [s] (own choice)."""


class SourcedRounds(Rounds):
    """Simulation of a battery with a source, a generator or both.

    Notes
    -----
    The source goes first and the generator follows the demand: what is not taken is the
    generator's unused power up to all of it, and only beyond that refused source.
    """

    def __init__(
        self,
        schedule: Schedule,
        lanes: Lanes,
        converter: Converter,
        trace: Trace | None,
        black_start_power: Floats,
        black_start_delay: Floats,
    ) -> None:
        super().__init__(schedule, lanes, converter, trace)
        count = schedule.lanes
        self.black_start_power = black_start_power
        self.black_start_delay = black_start_delay
        self.last_restart = schedule.last_supply(black_start_power)
        self.hold_power = converter.fixed / converter.charge_efficiency
        self.net = np.empty(count)
        self.out = np.empty(count)
        self.charge = np.empty(count)
        self.spill = np.empty(count)
        self.flow = np.empty(count)
        self.waited = np.zeros(count)
        self.down_time = np.zeros(count)
        self.source_used = np.zeros(count)
        self.curtailed = np.zeros(count)
        self.lost_source = np.zeros(count)
        self.generator_used = np.zeros(count)
        self.min_energy = lanes.energy.copy()
        self.full = Firsts(1, count)
        self.falls = np.zeros(count, dtype=np.bool_)
        self.rises = np.zeros(count, dtype=np.bool_)
        self.starts = np.zeros(count, dtype=np.bool_)
        self.held = np.zeros(count, dtype=np.bool_)
        self.waiting = np.zeros(count, dtype=np.bool_)
        self.is_down = True
        self.is_hit = False
        self.pressing = np.zeros(count, dtype=np.bool_)

    def event_bound(self) -> int:
        """Upper bound of the events of any lane.

        A restore needs a climb from the tier's shed level to its restore level, and the source can
        lift the energy only so far. Every shed but the first of a tier follows a restore, a full
        battery leaves that state, and the bus is lost a second time, only after a restore or a
        change of interval.
        """
        power = np.minimum(self.schedule.supply_power(), self.converter.charge_limit)
        lift = np.sum(power * self.schedule.durations, axis=0) * self.converter.charge_efficiency
        band = self.lanes.restore_at - self.lanes.leave_at[1:] - 2.0 * self.lanes.tolerance
        narrow = np.where(np.isfinite(band), band, np.inf)
        restores = np.sum(lift / narrow + 1.0, axis=0)
        rest = 4 * (self.schedule.intervals + len(narrow) + 1)
        return int(np.max(5.0 * restores)) + rest

    def _ask(self) -> None:
        np.multiply(self.schedule.load, self.lanes.on, out=self.wanted)
        add_classes(self.wanted, self.total)
        np.subtract(self.total, self.schedule.supply, out=self.net)
        self._limit(self.schedule.supply)

    def _draw_on_cells(self) -> None:
        lanes, converter = self.lanes, self.converter
        np.maximum(self.net, 0.0, out=self.out)
        np.subtract(self.out, self.net, out=self.spill)
        np.minimum(self.spill, converter.charge_limit, out=self.charge)
        np.multiply(self.charge, lanes.on[0], out=self.charge)
        self._discharge_draw(self.out)
        np.multiply(self.charge, converter.charge_efficiency, out=self.flow)
        np.subtract(self.draw, self.flow, out=self.draw)
        np.less_equal(self.draw, 0.0, out=self.pressing)
        self._hold_at_full()
        np.subtract(self.spill, self.charge, out=self.spill)
        np.multiply(self.spill, lanes.on[0], out=self.spill)

    def _hold_at_full(self) -> None:
        """A full battery takes from the surplus what covers its own draw, and no more."""
        lanes = self.lanes
        np.greater_equal(lanes.energy, lanes.capacity, out=self.held)
        np.logical_and(self.held, self.pressing, out=self.held)
        np.logical_and(self.held, lanes.up, out=self.held)
        np.logical_and(self.held, self.net < 0.0, out=self.held)
        self.is_held = bool(np.count_nonzero(self.held))
        if self.is_held:
            np.copyto(self.charge, self.hold_power, where=self.held)
            np.copyto(self.draw, 0.0, where=self.held)

    def _find_events(self) -> None:
        lanes = self.lanes
        np.subtract(self.schedule.end, lanes.time, out=self.step)
        np.multiply(self.draw, self.step, out=self.move)
        np.subtract(lanes.energy, lanes.reach_low, out=self.room)
        np.greater(self.move, self.room, out=self.falls)
        np.greater(self.falls, self.pressing, out=self.falls)
        np.subtract(lanes.energy, lanes.next_high, out=self.room)
        np.subtract(self.room, lanes.tolerance, out=self.room)
        np.less(self.move, self.room, out=self.rises)
        np.logical_and(self.rises, self.pressing, out=self.rises)
        np.copyto(self.hit, self.falls)
        if np.count_nonzero(self.falls):
            self._fall_to(self.falls)
        if self.is_held or np.count_nonzero(self.rises):
            self._rise_to()
        if self.is_down:
            self._wait_for_restart()
        self.is_hit = bool(np.count_nonzero(self.hit))

    def _rise_to(self) -> None:
        """Stop the lanes that rise to a threshold there; a held one restores where it stands."""
        lanes = self.lanes
        np.logical_and(self.rises, ~self.held, out=self.rises)
        high = np.maximum(lanes.energy, lanes.next_high)
        np.subtract(lanes.energy, high, out=self.room)
        np.copyto(self.move, self.room, where=self.rises)
        np.divide(self.room, self.draw, out=self.step, where=self.rises)
        restores = self.held & (lanes.next_restore <= lanes.energy) & (self.step > 0.0)
        np.copyto(self.step, 0.0, where=restores)
        np.logical_or(self.rises, restores, out=self.rises)
        np.copyto(self.landing, high, where=self.rises)
        np.logical_or(self.hit, self.rises, out=self.hit)

    def _wait_for_restart(self) -> None:
        """Let lanes that are down wait for the source, and restart where it covers the load."""
        lanes, converter, down = self.lanes, self.converter, self.waiting
        load = self.schedule.load.copy()
        np.multiply(load[1:], lanes.kept, out=load[1:])
        total = np.empty_like(self.total)
        add_classes(load, total)
        surplus = np.minimum(-(total - self.schedule.supply), converter.charge_limit)
        covers = converter.fixed - converter.charge_efficiency * surplus <= 0.0
        engine = self.schedule.generator > 0.0
        ready = (self.schedule.source > 0.0) & (self.schedule.source >= self.black_start_power)
        wait = np.where(engine, 0.0, np.maximum(self.black_start_delay - self.waited, 0.0))
        in_time = wait + TIME_TOLERANCE < self.step
        np.logical_and(down & covers & (engine | ready), in_time, out=self.starts)
        np.copyto(self.step, wait, where=self.starts)
        self.waited += np.where(down, self.step, 0.0)
        np.copyto(self.waited, 0.0, where=down & ~ready & (self.step > 0.0))
        np.copyto(self.landing, lanes.energy, where=self.starts)
        np.logical_or(self.hit, self.starts, out=self.hit)

    def _account_loss(self) -> None:
        np.subtract(self.draw, self.out, out=self.flow)
        np.add(self.flow, self.charge, out=self.flow)
        np.multiply(self.flow, self.step, out=self.flow)
        np.add(self.loss, self.flow, out=self.loss)
        self._account_sources()
        if self.is_held:
            lasts = self.held & (self.step > 0.0)
            self.full.record(lasts[np.newaxis], self.lanes.time)

    def _account_sources(self) -> None:
        schedule, up, step = self.schedule, self.lanes.on[0], self.step
        refused = self.spill
        if schedule.has_generator:
            idle = np.minimum(self.spill, schedule.generator)
            self.generator_used += (schedule.generator * up - idle) * step
            refused = self.spill - idle
        self.curtailed += refused * step
        taken = schedule.source * up
        self.source_used += (taken - refused) * step
        self.lost_source += (schedule.ambient - taken) * step
        self.down_time += (1.0 - up) * step

    def _happen(self) -> None:
        if self.is_down:
            self.lanes.restart(self.starts)
        if np.count_nonzero(self.falls):
            self._descend(self.falls)
            np.copyto(self.waited, 0.0, where=self.lanes.lost)
        if np.count_nonzero(self.rises):
            self.lanes.ascend(self.rises)

    def _advance(self) -> None:
        super()._advance()
        np.minimum(self.min_energy, self.lanes.energy, out=self.min_energy)

    def _retire(self) -> None:
        """Take lanes out whose bus is down, unless a later interval may bring it back."""
        if not (self.is_down or self.is_hit):
            return
        np.less(self.row, self.schedule.intervals, out=self.waiting)
        np.greater(self.waiting, self.lanes.up, out=self.waiting)
        gone = self.waiting & (self.row > self.last_restart)
        if np.count_nonzero(gone):
            self._park(gone)
            np.greater(self.waiting, gone, out=self.waiting)
        self.is_down = bool(np.count_nonzero(self.waiting))

    def _close(self) -> None:
        super()._close()
        self.down_time += self.dark
        spans = self.schedule.remaining(self.dark_since)
        self.lost_source += np.sum(self.schedule.ambient_power * spans, axis=0)
