"""Readings of how a unit takes and passes heat, from cool to hot."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.exposure import Finish
from service.published.heat_defaults import heat_defaults
from service.published.sunlit_faces import surface_coefficients

Floats = NDArray[np.float64]

#: Surface coefficient of the cool, the typical and the hot reading.
_WIND = ("windy", "sheltered", "calm")
_HOUR = 3600.0


def wind_band(absorptance: ArrayLike, lag: ArrayLike | None = None) -> Finish:
    """Return readings from windy to calm, everything else as estimated: the band that is shown.

    Parameters
    ----------
    absorptance : array_like, shape () or (3,)
        Part of sunlight that the faces take in [1].
    lag : array_like, shape () or (3,), optional
        Time constant; absent: the default's own value [s].

    Returns
    -------
    Finish
        Shape (3, 1, 1) [1, W/(m2 K), W/m2, s].

    Notes
    -----
    On a sunny day the calm reading has the highest peak; on a clear night it may be the coolest.
    Source: tables surface_coefficients and heat_defaults.
    """
    defaults, coefficients = heat_defaults(), surface_coefficients()
    time = defaults["lag_h"].value * _HOUR if lag is None else lag
    wind = [coefficients[name] for name in _WIND]
    loss = defaults["sky_loss_w_m2"].value
    return Finish(*(_reading(part) for part in (absorptance, wind, loss, time)))


def finish_band(absorptance: ArrayLike, lag: ArrayLike | None = None) -> Finish:
    """Return cool, typical and hot ends of all that is not known, over which a pass must hold.

    Parameters
    ----------
    absorptance : array_like, shape () or (3,)
        Part of sunlight that the faces take in; of three, the least first [1].
    lag : array_like, shape () or (3,), optional
        Time constant; of three, the longest first. Absent: the default's band [s].

    Returns
    -------
    Finish
        Shape (3, 1, 1) [1, W/(m2 K), W/m2, s].

    Notes
    -----
    The hot reading has still air, no loss to the sky and the least lag. Its equivalent ambient is
    the highest at every hour and its lagged peak the highest; its hours over a threshold need not
    be the most, since a longer lag can hold a lower temperature for longer. Source: tables
    surface_coefficients and heat_defaults.
    """
    defaults, coefficients = heat_defaults(), surface_coefficients()
    times = np.multiply(defaults["lag_h"], _HOUR) if lag is None else lag
    wind = [coefficients[name] for name in _WIND]
    return Finish(
        *(_reading(part) for part in (absorptance, wind, defaults["sky_loss_w_m2"], times))
    )


def _reading(values: ArrayLike) -> Floats:
    return np.broadcast_to(np.asarray(values, dtype=np.float64), (3,)).reshape(3, 1, 1)
