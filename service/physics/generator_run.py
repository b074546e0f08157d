"""What a generator can do in an outage, and when it runs."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

__all__ = ["GeneratorRun"]


@dataclass(frozen=True, slots=True)
class GeneratorRun:
    """A generator that charges a battery between two levels, by its tank and its permitted hours.

    Everything that is not said otherwise broadcasts to the shape of the lanes.

    Attributes
    ----------
    power : array_like
        AC power that it can give, derated already [W].
    start_energy, stop_energy : array_like
        Stored energy at or below which it starts, and at or above which it stops [J]; the latter
        is above the former. A stop energy above the capacity is never reached.
    allowed : array_like of bool, shape (T,) or (T, *lanes), or list of its T rows
        Whether it may run in an interval; False in quiet hours.
    charge_limit : array_like
        Largest AC power that it charges with [W]; may be infinite.
    tank : array_like
        Fuel at the start and after every refill, in any unit; infinite: it never runs dry.
    refills : array_like
        How often the empty tank is filled again, at once.
    burn_fixed : array_like
        Fuel burnt while it runs, whatever it gives [fuel/s].
    burn_linear : array_like
        Fuel burnt for what it gives [fuel/J].

    Notes
    -----
    Source: derived; running between two states of charge is common practice, no published source.
    """

    power: ArrayLike
    start_energy: ArrayLike
    stop_energy: ArrayLike
    allowed: ArrayLike | Sequence[NDArray[np.bool_]]
    charge_limit: ArrayLike = float("inf")
    tank: ArrayLike = float("inf")
    refills: ArrayLike = 0.0
    burn_fixed: ArrayLike = 0.0
    burn_linear: ArrayLike = 0.0
