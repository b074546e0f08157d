"""Which level a lane meets next, and what it then becomes, for every pattern of tiers."""

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_steps_home import Rows, Shape, Thresholds

Floats = NDArray[np.float64]
Patterns = NDArray[np.intp]


class Levels:
    """Tables of the next level by pattern of tiers and lane.

    In a pattern, bit k - 1 says whether stored energy lets tier k run.

    Attributes
    ----------
    patterns : int
        Number of patterns.
    kept : ndarray, shape (K-1, patterns)
        1 where a tier runs in a pattern, else 0.
    changed : ndarray, shape (patterns,)
        Class that differs between two patterns, by their exclusive or; 0 where none does.
    narrowest : ndarray
        Narrowest band from a shed level to its restore level [J]; broadcasts to the lanes.

    Notes
    -----
    The tables hold 2**K rows. Among levels at one energy, a shed goes before the loss of the bus,
    the lowest priority first, and the highest priority is restored first.
    """

    def __init__(self, bounds: Thresholds, lanes: Shape, tiers: int) -> None:
        self.patterns = 1 << tiers
        bits = np.arange(self.patterns)
        self.kept = np.array([(bits >> k) & 1 for k in range(tiers)], dtype=np.float64)
        self.kept = self.kept.reshape(tiers, self.patterns)
        self.changed = np.zeros(self.patterns, dtype=np.intp)
        for k in range(tiers):
            self.changed[1 << k] = k + 1
        down = [self._down(bounds, pattern, tiers) for pattern in range(self.patterns)]
        up = [self._up(bounds, pattern, tiers) for pattern in range(self.patterns)]
        is_shared = all(part.size == 1 for row in down + up for part in row)
        shape: Shape = (1,) if is_shared else lanes
        self.stride = 1 if is_shared else int(np.prod(lanes))
        rows = zip(*down, *up, strict=True)
        # What all lanes share has one value, whatever the number of its axes.
        self._table = np.array(
            [
                [one.reshape(1) if is_shared else np.broadcast_to(one, shape) for one in row]
                for row in rows
            ]
        )
        self._table = self._table.reshape(3, -1)
        self._reach = self._table[0]
        band = bounds.restore_at - bounds.shed_at
        self.narrowest = np.min(np.where(np.isfinite(band), band, np.inf), axis=0, initial=np.inf)

    @staticmethod
    def _down(bounds: Thresholds, pattern: int, tiers: int) -> tuple[Floats, Floats, Floats]:
        reach, level, after = bounds.floor_reach, bounds.floor, np.asarray(-1.0)
        for k in range(tiers):
            if pattern >> k & 1:
                first = bounds.shed_reach[k] >= reach
                reach = np.where(first, bounds.shed_reach[k], reach)
                level = np.where(first, bounds.shed_at[k], level)
                after = np.where(first, float(pattern ^ 1 << k), after)
        return reach, level, after

    @staticmethod
    def _up(bounds: Thresholds, pattern: int, tiers: int) -> tuple[Floats, Floats, Floats]:
        reach, level = np.asarray(np.inf), np.asarray(np.inf)
        after = np.asarray(float(pattern))
        for k in range(tiers - 1, -1, -1):
            if not pattern >> k & 1:
                first = bounds.restore_reach[k] <= reach
                reach = np.where(first, bounds.restore_reach[k], reach)
                level = np.where(first, bounds.restore_at[k], level)
                after = np.where(first, float(pattern | 1 << k), after)
        return reach, level, after

    def place(self, pattern: Patterns, index: Rows) -> Patterns:
        """Where the tables hold what discharge meets; charging meets `rise` places on."""
        if self.stride == 1:
            return pattern
        return np.asarray(pattern * self.stride + index)

    @property
    def rise(self) -> int:
        """Distance in the tables from what discharge meets to what charging meets."""
        return self.patterns * self.stride

    def reach(self, place: Patterns) -> Floats:
        """Energy that a step must pass [J]; infinite upwards where there is no level."""
        return np.asarray(self._reach.take(place))

    def meet(self, place: Patterns) -> tuple[Floats, Floats, Patterns]:
        """Reach and level [J], and the pattern beyond it, which is -1 where the bus is lost."""
        reach, level, after = self._table.take(place, axis=1)
        return reach, level, after.astype(np.intp)
