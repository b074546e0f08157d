"""Outages of many lanes through the same steps: time is the outer loop, events are exact.

All lanes take a step together, in place. Only those in which something happens inside the step,
a threshold, a limit, a restart, are followed through it one event at a time.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.physics.stepped_events import follow
from service.physics.stepped_lanes import (
    BLACK_START,
    DC_RESTART,
    Generator,
    Restart,
    StepDevice,
    StepsRun,
    StepState,
    flat_device,
)

__all__ = ["Generator", "Restart", "StepsRun", "step_outages"]

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]


def step_outages(
    *,
    duration: Floats,
    load: Sequence[Floats],
    source: Sequence[Floats] | None = None,
    direct: Sequence[Floats] | None = None,
    lanes: tuple[int, ...],
    capacity: ArrayLike,
    start_energy: ArrayLike,
    floor: ArrayLike,
    discharge_fixed: ArrayLike,
    discharge_linear: ArrayLike,
    discharge_square: ArrayLike,
    charge_efficiency: ArrayLike,
    direct_efficiency: float = 1.0,
    discharge_limit: ArrayLike,
    charge_limit: ArrayLike,
    shed_at: Sequence[ArrayLike] = (),
    restore_at: Sequence[ArrayLike] = (),
    proportional: ArrayLike = False,
    restart: Restart | None = None,
    generator: Generator | None = None,
    allowance: float = 0.0,
    stop_when_lost: bool = False,
    account: bool = False,
) -> StepsRun:
    """Follow stored energy, bus, tiers and generator of many lanes through shared steps.

    Parameters
    ----------
    duration : ndarray, shape (T,)
        Length of the steps [s].
    load : sequence of T ndarray, shape (K, *lanes) or broadcastable
        Power asked for by each class in each step [W]; class 0 is critical and never shed. Rows
        may be strided views: they are read one by one.
    source, direct : sequence of T ndarray, broadcastable to the lanes, optional
        Sun on the AC bus and on the cells' side [W].
    lanes : tuple of int
        Shape of the lanes; everything below broadcasts to it.
    capacity, start_energy, floor : array_like
        Energy of the full battery, at the start, and at which the bus is lost [J].
    discharge_fixed, discharge_linear, discharge_square : array_like
        Draw on the cells at AC power p: fixed + linear * p + square * p**2 [W, 1, 1/W].
    charge_efficiency : array_like
        Stored energy per AC energy taken [1].
    direct_efficiency : float
        Stored energy per energy of the cells' side that exceeds the draw [1].
    discharge_limit, charge_limit : array_like
        Largest AC power out and power in [W].
    shed_at, restore_at : sequence of array_like
        Of each tier below the critical class: energy at or below which it is shed while
        discharging, and at or above which it is back while charging or full [J].
    proportional : array_like of bool
        Whether the excess alone goes unserved above the limit; otherwise whole tiers go, the last
        class first, while it lasts.
    restart : Restart, optional
        What brings the bus back after it was lost; absent: nothing but a generator.
    generator : Generator, optional
        It starts and stops by the stored energy.
    allowance : float
        Time without bus that is put up with [s].
    stop_when_lost : bool
        Whether a lane needs not be followed after more than the allowance was dark.
    account : bool
        Whether energies are added up; meant for few lanes.

    Returns
    -------
    StepsRun

    Raises
    ------
    EventBudgetExceeded
        Never for finite arguments in the stated ranges.

    Notes
    -----
    The rules are those of `simulate_outage`, and a test holds the two together; here the generator
    follows the charge, and DC-coupled sun meets the draw of the cells before they do. While a
    generator runs it forms the bus: the sun on the AC bus is held off. At the floor it may bring
    the bus back if it covers the load that would be on. A DC restart charges the cells with the
    loads off until the restart energy is reached.

    References
    ----------
    Energy balance and order of events: derived here. Rules of a generator and of the floor: common
    practice, no published source.
    """
    classes = len(load[0])
    device = flat_device(
        lanes,
        classes,
        capacity=capacity,
        floor=floor,
        fixed=discharge_fixed,
        linear=discharge_linear,
        square=discharge_square,
        efficiency=charge_efficiency,
        limit=discharge_limit,
        charge=charge_limit,
        shed_at=shed_at,
        restore_at=restore_at,
        proportional=proportional,
        direct_efficiency=direct_efficiency,
        restart=restart,
        generator=generator,
        allowance=allowance,
    )
    start = np.broadcast_to(np.asarray(start_energy, dtype=np.float64), lanes).reshape(-1)
    state = StepState(device, start, stop_when_lost=stop_when_lost, account=account)
    steps = _Steps(device, state, sourced=source is not None, directed=direct is not None)
    now = 0.0
    for k, span in enumerate(duration.tolist()):
        allowed = True if generator is None else generator.allowed[k]
        steps.read(
            load[k],
            None if source is None else source[k],
            None if direct is None else direct[k],
        )
        steps.take(now, span, allowed)
        now += span
        if stop_when_lost and not state.alive.any():
            break
    return state.run(lanes, float(duration.sum()))


class _Steps:
    """One dense step of all lanes, and the choice of those that must be followed."""

    def __init__(
        self, device: StepDevice, state: StepState, *, sourced: bool, directed: bool
    ) -> None:
        count, classes = device.count, device.classes
        self.device, self.state = device, state
        self.sourced, self.directed = sourced, directed
        self.curved = bool(device.square.any())
        self.load = np.zeros((classes, count))
        self.source = np.zeros(count)
        self.direct = np.zeros(count)
        self.net = np.empty(count)
        self.out = np.empty(count)
        self.work = np.empty(count)
        self.draw = np.empty(count)
        self.after = np.empty(count)
        self.flag = np.empty(count, dtype=np.bool_)
        self.busy = np.empty(count, dtype=np.bool_)
        self.allowed = np.ones(count, dtype=np.bool_)
        self.now_allowed = np.ones(count, dtype=np.bool_)

    def read(self, load: Floats, source: Floats | None, direct: Floats | None) -> None:
        """Take in the rows of a step [W]."""
        for k in range(len(self.load)):
            self._copied(self.load[k], load[k])
        if source is not None:
            self._copied(self.source, source)
        if direct is not None:
            self._copied(self.direct, direct)

    def _copied(self, into: Floats, row: Floats) -> None:
        np.copyto(into.reshape(self.device.lanes), row)

    def take(self, now: float, span: float, allowed: Flags | bool) -> None:
        """Take one step of `span` [s] that begins at `now` [s]."""
        state = self.state
        if self.device.generator is not None:
            np.copyto(self.now_allowed.reshape(self.device.lanes), allowed)
        if state.account:
            np.copyto(self.busy, state.alive)
        else:
            self._balance()
            self._look_out(span)
        if self.device.generator is not None:
            np.not_equal(self.now_allowed, self.allowed, out=self.flag)
            np.logical_and(self.flag, state.alive, out=self.flag)
            np.logical_or(self.busy, self.flag, out=self.busy)
            np.copyto(self.allowed, self.now_allowed)
        if not np.count_nonzero(self.busy):
            self._settle()
            return
        at = np.flatnonzero(self.busy)
        kept = None if state.account else state.energy[at]
        self._settle()
        if kept is not None:
            state.energy[at] = kept
        follow(
            self.device,
            state,
            at,
            now,
            span,
            load=self.load[:, at],
            source=self.source[at],
            direct=self.direct[at],
            allowed=self.allowed[at],
        )

    def _balance(self) -> None:
        """Work out what the cells give in the step with everything as it stands [W]."""
        device, state = self.device, self.state
        net, out, work, draw = self.net, self.out, self.work, self.draw
        np.multiply(self.load[0], state.on[0], out=net)
        for k in range(1, len(self.load)):
            np.multiply(self.load[k], state.on[k], out=work)
            np.add(net, work, out=net)
        if self.sourced or device.generator is not None:
            np.subtract(net, self._supply(), out=net)
            np.maximum(net, 0.0, out=out)
        else:
            np.copyto(out, net)
        np.greater(out, device.most, out=self.busy)
        if self.curved:
            np.multiply(out, device.square, out=draw)
            np.add(draw, device.linear, out=draw)
            np.multiply(draw, out, out=draw)
        else:
            np.multiply(out, device.linear, out=draw)
        np.add(draw, device.fixed, out=draw)
        if self.directed:
            self._meet_directly()
        if self.sourced or device.generator is not None:
            np.subtract(out, net, out=work)
            np.minimum(work, self._charging(), out=work)
            np.multiply(work, device.efficiency, out=work)
            np.subtract(draw, work, out=draw)
        np.multiply(draw, state.on[0], out=draw)

    def _supply(self) -> Floats:
        engine = self.device.generator
        if engine is None:
            return self.source
        return np.where(self.state.running, engine.power, self.source)

    def _charging(self) -> Floats:
        device, engine = self.device, self.device.generator
        room = device.charge
        if self.directed:
            room = np.maximum(room + np.minimum(self.draw, 0.0), 0.0)
        if engine is None:
            return room
        return np.where(self.state.running, np.minimum(room, engine.charge), room)

    def _meet_directly(self) -> None:
        """Let the sun on the cells' side meet their draw; what exceeds it is stored."""
        device, draw = self.device, self.draw
        np.subtract(draw, self.direct, out=draw)
        stored = np.maximum(draw * device.direct_efficiency, -device.charge)
        np.copyto(draw, stored, where=draw < 0.0)

    def _look_out(self, span: float) -> None:
        """Find the lanes in which something happens inside the step."""
        device, state, flag, busy = self.device, self.state, self.flag, self.busy
        np.multiply(self.draw, span, out=self.work)
        np.subtract(state.energy, self.work, out=self.after)
        np.less(self.after, state.reach_low, out=flag)
        np.logical_or(busy, flag, out=busy)
        np.minimum(self.after, device.capacity, out=self.after)
        if device.classes > 1 or device.generator is not None:
            np.greater_equal(self.after, state.next_high, out=flag)
            np.logical_and(flag, self.draw <= 0.0, out=flag)
            np.logical_or(busy, flag, out=busy)
        if device.restarts and state.any_down:
            np.logical_or(busy, self._may_wake(span), out=busy)
        if device.generator is not None:
            np.logical_or(busy, state.running & state.alive, out=busy)
        if state.unseen_off:
            for k in range(1, device.classes):
                missed = ~state.kept[k - 1] & ~state.off_seen[k - 1] & (self.load[k] > 0.0)
                np.logical_or(busy, missed & state.up, out=busy)
        np.logical_and(busy, state.alive, out=busy)

    def _may_wake(self, span: float) -> Flags:
        """Return the lanes without bus that may get it back, and let the others wait."""
        device, state = self.device, self.state
        down = state.alive & ~state.up
        wakes = ~np.isfinite(state.held)
        if device.generator is not None:
            wakes |= self.now_allowed & (device.generator.power >= self.load[0])
        restart = device.restart
        if restart is not None and restart.mode == BLACK_START:
            wakes |= (self.source > 0.0) & (self.source >= restart.power)
        elif restart is not None and restart.mode == DC_RESTART:
            wakes |= self.direct > 0.0
        waits = down & ~wakes
        np.add(state.dark, span, out=state.dark, where=waits)
        np.copyto(state.waited, 0.0, where=waits)
        return np.asarray(down & wakes)

    def _settle(self) -> None:
        """Let the energies of all lanes pass to the end of the step."""
        if not self.state.account:
            np.copyto(self.state.energy, self.after, where=self.state.up)
