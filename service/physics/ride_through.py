"""When a battery that charges and discharges through a year first runs down, for many starts."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.physics.outage_lanes import ENERGY_TOLERANCE

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


def first_losses(
    *,
    duration: Floats,
    balance: Sequence[Floats],
    capacity: ArrayLike,
    start_energy: ArrayLike,
    floor: ArrayLike,
    of: Ints | None = None,
) -> Floats:
    """Time at which stored energy first falls below the floor.

    Parameters
    ----------
    duration : ndarray, shape (T,)
        Length of the steps [s], the same for all lanes.
    balance : sequence of T ndarray, shape lanes
        What the cells take in less what they give within a step [W], constant in the step; rows
        may be views of one year, since they are read one by one.
    capacity, start_energy, floor : array_like, broadcastable to the lanes
        Energy of the full battery, at the start, and at which the bus is lost [J].
    of : ndarray of int, optional
        Which row of the first axis of `balance` each lane of that axis lives on; absent: its own.

    Returns
    -------
    ndarray, shape lanes
        Time of the loss [s]; infinite where the energy outlasts all steps.

    Notes
    -----
    The balance of a step depends on the hour and on the device alone as long as nothing is shed
    and nothing starts by the state of charge; what the full battery refuses is cut off, so a step
    is one sum and one minimum, and the time of the loss inside its step is a division: no event is
    stepped over. This is the outage engine's rule for that case, and a test holds the two
    together. A lane that is lost is moved to infinity, where no later step finds it again.

    References
    ----------
    Derived here from the energy balance of a battery.
    """
    shape = balance[0].shape if of is None else (of.size, *balance[0].shape[1:])
    lanes = np.broadcast_shapes(shape, np.shape(capacity), np.shape(start_energy), np.shape(floor))
    top = np.array(np.broadcast_to(np.asarray(capacity, dtype=np.float64), lanes))
    low = np.array(np.broadcast_to(np.asarray(floor, dtype=np.float64), lanes))
    energy = np.array(np.broadcast_to(np.asarray(start_energy, dtype=np.float64), lanes))
    time = np.full(lanes, np.inf)
    reach = low - ENERGY_TOLERANCE * top
    dark = energy <= low
    time[dark] = 0.0
    energy[dark] = top[dark] = np.inf
    left = energy.size - int(np.count_nonzero(dark))
    move = np.empty(lanes)
    lost = np.empty(lanes, dtype=np.bool_)
    now = 0.0
    for row, span in zip(balance, duration.tolist(), strict=True):
        if not left:
            break
        if of is None:
            np.multiply(row, span, out=move)
        else:
            np.take(row, of, axis=0, out=move, mode="clip")
            np.multiply(move, span, out=move)
        np.add(energy, move, out=energy)
        np.minimum(energy, top, out=energy)
        np.less(energy, reach, out=lost)
        found = int(np.count_nonzero(lost))
        if found:
            drawn = -move[lost]
            time[lost] = now + span * (energy[lost] + drawn - low[lost]) / drawn
            energy[lost] = top[lost] = np.inf
            left -= found
        now += span
    return np.asarray(np.maximum(time, 0.0))


def next_time(flags: NDArray[np.bool_], edges: Floats) -> Floats:
    """Time until a flagged step begins, from the beginning of every step of a year that wraps.

    Parameters
    ----------
    flags : ndarray of bool, shape (..., T)
        Steps of a year.
    edges : ndarray, shape (T + 1,)
        Their limits [s].

    Returns
    -------
    ndarray, shape (..., T)
        Time to the beginning of the first flagged step [s], 0 in a flagged step; infinite where
        the year has none.

    References
    ----------
    Derived here, own arithmetic.
    """
    year = edges[-1] - edges[0]
    begins = np.where(flags, edges[:-1], np.inf)
    first = begins.min(axis=-1, keepdims=True) + year
    following = np.minimum.accumulate(begins[..., ::-1], axis=-1)[..., ::-1]
    return np.asarray(np.minimum(following, first) - edges[:-1])
