"""A battery that only runs down: no source, nothing that is shed; every lane in one pass."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.physics.outage_power_limit import POWER_TOLERANCE

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

#: Part of the capacity by which sums of draws may pass the stored energy through rounding alone.
_SLACK = 1e-12


@dataclass(frozen=True, slots=True)
class RunDown:
    """How N batteries ran down; every array of shape (N,).

    Attributes
    ----------
    down : ndarray
        Time at which the bus is lost [s]; infinite where it outlasts the intervals.
    limited : ndarray
        First time at which the load asks for more than the inverter carries while the bus is up
        [s]; infinite where it never does.
    served, loss, end_energy : ndarray
        Energy served, lost by conversion and at no load, and left at the end [J].
    """

    down: Floats
    limited: Floats
    served: Floats
    loss: Floats
    end_energy: Floats


def run_down(
    *,
    duration: Floats,
    load: Floats,
    capacity: Floats,
    start_energy: Floats,
    floor: Floats,
    fixed: Floats,
    linear: Floats,
    square: Floats,
    limit: Floats,
) -> RunDown:
    """Run batteries down over intervals of constant load; the excess above the limit is unserved.

    Parameters
    ----------
    duration, load : ndarray, shape (T, N)
        Length [s] and load [W] of the intervals.
    capacity, start_energy, floor : ndarray, shape (N,)
        Energy of the full battery, at the start, and at which the bus is lost [J].
    fixed, linear, square : ndarray, shape (N,)
        Draw on the cells at AC power p: fixed + linear * p + square * p**2 [W, 1, 1/W].
    limit : ndarray, shape (N,)
        Continuous AC power [W].

    Returns
    -------
    RunDown

    Notes
    -----
    Without source the stored energy only falls, so the loss is where the running sum of
    draw x time passes what is stored above the floor; inside its interval the draw is constant
    and the time a division. It is the outage engine's step rule for the case that has no other
    event, and a test holds the two together. A bus that lasts exactly to an interval's end is
    not lost in it.

    References
    ----------
    Source: derived, the energy balance of a battery alone.
    """
    served_power = np.minimum(load, limit)
    draw = (square * served_power + linear) * served_power + fixed
    used = np.cumsum(draw * duration, axis=0)
    ends = np.cumsum(duration, axis=0)
    starts = ends - duration
    stored = start_energy - floor
    lost = used > stored + _SLACK * capacity
    seen = lost.any(axis=0)
    at = lost.argmax(axis=0)
    lane = np.arange(at.size)
    before = used[at, lane] - draw[at, lane] * duration[at, lane]
    spare = np.maximum(stored - before, 0.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        inside = np.where(seen, spare / draw[at, lane], 0.0)
    down = np.where(seen, starts[at, lane] + inside, np.inf)
    down = np.where(stored > 0.0, down, 0.0)
    runs = np.clip(down - starts, 0.0, duration)
    over = (load > limit + POWER_TOLERANCE) & (runs > 0.0)
    limited = np.where(over.any(axis=0), starts[over.argmax(axis=0), lane], np.inf)
    served = (served_power * runs).sum(axis=0)
    # A bus is lost at the floor itself, whatever the last bit of the sum says.
    drawn = np.where(
        seen, np.maximum(stored, 0.0), np.where(stored > 0.0, (draw * runs).sum(axis=0), 0.0)
    )
    return RunDown(
        down=down,
        limited=limited,
        served=served,
        loss=drawn - served,
        end_energy=start_energy - drawn,
    )
