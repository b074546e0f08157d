"""The current that a circuit is designed for, as it flows and with the continuous part raised."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

#: What a load of three hours or more, or a source's output, counts for [1].
#: Source: NEC 2023 (NFPA 70) 210.19, 215.2, 215.3, 705.28, 706.31. Standing: secondary.
CONTINUOUS: Final = 1.25
#: What sunlight above the rated irradiance adds to the amps of a string [1].
#: Source: NEC 2023 (NFPA 70) 690.8(A). Standing: secondary.
SUNLIGHT: Final = 1.25


class DesignCurrent(NamedTuple):
    """Currents of a circuit, in the shape of the inputs broadcast.

    Attributes
    ----------
    amps : ndarray
        The most that flows for long [A]: judges conditions of use and voltage drop.
    raised_amps : ndarray
        With the continuous part raised [A]: judges terminals and the overcurrent device.
    """

    amps: Floats
    raised_amps: Floats


def design_current(continuous: ArrayLike, other: ArrayLike = 0.0) -> DesignCurrent:
    """Return the currents of a load, or of the output of a source.

    Parameters
    ----------
    continuous : array_like
        What flows for three hours or more [A]. The output current of a source counts so; sources
        that share a circuit are added first and raised once.
    other : array_like, optional
        What flows for less [A].

    Returns
    -------
    DesignCurrent

    Notes
    -----
    Source: NEC 2023 (NFPA 70) 215.2(A)(1), 705.28(A), 706.30(A), as told by secondary sources.
    """
    lasting, short = np.broadcast_arrays(
        np.asarray(continuous, np.float64), np.asarray(other, np.float64)
    )
    return DesignCurrent(lasting + short, CONTINUOUS * lasting + short)


def array_current(short_circuit: ArrayLike, strings: ArrayLike = 1.0) -> DesignCurrent:
    """Return the currents of a DC source circuit of photovoltaic strings in parallel.

    Parameters
    ----------
    short_circuit : array_like
        Rated short-circuit current of a string [A].
    strings : array_like, optional
        How many feed the circuit.

    Returns
    -------
    DesignCurrent

    Notes
    -----
    Source: NEC 2023 (NFPA 70) 690.8(A)(1) and (B)(1); from memory, not verified.
    """
    amps = SUNLIGHT * np.asarray(short_circuit, np.float64) * np.asarray(strings, np.float64)
    return design_current(amps)
