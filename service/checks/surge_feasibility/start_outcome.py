"""What a start comes to: the first word that fits, then folded over its corners."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.nominal_start import Start, VoltageLimits

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: What a start comes to, worst first; in this order the first that fits is taken.
NOT_STARTED, NOT_CARRIED, UNCERTAIN, LIGHTS_DIP, STARTS = range(5)
#: What a source does beyond its printed ratings; the last: it folds back, and that is counted on.
UNKNOWN, FOLDS_BACK, TRIPS, COUNTED_FOLDED = range(4)


def outcome(start: Start, limits: VoltageLimits, beyond: Ints) -> Ints:
    """Return the word of every start.

    Parameters
    ----------
    start : Start
        What became of it, shape (L,) [V, A, s].
    limits : VoltageLimits
        Of the bus, shape (L,) [1, s].
    beyond : ndarray of int, shape (L,)
        `UNKNOWN`, `FOLDS_BACK`, `TRIPS` or `COUNTED_FOLDED`.

    Notes
    -----
    A start beyond the printed ratings is uncertain also where the source is said to fold back: no
    data sheet says how its volts sag. It counts only in the reading that counts on it.
    Source: derived, our choice of words and order.
    """
    outside = ~start.within_ratings
    return np.select(
        [
            ~start.fits | ~start.solved,
            np.isinf(start.started) | (start.trip_seconds > limits.trip_seconds),
            outside & (beyond == TRIPS),
            ~start.carried,
            outside & (beyond != COUNTED_FOLDED),
            start.dropout_seconds > limits.dropout_seconds,
            start.least_motor_volts < limits.motor_floor,
            start.least_bus < limits.floor,
        ],
        [
            UNCERTAIN,
            NOT_STARTED,
            NOT_STARTED,
            NOT_CARRIED,
            UNCERTAIN,
            UNCERTAIN,
            UNCERTAIN,
            LIGHTS_DIP,
        ],
        STARTS,
    )


def folded(
    nominal: Ints,
    pessimistic: Ints,
    optimistic: Ints,
    guessed: Bools,
    unrated: Bools,
    carried: Bools,
) -> Ints:
    """Return one word out of those of a start and of its corners.

    Parameters
    ----------
    nominal, pessimistic, optimistic : ndarray of int, shape (L,)
        Words of the start and of both corners [1].
    guessed : ndarray of bool, shape (L,)
        Whether the locked-rotor amps are a guess: then nothing is better than uncertain.
    unrated : ndarray of bool, shape (L,)
        Whether the ratings above continuous are not known: then nothing fails for want of them;
        what starts on the continuous amps alone needs none.
    carried : ndarray of bool, shape (L,)
        Whether it is carried once it runs, at one corner at least: that hangs on no such rating.

    Notes
    -----
    What starts keeps the worse of its word and the pessimistic one, if that starts too; what fails
    must fail in both corners: few amps may leave too little torque, and many too little volts.
    Source: derived, our choice.
    """
    starts = (nominal >= LIGHTS_DIP) & (pessimistic >= LIGHTS_DIP)
    best = np.maximum(pessimistic, optimistic)
    word = np.select(
        [best <= NOT_CARRIED, starts], [best, np.minimum(nominal, pessimistic)], UNCERTAIN
    )
    open_ = np.where(carried, UNCERTAIN, NOT_CARRIED)
    word = np.where(unrated & (word == NOT_STARTED), open_, word)
    return np.where(guessed, np.minimum(word, UNCERTAIN), word)
