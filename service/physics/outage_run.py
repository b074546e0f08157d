"""What the outage engine answers, and the codes of its events."""

from dataclasses import dataclass, field
from typing import Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Integers = NDArray[np.int64]

NO_EVENT: Final = -1
INTERVAL_END: Final = 0
SHED: Final = 1
RESTORE: Final = 2
EMPTY: Final = 3
FULL: Final = 4
RESTART: Final = 5
POWER_SHED: Final = 6


class EventBudgetExceeded(RuntimeError):
    """More events than the thresholds and the energy allow: a defect, never a property of data."""


@dataclass(frozen=True, slots=True)
class OutageRun:
    """Course of an outage, one lane a scenario.

    Times count from the start of the outage. A time that never came is the lane's `end_time`, and
    its mask is False. K is the number of classes of load, row k - 1 of a tier array is class k.

    Attributes
    ----------
    first_loss, first_loss_seen : ndarray, shape (N,)
        First time at which critical load is not served because the bus is down [s], and its mask.
    tier_first_off, tier_first_off_seen : ndarray, shape (K-1, N)
        First time at which a tier with load is off, for whatever reason [s], and its mask.
    tier_first_off_energy, tier_first_off_energy_seen : ndarray, shape (K-1, N)
        The same, off by stored energy: shed, never switched on, or the bus down [s].
    tier_first_off_power, tier_first_off_power_seen : ndarray, shape (K-1, N)
        The same, dropped because the inverter could not carry it [s].
    down_time : ndarray, shape (N,)
        Time without a bus [s].
    restarts : ndarray of int, shape (N,)
        How often a source brought the bus back.
    served, unserved : ndarray, shape (K, N)
        Energy served and not served, by class [J].
    source_used, curtailed, lost_source : ndarray, shape (N,)
        Energy of the source that was used; that was refused while the bus was up; that went by
        while the bus was down or a generator held it off [J].
    generator_used : ndarray, shape (N,)
        Energy that the generator delivered [J].
    conversion_loss : ndarray, shape (N,)
        Loss of conversion and draw at no load, summed by themselves, so that
        start energy + source_used + generator_used = end_energy + served + conversion_loss [J].
    end_energy, min_energy : ndarray, shape (N,)
        Stored energy at the end, and the least on the way [J].
    power_limited_time : ndarray, shape (N,)
        Time in which the load asked for more than the inverter carries [s].
    first_power_limit, first_power_limit_seen : ndarray, shape (N,)
        First such time [s], and its mask.
    overload : ndarray of bool, shape (N,)
        Whether critical load alone asked for more than the inverter carries: it may trip.
    first_overload : ndarray, shape (N,)
        First time at which it did [s].
    first_down, first_down_seen : ndarray, shape (N,)
        First time at which the bus is down, with or without load to miss it [s], and its mask.
    full_first, full_first_seen : ndarray, shape (N,)
        First time at which surplus meets a full battery [s], and its mask.
    end_time : ndarray, shape (N,)
        Length of the outage [s].
    events : ndarray of int, shape (N,)
        Number of sheds, restores, empties, fulls and restarts.
    rounds : int
        Steps that the engine took; every unfinished lane took one in each.
    trace_time, trace_energy, trace_event, trace_tier : list of ndarray, shape (N,)
        If asked for, one array a record: time [s], stored energy [J], code of what happened there
        (-1 nothing or the start, 0 interval end, 1 shed, 2 restore, 3 empty, 4 full, 5 restart,
        6 power shed) and the class it happened to (-1 none; at a power shed the first class that
        is not fully served). Each lane has its own times. Full is noted where charging ends at the
        capacity; a battery that starts full, or restores a tier just there, has no such record.
    """

    first_loss: Floats
    first_loss_seen: Flags
    tier_first_off: Floats
    tier_first_off_seen: Flags
    tier_first_off_energy: Floats
    tier_first_off_energy_seen: Flags
    tier_first_off_power: Floats
    tier_first_off_power_seen: Flags
    down_time: Floats
    restarts: Integers
    served: Floats
    unserved: Floats
    source_used: Floats
    curtailed: Floats
    lost_source: Floats
    generator_used: Floats
    conversion_loss: Floats
    end_energy: Floats
    min_energy: Floats
    power_limited_time: Floats
    first_power_limit: Floats
    first_power_limit_seen: Flags
    overload: Flags
    first_overload: Floats
    first_down: Floats
    first_down_seen: Flags
    full_first: Floats
    full_first_seen: Flags
    end_time: Floats
    events: Integers
    rounds: int
    trace_time: list[Floats] = field(default_factory=list)
    trace_energy: list[Floats] = field(default_factory=list)
    trace_event: list[Integers] = field(default_factory=list)
    trace_tier: list[Integers] = field(default_factory=list)
