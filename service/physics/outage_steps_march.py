"""The march of all lanes through the steps."""

import numpy as np
from numpy.typing import NDArray

from service.physics.generator_run import GeneratorRun
from service.physics.outage_steps_books import Books
from service.physics.outage_steps_dense import DenseStep
from service.physics.outage_steps_follow import Follower
from service.physics.outage_steps_home import Homes, Powers, Thresholds
from service.physics.outage_steps_levels import Levels
from service.physics.outage_steps_run import StepsRun
from service.physics.outage_steps_state import First, State, settle
from service.physics.outage_steps_switch import Leg, Midway, Switch
from service.physics.outage_steps_tally import Tally

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


class March:
    """All lanes and their steps."""

    def __init__(
        self,
        *,
        homes: Homes,
        bounds: Thresholds,
        powers: Powers,
        start_energy: Floats,
        allowance: Floats,
        stop_when_lost: bool,
        account: bool,
        trace: list[Floats] | None = None,
    ) -> None:
        self.powers, self.stop_when_lost = powers, stop_when_lost and not account
        self.lanes = powers.lanes
        energy = np.broadcast_to(start_energy, self.lanes).reshape(-1).copy()
        self.state = state = State(energy, powers.classes)
        self.every = np.arange(len(energy), dtype=np.intp)
        home = homes.pick(self.every)
        up, pattern = energy > home.floor, np.zeros(len(energy), dtype=np.intp)
        for k, level in enumerate(bounds.shed_at):
            pattern += (energy > np.broadcast_to(level, self.lanes).reshape(-1)) * (1 << k)
        levels = Levels(bounds, self.lanes, powers.classes - 1)
        self.books: Books | None = None
        self.tally: Tally | None = None
        if account and powers.dc_source is None and powers.allowed is None:
            self.tally = Tally(powers, state, homes.whole)
        elif account:
            self.books = Books(powers.classes, len(energy))
        ledger = self.books or self.tally
        self.follower = Follower(homes, powers, levels, state, allowance, ledger)
        dark = np.flatnonzero(~up)
        state.lose(dark, np.zeros(len(dark)), self.follower.allowance[dark])
        settle(state, self.every, home, levels, (up, state.running.copy(), pattern))
        self.dense = DenseStep(homes, powers, state, self.tally)
        self.switch = Switch(homes, powers, levels, state, self.follower.allowance, self.tally)
        self.climbs = not (powers.source is None and powers.dc_source is None)
        self.stopped = 0
        self.trace = trace

    def run(self) -> None:
        """Go through all steps, or until no lane has anything left to meet."""
        powers, state, dense, follower = self.powers, self.state, self.dense, self.follower
        energy = state.energy.reshape(self.lanes)
        since = 0.0
        for step, length in enumerate(powers.duration):
            if length == 0.0:
                continue
            if dense.advance(step, energy) or self.books is not None:
                self._meet(step, since)
                dense.refresh()
            if self.tally is not None:
                self.tally.end(step)
            since, follower.previous = powers.ends[step], step
            energy, dense.landing = dense.landing, energy
            state.energy = energy.reshape(-1)
            if self.climbs:
                np.minimum(dense.least, energy, out=dense.least)
            if self.trace is not None:
                self.trace.append(state.energy.copy())
            if self._is_over(since):
                break
        if not self.climbs and self.powers.allowed is None:
            np.copyto(state.min_energy, state.energy)
        state.close(powers.ends[-1])

    def _meet(self, step: int, since: float) -> None:
        """Take the lanes with events through the step."""
        dense, landing = self.dense, self.dense.landing.reshape(-1)
        if self.books is not None:
            self.follower.follow(step, self.every, since, landing, [])
            return
        index = np.flatnonzero(dense.hard) if dense.is_hard else self.every[:0]
        midway: list[Midway] = []
        if dense.is_hit:
            begun = self.state.energy[dense.hit_lanes]
            left = np.full(len(begun), self.powers.duration[step])
            flow = None if self.tally is None else dense.hit_flow
            leg = Leg(dense.hit_lanes, begun, dense.hit_energy, left, flow)
            midway = self.switch.resolve(step, leg, landing)
        if dense.is_hard or midway:
            self.follower.follow(step, index, since, landing, midway)

    def _is_over(self, now: float) -> bool:
        state, dense = self.state, self.dense
        if not dense.is_dark:
            return False
        if self.stop_when_lost:
            lost = np.flatnonzero(state.lost_at < now)
            if len(lost):
                state.stop(lost, now, self.powers.ends[-1])
                self.stopped += len(lost)
                dense.refresh()
            return self.stopped == len(self.every)
        return self.books is None and self.tally is None and dense.is_over

    def answer(self, generator: GeneratorRun | None) -> StepsRun:
        """What was met, in the shape of the lanes."""
        state, lanes, end = self.state, self.lanes, self.powers.ends[-1]

        def times(first: First) -> tuple[Floats, Flags]:
            time = np.where(first.seen, first.time, end)
            return time.reshape(lanes), first.seen.reshape(lanes)

        offs = [times(first) for first in state.tier_off]
        held, loss, limit = times(state.held), times(state.loss), times(state.limit)
        account = None if self.tally is None else self.tally.answer()
        if self.books is not None:
            tank = np.asarray(np.inf if generator is None else generator.tank, dtype=np.float64)
            refills = np.asarray(0.0 if generator is None else generator.refills, dtype=np.float64)
            account = self.books.answer(lanes, state.fuel_used.reshape(lanes), tank, refills)
        return StepsRun(
            held=held[0],
            held_seen=held[1],
            first_loss=loss[0],
            first_loss_seen=loss[1],
            tier_first_off=np.array([off[0] for off in offs]).reshape(-1, *lanes),
            tier_first_off_seen=np.array([off[1] for off in offs], dtype=np.bool_).reshape(
                -1, *lanes
            ),
            dark_time=state.dark_time.reshape(lanes),
            restarts=state.restarts.reshape(lanes),
            min_energy=state.min_energy.reshape(lanes),
            end_energy=state.energy.reshape(lanes),
            first_power_limit=limit[0],
            first_power_limit_seen=limit[1],
            account=account,
        )
