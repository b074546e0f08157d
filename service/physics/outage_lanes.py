"""Stored energy, bus and tiers of every lane, and what each threshold does to them."""

from typing import Final

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_run import EMPTY, FULL, NO_EVENT, RESTART, RESTORE, SHED

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

ENERGY_TOLERANCE: Final = 1e-12
"""Part of the capacity within which an interval's end goes before a threshold [1] (own choice).

Far above what rounding sums up to, far below what anybody can tell: it keeps a battery that lasts
exactly to the end of the outage from failing by the last bit.
"""


class Lanes:
    """State of N lanes of a battery with K classes of load.

    Attributes
    ----------
    time, energy : ndarray, shape (N,)
        Time of the lane [s] and energy stored in it [J].
    state : ndarray of bool, shape (K, N)
        Row 0, also `up`: whether the bus is up. Below, also `kept`: tiers that stored energy lets
        run, kept through a loss of the bus.
    on : ndarray, shape (K, N)
        1 where a class is served as far as energy goes, else 0; row 0 is the bus itself.
    standby : ndarray, shape (N,)
        Draw on the cells at no load; 0 while the bus is down [W].
    next_low, next_high, next_restore : ndarray, shape (N,)
        Highest threshold below, lowest above (full included), and lowest that restores a tier
        [J]; infinite where there is none.
    lost : ndarray of bool, shape (N,)
        Lanes whose bus the last descent took down.
    """

    def __init__(
        self,
        *,
        capacity: Floats,
        start_energy: Floats,
        floor: Floats,
        shed_at: Floats,
        restore_at: Floats,
        fixed: Floats,
        climbs: bool,
    ) -> None:
        tiers, lanes = shed_at.shape
        self.capacity, self.fixed, self.climbs = capacity, fixed, climbs
        self.tolerance = ENERGY_TOLERANCE * capacity
        self.leave_at = np.concatenate((floor[np.newaxis], shed_at))
        # A band that rounding could jump is no band: such a tier stays off once it is off.
        top = np.minimum(restore_at, capacity)
        self.restore_at = np.where(top - shed_at > 4.0 * self.tolerance, top, np.inf)
        self.time = np.zeros(lanes)
        self.energy = start_energy.copy()
        self.state = start_energy > self.leave_at
        self.up, self.kept = self.state[0], self.state[1:]
        self.lost = np.zeros(lanes, dtype=np.bool_)
        self.restarts = np.zeros(lanes, dtype=np.int64)
        self.on = np.empty((tiers + 1, lanes))
        self.standby = np.empty(lanes)
        self.next_low = np.empty(lanes)
        self.reach_low = np.empty(lanes)
        self.next_high = np.empty(lanes)
        self.next_restore = np.full(lanes, np.inf)
        self.code: NDArray[np.int64] | None = None
        self.tier = np.full(lanes, NO_EVENT, dtype=np.int64)
        self._live = np.empty((tiers + 1, lanes), dtype=np.bool_)
        self._low = np.empty((tiers + 1, lanes))
        self._high = np.empty((tiers + 1, lanes))
        self._fired = np.empty((tiers + 1, lanes), dtype=np.bool_)
        self.settle()

    def settle(self) -> None:
        """Work out what is on and which thresholds come next, after a change of state."""
        live, low, high = self._live, self._low, self._high
        np.logical_and(self.state, self.up, out=live)
        np.copyto(self.on, live)
        np.multiply(self.fixed, self.on[0], out=self.standby)
        low.fill(-np.inf)
        np.copyto(low, self.leave_at, where=live)
        np.maximum.reduce(low, axis=0, out=self.next_low)
        np.subtract(self.next_low, self.tolerance, out=self.reach_low)
        if not self.climbs:
            return
        high.fill(np.inf)
        np.copyto(high[1:], self.restore_at, where=self.up & ~self.kept)
        np.minimum.reduce(high, axis=0, out=self.next_restore)
        np.copyto(high[0], self.capacity)
        np.minimum(self.next_restore, self.capacity, out=self.next_high)

    def descend(self, hit: Flags) -> None:
        """Shed the tier, the lowest priority first, or else lose the bus, at `next_low`."""
        fired = self._fired
        np.equal(self._low, self.next_low, out=fired)
        np.logical_and(fired, hit, out=fired)
        if np.count_nonzero(fired) > np.count_nonzero(hit):
            for k in range(len(fired) - 1, 0, -1):
                fired[:k] &= ~fired[k]
        np.logical_xor(self.state, fired, out=self.state)
        np.copyto(self.lost, fired[0])
        self._note(fired, SHED, EMPTY)

    def ascend(self, hit: Flags) -> None:
        """Restore the tier, the highest priority first, or else stand full, at `next_high`."""
        fired = self._fired
        np.equal(self._high, self.next_high, out=fired)
        np.logical_and(fired, hit, out=fired)
        for k in range(1, len(fired)):
            fired[k + 1 :] &= ~fired[k]
            fired[0] &= ~fired[k]
        np.logical_or(self.kept, fired[1:], out=self.kept)
        self._note(fired, RESTORE, FULL)

    def restart(self, hit: Flags) -> None:
        """Bring the bus back, with the tiers that were shed still off."""
        np.logical_or(self.up, hit, out=self.up)
        np.add(self.restarts, hit, out=self.restarts)
        self._note(hit[np.newaxis], NO_EVENT, RESTART)

    def _note(self, fired: Flags, tier_code: int, bus_code: int) -> None:
        """Leave the code of what happened to the tiers (rows 1 on) or else (row 0) for a trace."""
        if self.code is None:
            return
        np.copyto(self.code, bus_code, where=fired[0])
        for k in range(1, len(fired)):
            np.copyto(self.code, tier_code, where=fired[k])
            np.copyto(self.tier, k, where=fired[k])
