"""How long outages last, as a distribution, and the chance of riding one through."""

from __future__ import annotations

from math import erf, log, sqrt

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]

_erf = np.frompyfunc(erf, 1, 1)


def lognormal_parameters(mean: float, variation: float) -> tuple[float, float]:
    """Parameters of a lognormal distribution.

    Parameters
    ----------
    mean : float
        Mean [s], above 0.
    variation : float
        Standard deviation over the mean [1], above 0.

    Returns
    -------
    mu, sigma : float
        Mean and standard deviation of the logarithm of the duration in seconds.

    References
    ----------
    Moments of the lognormal distribution.
    """
    spread = log(1.0 + variation * variation)
    return log(mean) - 0.5 * spread, sqrt(spread)


def lognormal_cdf(time: Floats, mu: float, sigma: float) -> Floats:
    """Chance that an outage lasts no longer than a time.

    Parameters
    ----------
    time : ndarray, any shape
        [s], not negative.
    mu, sigma : float
        As of `lognormal_parameters`.

    Returns
    -------
    ndarray
        [1].

    References
    ----------
    Definition of the lognormal distribution.
    """
    positive = time > 0.0
    logs = np.log(np.where(positive, time, 1.0))
    inside = np.asarray(_erf((logs - mu) / (sigma * sqrt(2.0))), dtype=np.float64)
    return np.where(positive, 0.5 * (1.0 + inside), 0.0)


def ride_through_chance(
    held: Floats, lasts: NDArray[np.bool_], mu: float, sigma: float
) -> tuple[float, float]:
    """Chance that an outage of random start and duration is ridden through, low and high.

    Parameters
    ----------
    held : ndarray, shape (N,)
        Time that each start is held, or was followed and held [s]; N at least 1.
    lasts : ndarray of bool, shape (N,)
        Whether it outlasts the time that was followed.
    mu, sigma : float
        As of `lognormal_parameters`.

    Returns
    -------
    low, high : float
        [1]; they differ by what lies beyond the time that was followed.

    References
    ----------
    Mean of the distribution of durations over the starts, which are taken as equally likely and
    independent of the duration.
    """
    # Many starts are held equally long: each time is worked out once.
    times, place = np.unique(held, return_inverse=True)
    chance = lognormal_cdf(times, mu, sigma)[place]
    return float(chance.mean()), float(np.where(lasts, 1.0, chance).mean())
