"""How the bus comes back in a stepped outage, and what the stepper answers."""

from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Integers = NDArray[np.int64]

NO_RESTART: Final = 0
SOURCE_BLACK_START: Final = 1
DC_RESTART: Final = 2


@dataclass(frozen=True, slots=True)
class StepsRestart:
    """How a lost bus comes back without a generator; everything broadcasts to the lanes.

    Attributes
    ----------
    mode : array_like of int
        0: not at all. 1: the AC source starts it. 2: the DC-coupled source charges the cells, with
        the loads off, up to `restart_energy`.
    black_start_power : array_like
        Mode 1: least source power [W].
    black_start_delay : array_like
        Mode 1: how long that power must have lasted since the bus was lost [s].
    restart_energy : array_like
        Mode 2: stored energy at which the bus is back [J]; above the floor, else it stays down.

    Notes
    -----
    Source: common practice, no published source.
    """

    mode: ArrayLike = NO_RESTART
    black_start_power: ArrayLike = 0.0
    black_start_delay: ArrayLike = 0.0
    restart_energy: ArrayLike = float("inf")


@dataclass(frozen=True, slots=True)
class StepsAccount:
    """Energies of an outage; K classes of load, every array of the lanes' shape unless said.

    Attributes
    ----------
    served, unserved : ndarray, shape (K, *lanes)
        Energy served and not served, by class [J].
    source_used, curtailed, lost_source : ndarray
        Energy of both sources that was used; that was refused while the bus was up or a DC restart
        was going on; that went by while the bus was down or a generator held it off [J].
    conversion_loss : ndarray
        Loss of conversion and draw at no load, summed by themselves, so that start energy +
        source_used + generator_energy = end_energy + served + conversion_loss [J].
    generator_energy, generator_time : ndarray
        What the generator delivered [J], and how long it ran [s].
    generator_starts, refills_used : ndarray of int
        How often it started, and how often its empty tank was filled again.
    fuel_used : ndarray
        Fuel burnt, in the unit of the tank.
    """

    served: Floats
    unserved: Floats
    source_used: Floats
    curtailed: Floats
    lost_source: Floats
    conversion_loss: Floats
    generator_energy: Floats
    generator_time: Floats
    generator_starts: Integers
    fuel_used: Floats
    refills_used: Integers


@dataclass(frozen=True, slots=True)
class StepsRun:
    """Course of many outages; every array of the lanes' shape, tiers with K - 1 rows before it.

    Times count from the start of the outage. A time that never came is the horizon, and its mask
    is False.

    Attributes
    ----------
    held, held_seen : ndarray
        Time at which the time without a bus first exceeds the allowance [s], and its mask.
    first_loss, first_loss_seen : ndarray
        First time at which critical load is not served because the bus is down [s], and its mask.
    tier_first_off, tier_first_off_seen : ndarray, shape (K-1, *lanes)
        First time at which a tier with load is off, for whatever reason [s], and its mask.
    dark_time : ndarray
        Time without a bus [s].
    restarts : ndarray of int
        How often the bus came back.
    min_energy, end_energy : ndarray
        Least stored energy on the way, at the ends of steps and at events; and at the end [J].
    first_power_limit, first_power_limit_seen : ndarray
        First time at which the load asks for more than the inverter carries [s], and its mask.
    account : StepsAccount or None
        Energies, if asked for.
    """

    held: Floats
    held_seen: Flags
    first_loss: Floats
    first_loss_seen: Flags
    tier_first_off: Floats
    tier_first_off_seen: Flags
    dark_time: Floats
    restarts: Integers
    min_energy: Floats
    end_energy: Floats
    first_power_limit: Floats
    first_power_limit_seen: Flags
    account: StepsAccount | None
