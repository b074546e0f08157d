"""Some lanes through one step, one event at a time."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_run import EventBudgetExceeded
from service.physics.stepped_lanes import (
    BLACK_START,
    DC_RESTART,
    StepDevice,
    StepState,
)

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Ints = NDArray[np.int64]

#: Time that counts as none [s] (own choice).
_INSTANT: Final = 1e-6
#: Events that one step may hold: far above what thresholds with a band between them allow.
_MOST_EVENTS: Final = 10_000


def follow(
    device: StepDevice,
    state: StepState,
    at: Ints,
    now: float,
    span: float,
    *,
    load: Floats,
    source: Floats,
    direct: Floats,
    allowed: Flags,
) -> None:
    """Follow some lanes through one step, and put what becomes of them back.

    Parameters
    ----------
    device : StepDevice
    state : StepState
        Of all lanes, at the beginning of the step.
    at : ndarray of int, shape (n,)
        Which lanes.
    now, span : float
        Beginning and length of the step [s].
    load : ndarray, shape (K, n)
        [W].
    source, direct : ndarray, shape (n,)
        Sun on the AC bus and on the cells' side [W].
    allowed : ndarray of bool, shape (n,)
        Whether a generator may run in the step.

    Raises
    ------
    EventBudgetExceeded
        Never for finite arguments in the stated ranges.

    References
    ----------
    Derived here, the rules of `step_outages`.
    """
    some = _Followed(device, state, at, load, source, direct, allowed)
    left = np.full(at.size, span)
    for _ in range(_MOST_EVENTS):
        left = some.event(now + span - left, left)
        if not np.count_nonzero(left > 0.0):
            some.put_back(now + span)
            return
    raise EventBudgetExceeded(f"more than {_MOST_EVENTS} events in a step")


class _Followed:
    """A few lanes, gathered, through one step."""

    def __init__(
        self,
        device: StepDevice,
        state: StepState,
        at: Ints,
        load: Floats,
        source: Floats,
        direct: Floats,
        allowed: Flags,
    ) -> None:
        self.device, self.state, self.at = device, state, at
        self.load, self.source, self.direct = load, source, direct
        self.capacity, self.floor = device.capacity[at], device.floor[at]
        self.fixed, self.linear = device.fixed[at], device.linear[at]
        self.square, self.efficiency = device.square[at], device.efficiency[at]
        self.limit, self.most = device.limit[at], device.most[at]
        self.charge, self.tolerance = device.charge[at], device.tolerance[at]
        self.leave, self.back = device.leave[:, at], device.back[:, at]
        self.proportional = device.proportional[at]
        self.energy, self.up = state.energy[at], state.up[at]
        self.kept = state.kept[:, at]
        self.running, self.fuel = state.running[at], state.fuel[at]
        self.refills, self.waited = state.refills[at], state.waited[at]
        self.allowed = allowed
        self.can = np.zeros(at.size, dtype=np.bool_)

    # -- one event ------------------------------------------------------------------------------

    def event(self, time: Floats, left: Floats) -> Floats:
        """Take every lane to its next event, or to the end of the step; return the time left."""
        open_ = left > 0.0
        if self.device.generator is not None:
            self._start_and_stop(open_)
        wanted, total, supply = self._ask()
        over, alone, dropped = self._limit(wanted, total, supply, open_)
        balance, charge, out = self._balance(total, supply)
        wait = left.copy()
        fall, rise = self._thresholds(balance, left, wait, open_)
        burn = self._fuel(total, charge, left, wait, fall, rise)
        restarts = self._restarts(left, wait, open_)
        step = np.where(open_, wait, 0.0)
        if over is not None:
            self._note_limit(over, alone, dropped, time, step)
        self._note_off(time, step)
        if self.state.account:
            self._account(wanted, total, supply, balance, charge, out, step)
        self.energy += balance * step
        np.copyto(self.energy, self.capacity, where=self.energy > self.capacity)
        if self.device.generator is not None:
            self.fuel -= np.where(self.running, burn * step, 0.0)
        self._darken(time, step)
        self._happen(time + step, fall & open_, rise & open_, restarts & open_)
        if self.state.account:
            self.state.trace.append((float(time[0] + step[0]), float(self.energy[0])))
        done = left - step
        return np.where(done <= _INSTANT, 0.0, done)

    def _start_and_stop(self, open_: Flags) -> None:
        """Let generators stop and start where charge, hours and fuel say so."""
        engine = self.device.generator
        assert engine is not None
        empty = self.fuel <= 0.0
        refill = empty & (self.refills >= 1.0) & self.running
        np.copyto(self.fuel, engine.tank, where=refill)
        self.refills -= refill
        has_fuel = (self.fuel > 0.0) | ((self.refills >= 1.0) & (engine.tank > 0.0))
        self.can = has_fuel & self.allowed
        stop = self.running & (~self.can | (self.energy >= engine.stop[self.at] - self.tolerance))
        self.running &= ~stop
        asked = self.load[0] + (self.load[1:] * self.kept).sum(axis=0)
        low = self.energy <= engine.start[self.at] + self.tolerance
        begins = self.up & ~self.running & self.can & low & open_
        brings = ~self.up & self.can & (engine.power >= asked) & open_
        self.up |= brings
        self.running |= begins | brings
        fresh = begins | brings
        need = fresh & (self.fuel <= 0.0)
        np.copyto(self.fuel, engine.tank, where=need)
        self.refills -= need
        self.state.starts[self.at] += fresh
        self.state.restarts[self.at] += brings

    def _ask(self) -> tuple[Floats, Floats, Floats]:
        """Return the power asked for by class and in all, and what sun or generator gives [W]."""
        wanted = self.load * self.up
        wanted[1:] *= self.kept
        engine = self.device.generator
        power = 0.0 if engine is None else engine.power
        supply = np.where(self.running, power, self.source)
        return wanted, wanted.sum(axis=0), np.where(self.up, supply, 0.0)

    def _limit(
        self, wanted: Floats, total: Floats, supply: Floats, open_: Flags
    ) -> tuple[Flags | None, Flags, list[Flags]]:
        """Drop tiers, or a part of all, where the inverter's limit is passed; in place.

        Returns where it is passed, where the critical load alone passes it, and the tiers that
        were dropped, the last class first.
        """
        over = (total - supply > self.most) & open_
        dropped: list[Flags] = []
        if not np.count_nonzero(over):
            return None, over, dropped
        alone = over & (self.load[0] * self.up - supply > self.most)
        sheds = over & ~self.proportional
        for k in range(len(wanted) - 1, 0, -1):
            drop = sheds & (wanted[k] > 0.0)
            dropped.append(drop)
            total -= np.where(drop, wanted[k], 0.0)
            np.copyto(wanted[k], 0.0, where=drop)
            sheds &= total - supply > self.most
        cut = sheds | (over & self.proportional)
        carried = self.limit + supply
        share = np.divide(carried, total, out=np.ones_like(total), where=cut)
        wanted *= share
        np.copyto(total, carried, where=cut)
        return over, alone, dropped

    def _note_limit(
        self, over: Flags, alone: Flags, dropped: list[Flags], time: Floats, step: Floats
    ) -> None:
        lasts = step > 0.0
        _first(self.state.limited, self.at, over & lasts, time)
        _first(self.state.overload, self.at, alone & lasts, time)
        for place, drop in enumerate(dropped):
            self._missed(len(dropped) - place, drop & lasts, time)

    def _balance(self, total: Floats, supply: Floats) -> tuple[Floats, Floats, Floats]:
        """Return what the cells gain, the AC power that charges and the one that discharges [W]."""
        device, engine = self.device, self.device.generator
        net = total - supply
        out = np.maximum(net, 0.0)
        draw = (self.square * out + self.linear) * out + self.fixed
        balance = np.where(self.up, self.direct, 0.0) - np.where(self.up, draw, 0.0)
        stored = np.minimum(balance * device.direct_efficiency, self.charge)
        balance = np.where(balance > 0.0, stored, balance)
        room = self.charge - np.maximum(balance, 0.0)
        if engine is not None:
            room = np.where(self.running, np.minimum(room, engine.charge), room)
        charge = np.where(self.up, np.minimum(out - net, room), 0.0)
        balance = balance + self.efficiency * charge
        full = self.up & (self.energy >= self.capacity) & (balance > 0.0)
        # A full battery takes what covers its own draw, and no more.
        charge = np.where(full, charge - balance / self.efficiency, charge)
        balance = np.where(full, 0.0, balance)
        if device.restart is not None and device.restart.mode == DC_RESTART:
            fills = np.minimum(self.direct * device.direct_efficiency, self.charge)
            balance = np.where(self.up, balance, fills)
        return balance, np.maximum(charge, 0.0), np.where(self.up, out, 0.0)

    def _thresholds(
        self, balance: Floats, left: Floats, wait: Floats, open_: Flags
    ) -> tuple[Flags, Flags]:
        """Shorten `wait` to the next threshold [s]; return which lanes fall or rise to it."""
        self.low, self.high = self._levels()
        move = balance * left
        after = self.energy + move
        fall = (after < self.low - self.tolerance) & (balance < 0.0) & self.up & open_
        with np.errstate(divide="ignore", invalid="ignore"):
            drop = np.maximum(self.energy - self.low, 0.0) / -balance
            climb = np.maximum(self.high - self.energy, 0.0) / balance
        np.copyto(wait, np.minimum(drop, wait), where=fall)
        held = self.up & (self.energy >= self.capacity) & (balance >= 0.0)
        ready = (self.high <= self.energy) & held
        rise = ((after > self.high + self.tolerance) & (balance > 0.0)) | ready
        rise &= open_
        np.copyto(wait, np.where(ready, 0.0, np.minimum(climb, wait)), where=rise)
        return fall, rise

    def _levels(self) -> tuple[Floats, Floats]:
        """Return the next threshold below and above [J]."""
        low = np.where(self.up, self.floor, -np.inf)
        high = np.where(self.up, np.inf, self.device.restart_energy[self.at])
        # A full battery is an event as well: from there on it charges no more.
        high = np.where(self.energy < self.capacity, np.minimum(high, self.capacity), high)
        for k in range(len(self.kept)):
            on = self.up & self.kept[k]
            low = np.where(on, np.maximum(low, self.leave[k]), low)
            off = self.up & ~self.kept[k]
            high = np.where(off, np.minimum(high, self.back[k]), high)
        engine = self.device.generator
        if engine is not None:
            idle = self.up & ~self.running & self.can
            low = np.where(idle, np.maximum(low, engine.start[self.at]), low)
            high = np.where(self.running, np.minimum(high, engine.stop[self.at]), high)
        return low, high

    def _fuel(
        self,
        total: Floats,
        charge: Floats,
        left: Floats,
        wait: Floats,
        fall: Flags,
        rise: Flags,
    ) -> Floats:
        """Return the fuel burnt a second; shorten `wait` to the end of the tank [s]."""
        engine = self.device.generator
        if engine is None:
            return np.zeros_like(total)
        given = np.minimum(total + charge, engine.power)
        burn = engine.burn_fixed + engine.burn_linear * given
        ends = self.running & (burn * wait > self.fuel)
        with np.errstate(divide="ignore", invalid="ignore"):
            lasts = self.fuel / burn
        np.copyto(wait, lasts, where=ends)
        fall &= ~ends
        rise &= ~ends
        self.spent = ends
        return burn

    def _restarts(self, left: Floats, wait: Floats, open_: Flags) -> Flags:
        """Return which lanes the sun on the bus starts again; shorten `wait` to it [s]."""
        restart = self.device.restart
        never = np.zeros(self.at.size, dtype=np.bool_)
        if restart is None or restart.mode != BLACK_START:
            return never
        asked = self.load[0] + (self.load[1:] * self.kept).sum(axis=0)
        surplus = np.minimum(self.source - asked, self.charge)
        covers = self.efficiency * surplus >= self.fixed
        ready = ~self.up & (self.source > 0.0) & (self.source >= restart.power)
        delay = np.maximum(restart.delay - self.waited, 0.0)
        starts = ready & covers & (delay + _INSTANT < left) & open_
        np.copyto(wait, delay, where=starts)
        spent = np.where(open_, wait, 0.0)
        self.waited = np.where(ready, self.waited + spent, np.where(spent > 0, 0.0, self.waited))
        return np.asarray(starts)

    # -- what it leads to -----------------------------------------------------------------------

    def _happen(self, time: Floats, fall: Flags, rise: Flags, restarts: Flags) -> None:
        if np.count_nonzero(fall):
            self._descend(fall, time)
        if np.count_nonzero(rise):
            self._ascend(rise, time)
        if np.count_nonzero(restarts):
            self.up |= restarts
            self.state.restarts[self.at] += restarts
        if self.device.generator is not None:
            np.copyto(self.fuel, 0.0, where=self.spent)

    def _descend(self, fall: Flags, time: Floats) -> None:
        """Shed the lowest tier whose level was met, or start the generator, or lose the bus."""
        np.copyto(self.energy, np.minimum(self.energy, self.low), where=fall)
        open_ = fall.copy()
        for k in range(len(self.kept) - 1, -1, -1):
            met = open_ & self.kept[k] & (self.leave[k] >= self.low)
            self.kept[k] &= ~met
            open_ &= ~met
        engine = self.device.generator
        if engine is not None:
            # The generator starts at the top of the next event.
            open_ &= ~(self.can & ~self.running & (engine.start[self.at] >= self.low))
        if not np.count_nonzero(open_):
            return
        self.up &= ~open_
        self.running &= ~open_
        np.copyto(self.waited, 0.0, where=open_)
        _first(self.state.first_loss, self.at, open_, time)

    def _ascend(self, rise: Flags, time: Floats) -> None:
        """Restore the highest tier whose level was met, or turn a recharged bus on."""
        np.copyto(self.energy, np.maximum(self.energy, self.high), where=rise)
        np.copyto(self.energy, self.capacity, where=rise & (self.energy > self.capacity))
        open_ = rise & self.up
        wakes = rise & ~self.up & (self.high >= self.device.restart_energy[self.at])
        for k in range(len(self.kept)):
            met = open_ & ~self.kept[k] & (self.back[k] <= self.high)
            self.kept[k] |= met
            open_ &= ~met
        self.up |= wakes
        self.state.restarts[self.at] += wakes

    def _note_off(self, time: Floats, step: Floats) -> None:
        lasts = step > 0.0
        for k in range(1, len(self.load)):
            off = ~(self.up & self.kept[k - 1]) & (self.load[k] > 0.0) & lasts
            self._missed(k, off, time)

    def _missed(self, k: int, off: Flags, time: Floats) -> None:
        if np.count_nonzero(off):
            _first(self.state.off[k - 1], self.at, off, time)
            self.state.off_seen[k - 1, self.at] |= off

    def _darken(self, time: Floats, step: Floats) -> None:
        """Add up the time without bus, and note when it is more than is put up with."""
        state, at = self.state, self.at
        dark = np.where(self.up, 0.0, step)
        if not np.count_nonzero(dark):
            return
        before = state.dark[at]
        passes = (before + dark > self.device.allowance) & (before <= self.device.allowance)
        passes &= dark > 0.0
        _first(state.held, at, passes, time + (self.device.allowance - before))
        state.dark[at] = before + dark

    def _account(
        self,
        wanted: Floats,
        total: Floats,
        supply: Floats,
        balance: Floats,
        charge: Floats,
        out: Floats,
        step: Floats,
    ) -> None:
        sums, at, engine = self.state.sums, self.at, self.device.generator
        running = self.running & self.up
        offered = self.source + self.direct
        taken_ac = np.where(running | ~self.up, 0.0, np.minimum(self.source, total + charge))
        drawn = (self.square * out + self.linear) * out + self.fixed
        fills = np.where(self.up, self.direct, 0.0)
        gained = balance - self.efficiency * charge
        if self.device.restart is not None and self.device.restart.mode == DC_RESTART:
            fills = self.direct
        # On the cells' side: what met the draw, and what was stored beyond it.
        stored = np.maximum(gained, 0.0) / self.device.direct_efficiency
        met = np.where(self.up, np.minimum(self.direct, drawn), 0.0)
        taken_dc = np.minimum(fills, met + stored)
        given = np.where(
            running, np.minimum(total + charge, 0.0 if engine is None else engine.power), 0.0
        )
        reachable = np.where(self.up, np.where(running, 0.0, self.source), 0.0) + fills
        rows = {
            "served": wanted.sum(axis=0),
            "unserved": self.load.sum(axis=0) - wanted.sum(axis=0),
            "source_used": taken_ac + taken_dc,
            "refused": reachable - taken_ac - taken_dc,
            "lost_source": offered - reachable,
            "generator_energy": given,
            "generator_time": running.astype(np.float64),
            "conversion_loss": taken_ac + taken_dc + given - total - balance,
        }
        if engine is not None:
            burn = engine.burn_fixed + engine.burn_linear * given
            rows["fuel_used"] = np.where(running, burn, 0.0)
        for name, row in rows.items():
            sums[name][at] += row * step

    def put_back(self, time: float) -> None:
        """Put the lanes back among the others, at the end of the step [s]."""
        state, at = self.state, self.at
        state.energy[at], state.up[at] = self.energy, self.up
        state.kept[:, at] = self.kept
        state.running[at], state.fuel[at] = self.running, self.fuel
        state.refills[at], state.waited[at] = self.refills, self.waited
        down = ~self.up
        if np.count_nonzero(down):
            state.any_down = True
            state.retire(at[down], state.first_loss[at[down]], time)
        if state.stop_when_lost:
            seen = at[np.isfinite(state.held[at])]
            state.up[seen] = False
            state.alive[seen] = False
        state.unseen_off = bool((~state.kept & ~state.off_seen & state.alive).any())
        state.settle(at)


def _first(times: Floats, at: Ints, seen: Flags, time: Floats) -> None:
    """Note a time where nothing was noted before."""
    where = at[seen]
    times[where] = np.minimum(times[where], time[seen])
