"""Lanes with an event in the step, followed from event to event."""

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_run import EventBudgetExceeded
from service.physics.outage_sources import TIME_TOLERANCE
from service.physics.outage_steps_books import Books
from service.physics.outage_steps_flow import Flow, Lot, covers, flow
from service.physics.outage_steps_home import Homes, Powers, Rows
from service.physics.outage_steps_levels import Levels
from service.physics.outage_steps_state import State, settle
from service.physics.outage_steps_switch import Midway
from service.physics.outage_steps_tally import Tally

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Patterns = NDArray[np.intp]

ROUNDS_WITHOUT_BOUND = 64


class Follower:
    """Follows lots of lanes through a step.

    Notes
    -----
    What falls due at one instant: the step's end before any threshold; the generator's start
    before a shed, a shed before the loss, the lowest priority first; a restore, the highest
    priority first, before the generator's stop.
    """

    def __init__(
        self,
        homes: Homes,
        powers: Powers,
        levels: Levels,
        state: State,
        allowance: Floats,
        books: Books | Tally | None,
    ) -> None:
        self.homes, self.powers, self.state, self.books = homes, powers, state, books
        self.levels = levels
        self.allowance = np.broadcast_to(allowance, powers.lanes).reshape(-1)
        self.has_generator = powers.allowed is not None
        self.restarts_by_source = powers.source is not None and bool(
            np.any(homes.whole.mode == 1.0)
        )
        self.restarts_by_dc = powers.dc_source is not None and bool(np.any(homes.whole.mode == 2.0))
        self.previous = -1

    def follow(
        self, step: int, index: Rows, since: float, energy: Floats, midway: list[Midway]
    ) -> None:
        """Take lanes through a step, or from midway through it; `energy` receives its end.

        Parameters
        ----------
        step : int
            The step.
        index : ndarray of int, shape (M,)
            Lanes that stand at its beginning.
        since : float
            Its beginning [s].
        energy : ndarray, shape (N,)
            Receives the energy of all these lanes [J].
        midway : list of Midway
            Others, which stand within it.
        """
        whole = len(index)
        index = np.concatenate([index, *(part.index for part in midway)])
        lot = self._gather(step, index, since)
        for part in midway:
            at = slice(whole, whole + len(part.index))
            lot.energy[at], lot.now[at], lot.left[at] = part.energy, part.now, part.left
            lot.up[at] = part.up
            whole += len(part.index)
        self._follow(step, index, lot, energy)

    def _follow(self, step: int, index: Rows, lot: Lot, energy: Floats) -> None:
        self.step, self.index = step, index
        least = lot.energy.copy()
        if self.books is not None:
            self.books.open(step, index, lot)
        rounds = 0
        while np.count_nonzero(lot.left > 0.0):
            rounds += 1
            if rounds > ROUNDS_WITHOUT_BOUND and rounds > self._bound(lot, step):
                raise EventBudgetExceeded(f"No end of step {step} after {rounds} rounds.")
            if self.has_generator:
                self._switch_generator(lot)
            self._round(lot)
            np.minimum(least, lot.energy, out=least)
        energy[index] = lot.energy
        state = self.state
        state.min_energy[index] = np.minimum(state.min_energy[index], least)
        state.fuel_used[index] = lot.fuel_used
        settle(state, index, lot.home, self.levels, (lot.up, lot.running, lot.pattern))
        if self.books is not None:
            self.books.enter(index, lot)

    def _gather(self, step: int, index: Rows, since: float) -> Lot:
        state, powers = self.state, self.powers
        count = len(index)
        none = np.zeros(1, dtype=np.bool_)
        return Lot(
            home=self.homes.pick(index),
            load=powers.pick_load(step, index),
            source=powers.pick_source(step, index),
            dc=powers.pick_dc(step, index),
            energy=state.energy[index],
            left=np.full(count, powers.duration[step]),
            now=np.full(count, since),
            fuel_used=state.fuel_used[index],
            up=state.live[index] != 0.0,
            running=state.running[index],
            pattern=state.pattern[index],
            kept=state.kept[:, index],
            may_run=powers.pick_allowed(step, index) if self.has_generator else none,
        )

    def _bound(self, lot: Lot, step: int) -> int:
        """Upper bound of the rounds of a step: what can be lifted over the narrowest band."""
        home = lot.home
        lift = np.zeros_like(lot.energy)
        powers = [power for power in (lot.source, lot.dc) if power is not None]
        for power in [*powers, home.power]:
            lift += np.minimum(power, home.charge_limit)
        lift *= self.powers.duration[step]
        narrowest = np.broadcast_to(self.levels.narrowest, self.powers.lanes).reshape(-1)
        bands = [narrowest[self.index]] * (len(lot.load) - 1)
        bands += [home.stop_at - home.start_at, home.restart_energy - home.floor]
        cycles = sum(lift / np.where(band > 0.0, band, np.inf) + 1.0 for band in bands)
        return int(np.max(5.0 * cycles)) + 8 * (len(lot.load) + 4)

    def _switch_generator(self, lot: Lot) -> None:
        """Start and stop the generator where its conditions hold at this instant."""
        home = lot.home
        able = lot.may_run & (lot.fuel_used < home.fuel) & (home.power > 0.0)
        lot.running &= able & (lot.energy < home.stop_at)
        starts = lot.up & ~lot.running & able & (lot.energy <= home.start_at)
        starts &= lot.left > 0.0
        dark = ~lot.up & able & (lot.left > 0.0)
        if np.count_nonzero(dark):
            revived = dark & covers(lot, home.power, home.charge_limit_run)
            self._regain(lot, revived)
            starts |= revived
        if np.count_nonzero(starts):
            lot.running |= starts
            if self.books is not None:
                self.books.starts(starts)

    def _round(self, lot: Lot) -> None:
        """Go to each lane's next event or to the end of the step."""
        home = lot.home
        flows = flow(lot, self.has_generator)
        draw, step = flows.draw, lot.left.copy()
        place = self.levels.place(lot.pattern, self.index)
        low, level, starts = self._next_low(lot, place)
        falls = (draw > 0.0) & (draw * step > lot.energy - low) & (step > 0.0)
        landing = np.minimum(level, lot.energy)
        np.divide(lot.energy - landing, draw, out=step, where=falls)
        restore, top = self._next_high(lot, place)
        rises = draw * step < lot.energy - (top + home.tolerance)
        rises &= (draw < 0.0) & (step > 0.0)
        if np.count_nonzero(rises):
            high = np.maximum(top, lot.energy)
            np.copyto(landing, high, where=rises)
            np.divide(lot.energy - high, draw, out=step, where=rises)
        restores = flows.held & (restore <= lot.energy) & (step > 0.0)
        if np.count_nonzero(restores):
            np.copyto(step, 0.0, where=restores)
            np.copyto(landing, lot.energy, where=restores)
            rises |= restores
        if flows.delivered is not None:
            self._burn(lot, flows, step, falls, rises)
        wakes = self._wait_for_source(lot, step) if self.restarts_by_source else None
        self._note(lot, flows, step)
        self._advance(lot, flows, step, landing, falls | rises)
        if np.count_nonzero(falls):
            self._descend(lot, falls, place, starts)
        if np.count_nonzero(rises):
            self._ascend(lot, rises & (restore == top), rises, place)
        if wakes is not None:
            self._regain(lot, wakes)

    def _next_low(self, lot: Lot, place: Patterns) -> tuple[Floats, Floats, Flags | None]:
        """Reach and level of what discharge meets next, and where that starts the generator."""
        home = lot.home
        low, level, _ = self.levels.meet(place)
        np.copyto(low, -np.inf, where=~lot.up)
        if not self.has_generator:
            return low, level, None
        able = lot.up & ~lot.running & lot.may_run & (lot.fuel_used < home.fuel)
        starts = able & (home.start_at - home.tolerance >= low)
        np.copyto(low, home.start_at - home.tolerance, where=starts)
        np.copyto(level, home.start_at, where=starts)
        return low, level, starts

    def _next_high(self, lot: Lot, place: Patterns) -> tuple[Floats, Floats]:
        """Levels of the next restore, and of what charging meets: that, a stop, a restart, full."""
        home, levels = lot.home, self.levels
        restore = np.where(lot.up, levels.meet(place + levels.rise)[1], np.inf)
        top = np.minimum(restore, home.capacity)
        if self.has_generator:
            np.minimum(top, home.stop_at, out=top, where=lot.running)
        if self.restarts_by_dc:
            dark = ~lot.up & (home.mode == 2.0)
            np.minimum(top, home.restart_energy, out=top, where=dark)
        return restore, top

    def _burn(self, lot: Lot, flows: Flow, step: Floats, falls: Flags, rises: Flags) -> None:
        """Burn fuel, and stop where it runs out within the step."""
        home = lot.home
        assert flows.delivered is not None
        burn = (home.burn_fixed + home.burn_linear * flows.delivered) * lot.running
        fuel = home.fuel - lot.fuel_used
        dry = burn * step > fuel * (1.0 + 1e-12)
        if np.count_nonzero(dry):
            np.divide(fuel, burn, out=step, where=dry)
            falls &= ~dry
            rises &= ~dry
        lot.fuel_used += burn * step
        if np.count_nonzero(dry):
            np.copyto(lot.fuel_used, home.fuel, where=dry)
        if self.books is not None:
            self.books.add_generator(flows.delivered, lot.running, step)

    def _wait_for_source(self, lot: Lot, step: Floats) -> Flags | None:
        """Let lanes without a bus wait for the source; those that it can start now."""
        home, state = lot.home, self.state
        assert lot.source is not None
        dark = ~lot.up & (home.mode == 1.0) & (lot.left > 0.0)
        if not np.count_nonzero(dark):
            return None
        before = state.waited_step[self.index] >= self.previous
        waited = np.where(before, state.waited[self.index], 0.0)
        ready = (lot.source > 0.0) & (lot.source >= home.black_start_power)
        wait = np.maximum(home.black_start_delay - waited, 0.0)
        wakes = dark & ready & covers(lot, lot.source, home.charge_limit)
        wakes &= wait + TIME_TOLERANCE < step
        np.copyto(step, wait, where=wakes)
        waits = np.flatnonzero(dark & ready)
        at = self.index[waits]
        state.waited[at] = waited[waits] + step[waits]
        state.waited_step[at] = self.step
        return np.asarray(wakes)

    def _note(self, lot: Lot, flows: Flow, step: Floats) -> None:
        """Note what is first seen in the round."""
        state, index = self.state, self.index
        lasts = step > 0.0
        state.limit.record(index, flows.limited & lasts, lot.now)
        state.loss.record(index, ~lot.up & lasts & (lot.load[0] > 0.0), lot.now)
        for k, first in enumerate(state.tier_off):
            off = ~lot.up | (lot.kept[k] == 0.0)
            if flows.dropped is not None:
                off |= flows.dropped[k]
            first.record(index, off & lasts & (lot.load[k + 1] > 0.0), lot.now)

    def _advance(self, lot: Lot, flows: Flow, step: Floats, landing: Floats, hit: Flags) -> None:
        if self.books is not None:
            self.books.add(lot, flows, step)
        ends = step >= lot.left
        lot.energy -= flows.draw * step
        np.copyto(lot.energy, landing, where=hit)
        np.minimum(lot.energy, lot.home.capacity, out=lot.energy)
        lot.now += step
        lot.left -= step
        np.copyto(lot.left, 0.0, where=ends & ~hit)
        np.copyto(lot.now, self.powers.ends[self.step], where=lot.left <= 0.0)

    def _descend(self, lot: Lot, falls: Flags, place: Patterns, starts: Flags | None) -> None:
        """Shed the tier, the lowest priority first, or else lose the bus."""
        fired = falls if starts is None else falls & ~starts
        after = self.levels.meet(place)[2]
        lost = fired & (after < 0)
        if np.count_nonzero(lost):
            fired = fired & ~lost
            lot.up &= ~lost
            lot.running &= ~lost
            at = self.index[lost]
            self.state.lose(at, lot.now[lost], self.allowance[at])
        self._become(lot, fired, after)

    def _ascend(self, lot: Lot, restores: Flags, rises: Flags, place: Patterns) -> None:
        """Restore the tier, the highest priority first, or restart by DC sun."""
        self._become(lot, restores, self.levels.meet(place + self.levels.rise)[2])
        if self.restarts_by_dc:
            dark = rises & ~lot.up & (lot.energy >= lot.home.restart_energy)
            self._regain(lot, dark)

    def _become(self, lot: Lot, fired: Flags, after: Patterns) -> None:
        np.copyto(lot.pattern, after, where=fired)
        lot.kept = self.levels.kept.take(lot.pattern, axis=1)

    def _regain(self, lot: Lot, back: Flags) -> None:
        if np.count_nonzero(back):
            lot.up |= back
            self.state.regain(self.index[back], lot.now[back])
