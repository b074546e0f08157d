"""One step of all lanes at once, in place, for those that meet no event in it."""

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_power_limit import POWER_TOLERANCE
from service.physics.outage_steps_home import Homes, Powers
from service.physics.outage_steps_state import State
from service.physics.outage_steps_tally import Tally

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


class DenseStep:
    """The step rule without events, for every lane, and which lanes it does not hold for.

    Notes
    -----
    A lane that stands full is no event: charging beyond the capacity is cut off. What a feature
    costs is spent only where the feature is there.
    """

    def __init__(self, homes: Homes, powers: Powers, state: State, tally: Tally | None) -> None:
        self.tally = tally
        lanes, self.powers, self.state = powers.lanes, powers, state
        self.home = home = homes.whole
        self.landing = np.empty(lanes)
        self.net, self.draw, self.work = np.empty(lanes), np.empty(lanes), np.empty(lanes)
        self.hit, self.flag = np.empty(lanes, dtype=np.bool_), np.empty(lanes, dtype=np.bool_)
        self.hard = np.empty(lanes, dtype=np.bool_)
        self.hit_flow: Floats | None = None
        self.limit = home.discharge_limit + POWER_TOLERANCE
        self.limits = bool(np.any(np.isfinite(home.discharge_limit)))
        self.proportional = bool(np.all(home.sheds_tiers == 0.0))
        self.limits_charge = bool(np.any(np.isfinite(home.charge_limit)))
        self.charge_floor = -home.charge_limit
        self.curved = bool(np.any(home.square))
        # The larger of the two lines is the one that holds, where discharge costs more than it
        # gives; it does for every real converter.
        self.is_convex = bool(np.all(home.linear >= home.charge_efficiency))
        self.has_generator = powers.allowed is not None
        self.starts = bool(np.any(home.mode == 1.0))
        self.delays = bool(np.any(home.black_start_delay))
        # Rounding of the sum must not hide a start: what is let through is looked at once more.
        self.cover = POWER_TOLERANCE - home.fixed / home.charge_efficiency
        self.low = state.low.reshape(lanes)
        self.start_reach = state.start_reach.reshape(lanes)
        self.start_at = state.start_at.reshape(lanes)
        self.high = state.high.reshape(lanes)
        self.live = state.live.reshape(lanes)
        self.kept = state.kept.reshape(-1, *lanes)
        self.need = state.need.reshape(lanes)
        self.running, self.waits = state.running.reshape(lanes), state.waits.reshape(lanes)
        self.recharging = state.recharging.reshape(lanes)
        self.missing = state.missing.reshape(-1, *lanes)
        self.limit_seen = state.limit.seen.reshape(lanes)
        self.least = state.min_energy.reshape(lanes)
        self.refresh()

    def refresh(self) -> None:
        """Look again at what is there at all, after lanes have met events."""
        state = self.state
        if not state.is_changed:
            # Only tiers changed; whether one of them is off nowhere any more can wait.
            self.off = [True] * len(state.off)
            self.is_off = bool(self.off)
            return
        state.is_changed = False
        self.off = [bool(np.count_nonzero(row)) for row in state.off]
        self.is_off = any(self.off)
        self.is_dark = bool(np.count_nonzero(state.dark))
        self.is_running = self.has_generator and bool(np.count_nonzero(state.running))
        self.is_waiting = self.has_generator and bool(np.count_nonzero(state.waits))
        self.is_recharging = self.is_dark and bool(np.count_nonzero(state.recharging))
        self.may_start = self.is_dark and self.starts and bool((state.need < np.inf).any())
        self.misses = [bool(np.count_nonzero(row)) for row in state.missing]
        state.is_missing = any(self.misses)
        state.unseen = [not row.all() for row in state.tier_seen]
        comes = self.is_recharging or self.is_running or self.is_waiting or self.may_start
        is_quiet = self.is_dark and not comes and not state.is_missing
        self.is_over = is_quiet and bool(state.dark.all())

    def advance(self, step: int, energy: Floats) -> bool:
        """Write the energy at the step's end to `landing`; whether any lane meets an event."""
        powers = self.powers
        self.is_hard = False
        self._ask(step)
        is_sunny = self._add_source(step)
        if self.limits:
            self._limit()
        self._draw_on_cells(is_sunny)
        if powers.dc_source is not None:
            self._add_dc(step)
            is_sunny = True
        if self.is_dark:
            np.multiply(self.draw, self.live, out=self.draw)
            if self.is_recharging and powers.dc_source is not None:
                self._recharge(step)
        np.multiply(self.draw, powers.duration[step], out=self.draw)
        np.subtract(energy, self.draw, out=self.landing)
        self._look_for_hard_events(step, energy)
        self._look_for_levels(step)
        if self.tally is not None:
            self._tally(self.tally, powers.duration[step], is_sunny)
        if is_sunny:
            np.minimum(self.landing, self.home.capacity, out=self.landing)
        return self.is_hit or self.is_hard

    def _tally(self, tally: Tally, length: float, is_sunny: bool) -> None:
        """Add up the energies of the lanes without an event."""
        if self.is_dark:
            np.multiply(self.net, self.live, out=self.net)
        net, landing = self.net.reshape(-1), self.landing.reshape(-1)
        if self.is_hit:
            self.hit_flow = net[self.hit_lanes]
            net[self.hit_lanes] = 0.0
            landing[self.hit_lanes] = 0.0
        if self.is_hard:
            hard = np.flatnonzero(self.hard)
            net[hard] = 0.0
            landing[hard] = 0.0
        tally.dense(net, landing, length, is_sunny)

    def _harden(self, flag: Flags) -> None:
        """Add lanes that have to be followed event by event."""
        if np.count_nonzero(flag):
            if self.is_hard:
                np.logical_or(self.hard, flag, out=self.hard)
            else:
                np.copyto(self.hard, flag)
                self.is_hard = True

    def _ask(self, step: int) -> None:
        load, net = self.powers.load[step], self.net
        if self.is_off and self.off[0]:
            np.multiply(load[1], self.kept[0], out=net)
            np.add(net, load[0], out=net)
        elif len(load) > 1:
            np.add(load[0], load[1], out=net)
        else:
            np.copyto(net, load[0])
        for k in range(2, len(load)):
            if self.off[k - 1]:
                np.multiply(load[k], self.kept[k - 1], out=self.work)
                np.add(net, self.work, out=net)
            else:
                np.add(net, load[k], out=net)
        if self.powers.load_scale is not None:
            np.multiply(net, self.powers.load_scale, out=net)

    def _add_source(self, step: int) -> bool:
        """Take the source off the load; whether anything may charge."""
        powers = self.powers
        if powers.source is None or not powers.source[step].any():
            return False
        row = powers.source[step]
        if powers.source_scale is None:
            np.subtract(self.net, row, out=self.net)
            source = row
        else:
            np.multiply(row, powers.source_scale, out=self.work)
            np.subtract(self.net, self.work, out=self.net)
            source = self.work
        if self.may_start:
            np.greater_equal(source, self.need, out=self.flag)
            if not self.delays and np.count_nonzero(self.flag):
                # The source has to cover the load, too; only a delay counts from before that.
                np.less_equal(self.net, self.cover, out=self.hit)
                np.logical_and(self.flag, self.hit, out=self.flag)
            self._harden(self.flag)
        return True

    def _limit(self) -> None:
        np.greater(self.net, self.limit, out=self.flag)
        if not np.count_nonzero(self.flag):
            return
        if self.is_dark:
            np.logical_and(self.flag, self.live, out=self.flag)
        if self.proportional and self.tally is None:
            np.minimum(self.net, self.home.discharge_limit, out=self.net)
            np.greater(self.flag, self.limit_seen, out=self.flag)
        self._harden(self.flag)

    def _draw_on_cells(self, is_sunny: bool) -> None:
        home, net, draw = self.home, self.net, self.draw
        if is_sunny and self.limits_charge:
            np.maximum(net, self.charge_floor, out=net)
        np.multiply(net, home.linear, out=draw)
        if is_sunny:
            np.multiply(net, home.charge_efficiency, out=self.work)
            if self.is_convex:
                np.maximum(draw, self.work, out=draw)
            else:
                np.copyto(draw, self.work, where=net < 0.0)
        if self.curved:
            np.maximum(net, 0.0, out=self.work)
            np.multiply(self.work, self.work, out=self.work)
            np.multiply(self.work, home.square, out=self.work)
            np.add(draw, self.work, out=draw)
        np.add(draw, home.fixed, out=draw)

    def _add_dc(self, step: int) -> None:
        """Let DC sun relieve the cells, then charge them within what is left of the limit."""
        powers, home, draw, work = self.powers, self.home, self.draw, self.work
        assert powers.dc_source is not None
        row = powers.dc_source[step]
        dc = row if powers.dc_scale is None else np.multiply(row, powers.dc_scale, out=self.net)
        if powers.source is None:
            np.subtract(draw, dc, out=draw)
            np.multiply(draw, home.dc_efficiency, out=work)
            np.maximum(draw, work, out=draw)
        else:
            np.maximum(draw, 0.0, out=work)
            np.subtract(draw, work, out=draw)
            np.subtract(work, dc, out=work)
            np.maximum(work, home.dc_efficiency * work, out=work)
            np.add(draw, work, out=draw)
        np.maximum(draw, self.charge_floor, out=draw)

    def _recharge(self, step: int) -> None:
        """Let DC sun charge the lanes that are up to a restart."""
        powers, home, work = self.powers, self.home, self.work
        assert powers.dc_source is not None
        np.multiply(powers.dc_source[step], home.dc_efficiency, out=work)
        if powers.dc_scale is not None:
            np.multiply(work, powers.dc_scale, out=work)
        np.minimum(work, home.charge_limit, out=work)
        np.negative(work, out=work)
        np.copyto(self.draw, work, where=self.recharging)

    def _look_for_hard_events(self, step: int, energy: Floats) -> None:
        flag, powers = self.flag, self.powers
        if self.is_running:
            self._harden(self.running)
        if self.is_recharging and powers.dc_source is not None:
            np.greater(self.landing, self.high, out=flag)
            np.logical_and(flag, self.recharging, out=flag)
            self._harden(flag)
        for k, is_missing in enumerate(self.misses):
            if is_missing:
                np.greater(powers.load[step][k], 0.0, out=flag)
                np.logical_and(flag, self.missing[k], out=flag)
                self._harden(flag)
        if powers.allowed is None:
            return
        allowed = powers.allowed[step]
        if not allowed.any():
            return
        np.less_equal(energy, self.start_at, out=flag)
        np.less(self.landing, self.start_reach, out=self.hit)
        np.logical_or(flag, self.hit, out=flag)
        if self.is_waiting:
            np.logical_or(flag, self.waits, out=flag)
        np.logical_and(flag, allowed, out=flag)
        self._harden(flag)

    def _look_for_levels(self, step: int) -> None:
        hit, flag = self.hit, self.flag
        np.less(self.landing, self.low, out=hit)
        if self.is_off:
            np.greater(self.landing, self.high, out=flag)
            np.logical_or(hit, flag, out=hit)
        if self.is_hard:
            np.greater(hit, self.hard, out=hit)
        self.is_hit = bool(np.count_nonzero(hit))
        if not self.is_hit:
            return
        self.hit_lanes = np.flatnonzero(hit)
        self.hit_energy = self.landing.reshape(-1)[self.hit_lanes]
