"""A unit follows what surrounds it with a lag of the first order."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]

_HOUR: Final = 3600.0
#: Time constants, in steps, below and above which a shorter or longer one is the same.
_AT_ONCE: Final = 1e-3
_NEVER: Final = 1e9


def time_constant(
    mass: ArrayLike, specific_heat: ArrayLike, coefficient: ArrayLike, area: ArrayLike
) -> Floats:
    """Return how fast a unit follows its surroundings.

    Parameters
    ----------
    mass, specific_heat : array_like
        Of the whole unit [kg, J/(kg K)].
    coefficient, area : array_like
        Heat passed through an exposed face per kelvin, and the area of those faces
        [W/(m2 K), m2].

    Returns
    -------
    ndarray
        [s].

    Notes
    -----
    Source: derived; a body of one temperature.
    """
    passed = np.multiply(coefficient, area)
    return np.asarray(np.multiply(mass, specific_heat) / passed)


def lagged(temperature: ArrayLike, constant: ArrayLike, step: float = _HOUR) -> Floats:
    """Return the temperature of a body that follows its surroundings, the course repeating.

    Parameters
    ----------
    temperature : array_like, shape (..., N)
        Of the surroundings, held through each step; after the last step the first one follows
        again [K].
    constant : array_like, shape () or (..., 1)
        Time constant; 0 follows at once [s].
    step : float, optional
        Length of a step [s].

    Returns
    -------
    ndarray, shape (..., N)
        At the end of each step [K].

    Notes
    -----
    x_k = u_k + (x_{k-1} - u_k) exp(-step / constant), with the surroundings u_k of the same step
    and x of the last step before the first: what an endless repetition settles to. That is
    exact for surroundings held through each step. The sum over all past steps is a product of
    Fourier series, since the course repeats. A longer constant never raises the highest value,
    nor lowers the lowest. Source: derived; the equation of a body of one temperature, solved.
    """
    rate = np.clip(np.asarray(constant, dtype=np.float64), _AT_ONCE * step, _NEVER * step)
    # What the mean leaves is small, and keeps its digits where the lag is long.
    given = np.asarray(temperature, dtype=np.float64)
    steps = given.shape[-1]
    mean = given.mean(axis=-1, keepdims=True)
    taken, turn = -np.expm1(-step / rate), _turn(steps)
    passed = taken / (taken + (1.0 - taken) * turn)
    return np.asarray(mean + np.fft.irfft(np.fft.rfft(given - mean) * passed, steps))


@lru_cache(maxsize=8)
def _turn(steps: int) -> NDArray[np.complex128]:
    """Return 1 - exp(-i w) at the frequencies of a course that repeats after some steps."""
    angle = 2.0 * np.pi * np.arange(steps // 2 + 1) / steps
    return np.asarray(2.0 * np.sin(0.5 * angle) ** 2 + 1j * np.sin(angle))
