"""State of all lanes between two steps, and what is first seen of them."""

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_steps_home import Home, Rows
from service.physics.outage_steps_levels import Levels

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Patterns = NDArray[np.intp]


class First:
    """First times [s] by lane, flat."""

    def __init__(self, lanes: int, seen: Flags | None = None) -> None:
        self.time = np.zeros(lanes)
        self.seen = np.zeros(lanes, dtype=np.bool_) if seen is None else seen

    def record(self, index: Rows, where: Flags, time: Floats) -> None:
        """Note `time` for the lanes `index[where]` that were not seen before."""
        if not np.count_nonzero(where):
            return
        at = index[where]
        new = ~self.seen[at]
        self.time[at[new]] = time[where][new]
        self.seen[at] = True


class State:
    """State of N lanes, flat.

    Attributes
    ----------
    energy, fuel_used : ndarray, shape (N,)
        Stored energy [J] and fuel burnt.
    live, kept : ndarray, shape (N,) and (K-1, N)
        1 where there is a bus, and where stored energy lets a tier run, else 0.
    running : ndarray of bool, shape (N,)
        Whether the generator forms the bus.
    low, high : ndarray, shape (N,)
        Energy below and above which a step meets an event [J]; infinite where there is none.
    is_missing, is_changed, unseen : bool, bool, list of bool
        Whether any class is missing; whether more than tiers changed since `DenseStep.refresh`;
        and which tiers some lane may still have off for the first time.
    start_at, start_reach : ndarray, shape (N,)
        Energy at or below which a step begins with the generator's start, and below which it meets
        it [J]; minus infinity where there is none.
    dark, recharging, waits : ndarray of bool, shape (N,)
        Lanes without a bus; those of them that DC sun charges up to a restart; and those of them
        that wait until a generator may run.
    off : ndarray of bool, shape (K-1, N)
        Tiers that stored energy does not let run.
    need : ndarray, shape (N,)
        Source power that may start the bus [W]; infinite where none can.
    missing : ndarray of bool, shape (K, N)
        Classes that are off and were never missed so far, for want of load.
    lost_at : ndarray, shape (N,)
        Time at which the allowance is used up if the bus stays down [s].
    """

    def __init__(self, energy: Floats, classes: int) -> None:
        lanes, tiers = len(energy), classes - 1
        self.energy = energy
        # What an event changes stands in two tables, so that a few lanes are written in one go.
        self.table = table = np.zeros((6 + tiers, lanes))
        self.low, self.high, self.kept = table[0], table[1], table[2 : 2 + tiers]
        self.start_reach, self.start_at, self.need, self.live = table[2 + tiers :]
        self.flags = flags = np.zeros((5 + 2 * tiers, lanes), dtype=np.bool_)
        self.off, self.missing = flags[:tiers], flags[tiers : tiers + classes]
        self.dark, self.recharging, self.waits, self.running = flags[tiers + classes :]
        self.fuel_used = np.zeros(lanes)
        self.waited = np.zeros(lanes)
        self.waited_step = np.full(lanes, -1, dtype=np.int64)
        self.dark_since = np.zeros(lanes)
        self.dark_time = np.zeros(lanes)
        self.lost_at = np.full(lanes, np.inf)
        self.restarts = np.zeros(lanes, dtype=np.int64)
        self.min_energy = energy.copy()
        self.held = First(lanes)
        self.loss = First(lanes)
        self.limit = First(lanes)
        self.tier_seen = np.zeros((tiers, lanes), dtype=np.bool_)
        self.tier_off = [First(lanes, row) for row in self.tier_seen]
        self.is_missing = False
        self.is_changed = True
        self.unseen = [True] * tiers
        self.pattern = np.zeros(lanes, dtype=np.intp)

    def lose(self, index: Rows, time: Floats, allowance: Floats) -> None:
        """Note that the buses of some lanes go down."""
        self.dark_since[index] = time
        self.lost_at[index] = time + (allowance - self.dark_time[index])
        self.waited[index] = 0.0

    def regain(self, index: Rows, time: Floats) -> None:
        """Note that the buses of some lanes are back."""
        self.note_held(index, time)
        self.dark_time[index] += time - self.dark_since[index]
        self.lost_at[index] = np.inf
        self.restarts[index] += 1

    def note_held(self, index: Rows, time: Floats) -> None:
        """Note for lanes without bus whether the allowance is exceeded by now."""
        at = self.lost_at[index]
        self.held.record(index, at < time, at)

    def stop(self, index: Rows, now: float, horizon: float) -> None:
        """Leave lanes without bus as they are at `now` [s], to meet nothing any more."""
        self.note_held(index, np.full(len(index), now))
        self.dark_time[index] += now - self.dark_since[index]
        self.dark_since[index] = horizon
        self.lost_at[index] = np.inf
        self.recharging[index] = False
        self.waits[index] = False
        self.need[index] = np.inf
        self.missing[:, index] = False
        self.is_changed = True

    def close(self, horizon: float) -> None:
        """Account for lanes that are without bus at the end."""
        dark = np.flatnonzero(self.live == 0.0)
        self.note_held(dark, np.full(len(dark), horizon))
        self.dark_time[dark] += horizon - self.dark_since[dark]


def settle(
    state: State, index: Rows, home: Home, levels: Levels, now: tuple[Flags, Flags, Patterns]
) -> None:
    """Work out what the coming steps have to look out for in some lanes.

    Parameters
    ----------
    state : State
        Of all lanes; changed.
    index : ndarray of int, shape (M,)
        The lanes.
    home : Home
        Their constants.
    levels : Levels
        What they meet next.
    now : tuple of ndarray, each of shape (M,)
        Their bus, generator and pattern of tiers.

    Notes
    -----
    Energies in [J] throughout. Source: derived.
    """
    up, running, pattern = now
    state.is_changed = True
    tiers = len(state.off)
    dark, kept = ~up, levels.kept.take(pattern, axis=1)
    fuelled = state.fuel_used[index] < home.fuel
    restarts = dark & (home.mode == 2.0)
    place = levels.place(pattern, index)
    table = np.empty((6 + tiers, len(index)))
    table[0] = np.where(up, levels.reach(place), -np.inf)
    table[1] = np.where(up, levels.reach(place + levels.rise), np.inf)
    np.copyto(table[1], home.restart_energy + home.tolerance, where=restarts)
    table[2 : 2 + tiers] = kept
    table[3 + tiers] = np.where(up & fuelled, home.start_at, -np.inf)
    table[2 + tiers] = table[3 + tiers] - home.tolerance
    table[4 + tiers] = np.where(dark & (home.mode == 1.0), home.black_start_power, np.inf)
    table[5 + tiers] = up
    state.table[:, index] = table
    state.pattern[index] = pattern
    rows = np.empty((5 + 2 * tiers, len(index)), dtype=np.bool_)
    rows[:tiers] = kept == 0.0
    rows[tiers] = dark & ~state.loss.seen[index]
    rows[tiers + 1 : tiers + 1 + tiers] = (dark | rows[:tiers]) & ~state.tier_seen[:, index]
    rows[-4] = dark
    rows[-3] = restarts
    rows[-2] = dark & fuelled & (home.power > 0.0)
    rows[-1] = running
    state.flags[:, index] = rows
