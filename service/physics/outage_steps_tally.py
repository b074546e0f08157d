"""Energies of stepped outages with no more than an AC source, without following every lane."""

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_steps_flow import Flow, Lot
from service.physics.outage_steps_home import Home, Powers, Rows
from service.physics.outage_steps_run import StepsAccount
from service.physics.outage_steps_state import State

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Patterns = NDArray[np.intp]


class Tally:
    """Sums by lane, flat; the dense step adds its lanes at once, events add theirs.

    Attributes
    ----------
    flow, into, squared : ndarray, shape (N,)
        AC energy out of the battery less that into it [J]; that into it [J]; square of the power
        out times time [W2 s].
    refused : ndarray, shape (N,)
        What charging beyond the capacity would have stored [J].
    unserved, lost : ndarray, shape (K, N) and (N,)
        Energy not served by class, and source that went by in the dark [J].

    Notes
    -----
    What is asked for is summed up once, often for all lanes together. Where a class goes off, the
    sum so far is taken off `unserved`, and put on where it is back: a class that stays off costs
    nothing. The same with the source in the dark.
    """

    def __init__(self, powers: Powers, state: State, home: Home) -> None:
        self.powers, self.state, self.home = powers, state, home
        lanes = len(state.energy)
        self.curved = bool(np.any(home.square))
        self.flow, self.into, self.refused, self.squared = np.zeros((4, lanes))
        self.unserved, self.lost = np.zeros((powers.classes, lanes)), np.zeros(lanes)
        self.asked = np.zeros(powers.load[0].shape)
        self.shone = np.zeros(() if powers.source is None else powers.source[0].shape)
        self._work, self._lane = np.empty(lanes), np.arange(lanes, dtype=np.intp)

    def dense(self, net: Floats, landing: Floats, length: float, is_sunny: bool) -> None:
        """Add a step of all lanes; those with events have no net power and do not land too high.

        Parameters
        ----------
        net, landing : ndarray, shape (N,)
            AC power out of the battery [W], and energy at the end before it is cut off at the
            capacity [J].
        length : float
            Length of the step [s].
        is_sunny : bool
            Whether anything may charge.
        """
        work = self._work
        np.multiply(net, length, out=work)
        np.add(self.flow, work, out=self.flow)
        if self.curved:
            self.squared += np.maximum(work, 0.0) * net
        if is_sunny:
            np.minimum(work, 0.0, out=work)
            np.subtract(self.into, work, out=self.into)
            np.subtract(landing, np.reshape(self._capacity(), -1), out=work)
            np.maximum(work, 0.0, out=work)
            np.add(self.refused, work, out=self.refused)

    def _capacity(self) -> Floats:
        whole = self.home.capacity
        return whole if whole.size == 1 else np.broadcast_to(whole, self.powers.lanes)

    def end(self, step: int) -> None:
        """Add up what was asked for and what shone in a step."""
        length = self.powers.duration[step]
        self.asked += self.powers.load[step] * length
        if self.powers.source is not None:
            self.shone += self.powers.source[step] * length

    def leg(self, index: Rows, flow: Floats, span: Floats, excess: Floats | None) -> None:
        """Add a part of the step of some lanes, of `span` [s], at net power `flow` [W]."""
        moved = flow * span
        self.flow[index] += moved
        self.into[index] -= np.minimum(moved, 0.0)
        if self.curved:
            self.squared[index] += np.maximum(moved, 0.0) * flow
        if excess is not None:
            self.refused[index] += np.maximum(excess, 0.0)

    def turn(self, index: Rows, load: Floats, elapsed: Floats, change: Floats) -> None:
        """Let classes go off (change 1) and come back (-1) within the step.

        Parameters
        ----------
        index : ndarray of int, shape (M,)
            The lanes.
        load, change : ndarray, shape (K, M)
            Power asked for [W], and what happens to the class.
        elapsed : ndarray, shape (M,)
            Time since the step began [s].
        """
        asked = self.powers.scaled_load(self.asked, index) + load * elapsed
        self.unserved[:, index] -= change * asked

    def switch(
        self, index: Rows, load: Floats, elapsed: Floats, turned: Patterns, change: Floats
    ) -> None:
        """The same for one class of each lane; class 0 stands for none."""
        at = turned if load.shape[1] == 1 else turned * len(index) + self._lane[: len(index)]
        asked = load.reshape(-1).take(at)
        asked *= elapsed
        asked += self.powers.scaled_class(self.asked, turned, index)
        asked *= change
        asked *= turned > 0
        # Flat places: one index is taken several times as fast as two.
        place = turned * len(self.flow)
        place += index
        flat = self.unserved.reshape(-1)
        flat[place] = flat.take(place) - asked

    def darken(self, index: Rows, source: Floats | None, elapsed: Floats, change: Floats) -> None:
        """Let the source be lost to a dark bus (change 1), or no longer (-1)."""
        if source is not None:
            shone = self.powers.scaled_source(self.shone, index) + source * elapsed
            self.lost[index] -= change * shone

    def open(self, step: int, index: Rows, lot: Lot) -> None:
        """Take lanes over that are followed from where they stand in a step."""
        self._step = step
        self._change(index, lot, self.powers.duration[step] - lot.left, -1.0)
        self._lot = np.zeros((4 + self.powers.classes, len(index)))

    def enter(self, index: Rows, lot: Lot) -> None:
        """Add what was followed, at the end of the step."""
        self.flow[index] += self._lot[0]
        self.into[index] += self._lot[1]
        self.squared[index] += self._lot[2]
        self.lost[index] += self._lot[3]
        self.unserved[:, index] += self._lot[4:]
        self._change(index, lot, np.full(len(index), self.powers.duration[self._step]), 1.0)

    def _change(self, index: Rows, lot: Lot, elapsed: Floats, sign: float) -> None:
        off = np.empty((self.powers.classes, len(index)))
        off[0] = ~lot.up
        off[1:] = ~lot.up | (lot.kept == 0.0)
        self.turn(index, lot.load, elapsed, off * sign)
        self.darken(index, lot.source, elapsed, off[0] * sign)

    def add(self, lot: Lot, flows: Flow, span: Floats) -> None:
        """Add a round of `span` [s] of the lanes that are followed."""
        self._lot[0] += (flows.out - flows.charge) * span
        self._lot[1] += flows.charge * span
        self._lot[2] += flows.out * flows.out * span
        if lot.source is not None:
            self._lot[3] += lot.source * span * ~lot.up
        self._lot[4:] += (lot.load - flows.wanted) * span

    def add_generator(self, delivered: Floats, running: Flags, span: Floats) -> None:
        """Add nothing: no generator is tallied."""

    def starts(self, started: Flags) -> None:
        """Count nothing: no generator is tallied."""

    def answer(self) -> StepsAccount:
        """Energies in the shape of the lanes, after the state is closed."""
        powers, home, state = self.powers, self.home, self.state
        every = np.arange(len(state.energy), dtype=np.intp)
        asked = np.zeros_like(self.unserved) + powers.scaled_load(self.asked, every)
        off = np.concatenate([state.dark[np.newaxis], state.off | state.dark])
        unserved = self.unserved + off * asked
        shone = np.zeros(len(every))
        if powers.source is not None:
            shone += powers.scaled_source(self.shone, every)
        lost = self.lost + state.dark * shone

        def each(values: Floats) -> Floats:
            return np.broadcast_to(values, powers.lanes).reshape(-1)

        efficiency = each(home.charge_efficiency)
        back = self.refused / efficiency
        out, into = self.flow + self.into, self.into - back
        served = asked - unserved
        used = served.sum(axis=0) - self.flow - back if powers.source is not None else shone
        loss = each(home.fixed) * (powers.ends[-1] - state.dark_time) + (1.0 - efficiency) * into
        loss += (each(home.linear) - 1.0) * out + each(home.square) * self.squared
        none = np.zeros(powers.lanes)
        shape = (-1, *powers.lanes)
        return StepsAccount(
            served=served.reshape(shape),
            unserved=unserved.reshape(shape),
            source_used=used.reshape(powers.lanes),
            curtailed=(shone - lost - used).reshape(powers.lanes),
            lost_source=lost.reshape(powers.lanes),
            conversion_loss=loss.reshape(powers.lanes),
            generator_energy=none,
            generator_time=none.copy(),
            generator_starts=none.astype(np.int64),
            fuel_used=none.copy(),
            refills_used=none.astype(np.int64),
        )
