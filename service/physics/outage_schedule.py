"""Intervals of constant power, read by every lane at its own interval."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Rows = NDArray[np.intp]


def _by_interval(values: ArrayLike, intervals: int) -> Floats:
    """Power of a source as (T, 1) where all lanes share it, else as (T, N) [W]."""
    table = np.asarray(values, dtype=np.float64)
    width = table.shape[-1] if table.ndim else 1
    return np.broadcast_to(table, (intervals, width))


class Schedule:
    """Durations, loads and sources of T intervals for N lanes.

    Attributes
    ----------
    intervals, classes : int
        T and K.
    sourced : bool
        Whether there is a source or a generator at all.
    end : ndarray, shape (N,)
        After `read`: end of the interval [s].
    load : ndarray, shape (K, N)
        After `read`: power asked for, by class [W].
    source, generator, supply, ambient : ndarray, shape (N,)
        After `read`: power of the source that the bus can take, of the generator, both together,
        and of the source whether or not a generator holds it off [W].
    """

    def __init__(
        self,
        duration: ArrayLike,
        load: ArrayLike,
        source: ArrayLike | None,
        generator: ArrayLike | None,
        lanes: int,
        generator_excludes_source: bool,
    ) -> None:
        spans = np.asarray(duration, dtype=np.float64)
        self.durations = spans[:, np.newaxis] if spans.ndim == 1 else spans
        self.intervals = len(self.durations)
        self._ends = np.cumsum(self.durations, axis=0)
        loads = np.asarray(load, dtype=np.float64)
        self.loads = np.broadcast_to(loads, (self.intervals, *loads.shape[1:]))
        self.classes = int(self.loads.shape[1])
        self.lanes = lanes
        self.has_generator = generator is not None
        self.sourced = source is not None or generator is not None
        self.horizon = np.broadcast_to(self._ends[-1], (lanes,)).copy()
        self.load = np.empty((self.classes, lanes))
        self._at = np.empty(lanes, dtype=np.intp)
        self._block = np.empty(lanes, dtype=np.intp)
        self._at_class = np.empty((self.classes, lanes), dtype=np.intp)
        self._lane = np.arange(lanes, dtype=np.intp)
        self._class_lane = np.arange(self.classes * lanes, dtype=np.intp).reshape(
            self.classes, lanes
        )
        powers = [self._ends]
        if self.sourced:
            powers += self._sources(source, generator, generator_excludes_source)
        self._lay_out(powers)

    def _sources(
        self, source: ArrayLike | None, generator: ArrayLike | None, excludes: bool
    ) -> list[Floats]:
        """Source as the bus can take it, generator, both together, source as it shines [W]."""
        none = np.zeros((self.intervals, 1))
        self.ambient_power = none if source is None else _by_interval(source, self.intervals)
        engine = none if generator is None else _by_interval(generator, self.intervals)
        taken = self.ambient_power
        if excludes and generator is not None and source is not None:
            taken = np.where(engine > 0.0, 0.0, taken)
        self.taken_power, self.generator_power = taken, engine
        return [taken, engine, taken + engine, self.ambient_power]

    def _lay_out(self, powers: list[Floats]) -> None:
        """Put what all lanes share into one table and keep the rest as flat arrays."""
        shared: list[Floats] = []
        self._own: list[tuple[Floats, Floats]] = []
        slots: list[int | Floats] = []
        for values in powers:
            if values.shape[1] == 1:
                slots.append(len(shared))
                shared.append(values[:, 0])
            else:
                now = np.empty(self.lanes)
                slots.append(now)
                self._own.append((np.ascontiguousarray(values).reshape(-1), now))
        self._flat_load: Floats | None = None
        first = len(shared)
        if self.loads.shape[2] == 1:
            shared.extend(self.loads[:, k, 0] for k in range(self.classes))
        else:
            self._flat_load = np.ascontiguousarray(self.loads).reshape(-1)
        self._shared = np.array(shared).reshape(len(shared), self.intervals)
        self._shared_now = np.empty((len(shared), self.lanes))
        if self._flat_load is None:
            self.load = self._shared_now[first:]
        rows = [self._shared_now[s] if isinstance(s, int) else s for s in slots]
        self.end = rows[0]
        if self.sourced:
            self.source, self.generator, self.supply, self.ambient = rows[1:]

    def read(self, row: Rows) -> None:
        """Read the interval `row` of each lane; a lane past the last one reads the last."""
        if self._shared.shape[0]:
            self._shared.take(row, axis=1, out=self._shared_now, mode="clip")
        if self._flat_load is None and not self._own:
            return
        np.minimum(row, self.intervals - 1, out=self._at)
        if self._flat_load is not None:
            np.multiply(self._at, self.classes * self.lanes, out=self._block)
            np.add(self._class_lane, self._block, out=self._at_class)
            self._flat_load.take(self._at_class, out=self.load, mode="clip")
        if self._own:
            np.multiply(self._at, self.lanes, out=self._at)
            np.add(self._at, self._lane, out=self._at)
            for table, now in self._own:
                table.take(self._at, out=now, mode="clip")

    def last_supply(self, black_start_power: Floats) -> Rows:
        """Last interval whose source or generator might restart the bus; -1 where there is none.

        Parameters
        ----------
        black_start_power : ndarray, shape (N,)
            Least power of the source for a black start [W]; infinite: no black start.

        Returns
        -------
        ndarray of int, shape (N,)
        """
        if not self.sourced:
            return np.full(self.lanes, -1, dtype=np.intp)
        able = (self.taken_power > 0.0) & (self.taken_power >= black_start_power)
        able = able | (self.generator_power > 0.0)
        last = np.where(able.any(axis=0), self.intervals - 1 - able[::-1].argmax(axis=0), -1)
        return np.broadcast_to(last, (self.lanes,)).astype(np.intp)

    def supply_power(self) -> Floats:
        """Power of source and generator together [W], shape (T, N) or (T, 1)."""
        return self.taken_power + self.generator_power

    def remaining(self, since: Floats) -> Floats:
        """Time of each interval that lies after a lane's own time [s], shape (T, N)."""
        return np.clip(self._ends - since, 0.0, self.durations)

    def energy_asked(self, spans: Floats) -> Floats:
        """Energy that the loads ask for in given parts of the intervals [J], shape (K, N)."""
        if self.loads.shape[2] == 1:
            asked = np.einsum("tk,tn->kn", self.loads[:, :, 0], spans)
        else:
            asked = np.einsum("tkn,tn->kn", self.loads, spans)
        return np.asarray(asked)

    def first_asked(self, spans: Floats, since: Floats) -> tuple[Floats, NDArray[np.bool_]]:
        """First time after `since` at which a class has load [s], and whether it ever has.

        Both of shape (K, N); `spans` are the parts of the intervals after `since`.
        """
        asks = (self.loads > 0.0) & (spans[:, np.newaxis, :] > 0.0)
        starts = np.broadcast_to(self._ends - self.durations, spans.shape)
        first = starts[asks.argmax(axis=0), self._lane]
        return np.maximum(first, since), np.asarray(asks.any(axis=0))
