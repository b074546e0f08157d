"""Record of every event and interval end, for the time series of a few lanes."""

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_lanes import Lanes
from service.physics.outage_run import INTERVAL_END, NO_EVENT, POWER_SHED

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Integers = NDArray[np.int64]


class Trace:
    """Times, energies and event codes, one array of shape (N,) a record.

    Attributes
    ----------
    time, energy : list of ndarray
        Each lane's own time [s] and stored energy [J].
    event, tier : list of ndarray of int
        What happened to the lane there and to which class; -1 where nothing did.
    """

    def __init__(self, lanes: Lanes) -> None:
        count = len(lanes.time)
        self.time: list[Floats] = []
        self.energy: list[Floats] = []
        self.event: list[Integers] = []
        self.tier: list[Integers] = []
        self._limited = np.zeros(count, dtype=np.bool_)
        lanes.code = np.full(count, NO_EVENT, dtype=np.int64)
        self._append(lanes.time, lanes.energy, lanes.code, lanes.tier)

    def record(self, lanes: Lanes, hit: Flags, open_lanes: Flags) -> None:
        """Keep what the round did, and make ready for the next.

        Parameters
        ----------
        lanes : Lanes
            After the round.
        hit : ndarray of bool, shape (N,)
            Lanes that met an event; the other open ones met their interval's end.
        open_lanes : ndarray of bool, shape (N,)
            Lanes that had time left before the round.
        """
        assert lanes.code is not None
        np.copyto(lanes.code, INTERVAL_END, where=open_lanes & ~hit)
        self._append(lanes.time, lanes.energy, lanes.code, lanes.tier)
        lanes.code.fill(NO_EVENT)
        lanes.tier.fill(NO_EVENT)

    def park(self, lanes: Lanes, gone: Flags) -> None:
        """Keep the end of the outage for lanes that wait it out in the dark."""
        if np.count_nonzero(gone):
            event = np.where(gone, INTERVAL_END, NO_EVENT)
            self._append(lanes.time, lanes.energy, event, lanes.tier)

    def power_shed(self, lanes: Lanes, limited: Flags, short: Flags) -> None:
        """Keep the start of a power limit, before the round is advanced.

        Parameters
        ----------
        lanes : Lanes
            Before the round.
        limited : ndarray of bool, shape (N,)
            Lanes in which the limit binds.
        short : ndarray of bool, shape (K, N)
            Classes that are not fully served.
        """
        begins = limited & ~self._limited
        self._limited = limited
        if np.count_nonzero(begins):
            event = np.where(begins, POWER_SHED, NO_EVENT)
            tier = np.where(begins & short.any(axis=0), short.argmax(axis=0), NO_EVENT)
            self._append(lanes.time, lanes.energy, event, tier)

    def _append(self, time: Floats, energy: Floats, event: Integers, tier: Integers) -> None:
        self.time.append(time.copy())
        self.energy.append(energy.copy())
        self.event.append(event.copy())
        self.tier.append(tier.copy())
