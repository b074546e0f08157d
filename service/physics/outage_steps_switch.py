"""The common events by themselves: a tier is shed or restored, or the bus is lost for good."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_power_limit import POWER_TOLERANCE
from service.physics.outage_steps_home import Cells, Homes, Powers, Rows
from service.physics.outage_steps_levels import Levels, Patterns
from service.physics.outage_steps_state import State
from service.physics.outage_steps_tally import Tally

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

TURNS = 6
"""Levels of a lane in one step beyond which it is handed on (own choice)."""


@dataclass(frozen=True, slots=True)
class Leg:
    """Lanes on their way to a level: energy where they stand and at the step's end [J].

    Attributes
    ----------
    left : ndarray, shape (M,)
        Rest of the step [s].
    flow : ndarray, shape (M,), or None
        AC power out of the battery on the way [W], where energies are added up.
    """

    index: Rows
    begun: Floats
    ended: Floats
    left: Floats
    flow: Floats | None

    def some(self, which: Flags | Rows) -> "Leg":
        """Some of the lanes."""
        flow = None if self.flow is None else self.flow[which]
        return Leg(self.index[which], self.begun[which], self.ended[which], self.left[which], flow)


@dataclass(frozen=True, slots=True)
class Midway:
    """Lanes that are not done with the step: where they stand, and whether there is a bus."""

    index: Rows
    energy: Floats
    now: Floats
    left: Floats
    up: Flags

    def some(self, which: Flags | Rows, up: bool) -> "Midway":
        """Some of the lanes, all with or all without a bus."""
        index = self.index[which]
        bus = np.full(len(index), up)
        return Midway(index, self.energy[which], self.now[which], self.left[which], bus)


class Switch:
    """Takes lanes that meet levels of their tiers, or the floor, through the rest of the step.

    Notes
    -----
    Up to the level the powers are those of the dense step, so that its energies give the time;
    beyond it they are worked out once more. Lanes that pass the power limit after that, or whose
    bus may come back within the step, are handed on.
    """

    def __init__(
        self,
        homes: Homes,
        powers: Powers,
        levels: Levels,
        state: State,
        allowance: Floats,
        tally: Tally | None,
    ) -> None:
        self.homes, self.powers, self.levels, self.state = homes, powers, levels, state
        self.allowance, self.tally = allowance, tally
        self.tiers = powers.classes - 1
        self.revives = powers.allowed is not None or bool(np.any(homes.whole.mode != 0.0))

    def resolve(self, step: int, leg: Leg, out: Floats) -> list[Midway]:
        """Put the energy at the step's end into `out`; the lanes that are not done.

        Parameters
        ----------
        step : int
            The step.
        leg : Leg
            Lanes with a bus and no generator that pass a level of theirs.
        out : ndarray, shape (N,)
            Receives the energy of the lanes that are done [J].
        """
        rest: list[Midway] = []
        for _ in range(TURNS):
            leg = self._turn(step, leg, out, rest)
            if not len(leg.index):
                return rest
        now = self.powers.ends[step] - leg.left
        bus = np.ones(len(leg.index), dtype=np.bool_)
        rest.append(Midway(leg.index, leg.begun, now, leg.left, bus))
        return rest

    def _drop_unmet(self, leg: Leg, met: Flags, out: Floats) -> Leg:
        """Let lanes go that move away from a level which they are beyond already."""
        done = leg.some(~met)
        capacity = self.homes.pick_cells(done.index).capacity
        out[done.index] = np.minimum(done.ended, capacity)
        if self.tally is not None and done.flow is not None:
            self.tally.leg(done.index, done.flow, done.left, done.ended - capacity)
        return leg.some(met)

    def _turn(self, step: int, leg: Leg, out: Floats, rest: list[Midway]) -> Leg:
        """Take the lanes to their level and beyond; those that meet another one."""
        index, levels = leg.index, self.levels
        pattern = self.state.pattern.take(index)
        falls = leg.ended < leg.begun
        place = levels.place(pattern, index) + ~falls * levels.rise
        reach, level, after = levels.meet(place)
        met = (leg.ended < reach) == falls
        if np.count_nonzero(met) < len(met):
            leg = self._drop_unmet(leg, met, out)
            return self._turn(step, leg, out, rest) if len(leg.index) else leg
        part = (leg.begun - level) / (leg.begun - leg.ended)
        # Within the tolerance a lane may stand beyond its level already.
        np.copyto(level, leg.begun, where=part < 0.0)
        left = leg.left - np.maximum(part, 0.0) * leg.left
        middle = Midway(index, level, self.powers.ends[step] - left, left, part < 2.0)
        load = self.powers.pick_load(step, index)
        lost = after < 0
        if np.count_nonzero(lost):
            np.copyto(after, pattern, where=lost)
        cells, kept = self.homes.pick_cells(index), levels.kept.take(after, axis=1)
        flow, draw, over = self._flow(step, index, cells, load, kept)
        landing = level - draw * left
        least = self.state.min_energy
        least[index] = np.minimum(least.take(index), level)
        low, high = self._bounds(after, index)
        more = (landing < low) | (landing > high)
        if self.powers.allowed is not None:
            over |= self._meets_start(step, index, landing)
        over &= ~lost
        more &= ~(over | lost)
        out[index] = np.minimum(landing, cells.capacity)
        self._write(index, (low, high, kept), after)
        turned = levels.changed.take(pattern ^ after)
        self._note(middle, load, np.where(falls, turned, 0))
        if self.tally is not None and leg.flow is not None:
            self.tally.leg(index, leg.flow, leg.left - left, None)
            elapsed = self.powers.duration[step] - left
            self.tally.switch(index, load, elapsed, turned, np.where(falls, 1.0, -1.0))
            done = np.flatnonzero(~(more | over | lost))
            excess = (landing - cells.capacity)[done]
            self.tally.leg(index[done], flow[done], left[done], excess)
        if np.count_nonzero(over):
            rest.append(middle.some(over, up=True))
        if np.count_nonzero(lost):
            asked = load[:, lost] if load.shape[1] > 1 else load
            self._lose(step, middle.some(lost, up=False), asked, out, rest)
        return Leg(index, level, landing, left, flow).some(np.flatnonzero(more))

    def _bounds(self, pattern: Patterns, index: Rows) -> tuple[Floats, Floats]:
        place = self.levels.place(pattern, index)
        return self.levels.reach(place), self.levels.reach(place + self.levels.rise)

    def _flow(
        self, step: int, index: Rows, cells: Cells, load: Floats, kept: Floats
    ) -> tuple[Floats, Floats, Flags]:
        """AC power out and draw on the cells after the switch [W], and who passes the limit."""
        net = load[0] * np.ones(len(index))
        for k in range(self.tiers):
            net += load[k + 1] * kept[k]
        source = self.powers.pick_source(step, index)
        if source is not None:
            net -= source
        over = net > cells.discharge_limit + POWER_TOLERANCE
        out = np.maximum(net, 0.0)
        draw = (cells.linear + cells.square * out) * out + cells.fixed
        if source is not None:
            np.maximum(net, -cells.charge_limit, out=net)
            draw += cells.charge_efficiency * (net - out)
        dc = self.powers.pick_dc(step, index)
        if dc is not None:
            need = np.maximum(draw, 0.0)
            spare = need - dc
            draw += np.maximum(spare, cells.dc_efficiency * spare) - need
            np.maximum(draw, -cells.charge_limit, out=draw)
        return net, draw, over

    def _meets_start(self, step: int, index: Rows, landing: Floats) -> Flags:
        """Lanes whose generator starts within the rest of the step."""
        starts = landing < self.state.start_reach.take(index)
        return np.asarray(starts & self.powers.pick_allowed(step, index))

    def _note(self, middle: Midway, load: Floats, shed: Patterns) -> None:
        """Note tiers that are off for the first time, or will be once they have load."""
        state, index = self.state, middle.index
        for k, first in enumerate(state.tier_off):
            if not state.unseen[k]:
                continue
            fresh = (shed == k + 1) & ~first.seen.take(index)
            if np.count_nonzero(fresh):
                asks = (load[k + 1] > 0.0) & (middle.left > 0.0)
                first.record(index, fresh & asks, middle.now)
                at = index[fresh]
                state.missing[k + 1, at] = ~first.seen[at]
                state.is_changed = True
        if state.is_missing:
            state.missing[1:, index] &= state.off[:, index]

    def _write(self, index: Rows, rows: tuple[Floats, Floats, Floats], after: Patterns) -> None:
        # Row by row: that is faster than one table of few columns.
        state = self.state
        state.low[index], state.high[index] = rows[0], rows[1]
        for k in range(self.tiers):
            state.kept[k][index] = rows[2][k]
            state.off[k][index] = rows[2][k] == 0.0
        state.pattern[index] = after

    def _lose(self, step: int, lost: Midway, load: Floats, out: Floats, rest: list[Midway]) -> None:
        """Take the bus down, for good or until another part of the step looks after it."""
        state, index = self.state, lost.index
        state.lose(index, lost.now, self.allowance[index])
        state.is_changed = True
        if self.tally is not None:
            elapsed = self.powers.duration[step] - lost.left
            source = self.powers.pick_source(step, index)
            on = np.concatenate([np.ones((1, len(index))), state.kept[:, index]])
            self.tally.turn(index, load, elapsed, on)
            self.tally.darken(index, source, elapsed, np.ones(len(index)))
        back = self._may_revive(step, index) if self.revives else None
        if back is not None and np.count_nonzero(back):
            rest.append(lost.some(back, up=False))
            lost, load = lost.some(~back, up=False), load[:, ~back] if load.shape[1] > 1 else load
            index = lost.index
        out[index] = lost.energy
        asks, lasts = load > 0.0, lost.left > 0.0
        state.loss.record(index, lasts & asks[0], lost.now)
        state.missing[0, index] = ~state.loss.seen[index]
        for k, first in enumerate(state.tier_off):
            first.record(index, lasts & asks[k + 1], lost.now)
            state.missing[k + 1, index] = ~first.seen[index]
        state.low[index], state.high[index] = -np.inf, np.inf
        state.live[index] = 0.0
        state.dark[index] = True
        if self.revives:
            self._look_out(index)

    def _may_revive(self, step: int, index: Rows) -> Flags | None:
        """Lanes whose bus may come back within the step in which it is lost, if there are any."""
        powers = self.powers
        if powers.allowed is not None:
            return np.ones(len(index), dtype=np.bool_)
        rows = [power for power in (powers.source, powers.dc_source) if power is not None]
        if not any(row[step].any() for row in rows):
            return None
        home, back = self.homes.pick(index), np.zeros(len(index), dtype=np.bool_)
        source, dc = powers.pick_source(step, index), powers.pick_dc(step, index)
        if source is not None:
            back |= (home.mode == 1.0) & (source > 0.0) & (source >= home.black_start_power)
        if dc is not None:
            back |= (home.mode == 2.0) & (dc > 0.0)
        return back

    def _look_out(self, index: Rows) -> None:
        """Make lanes without a bus wait for their restart in a later step."""
        home, state = self.homes.pick(index), self.state
        state.need[index] = np.where(home.mode == 1.0, home.black_start_power, np.inf)
        charges = home.mode == 2.0
        state.recharging[index] = charges
        reach = home.restart_energy + home.tolerance
        state.high[index] = np.where(charges, reach, np.inf)
