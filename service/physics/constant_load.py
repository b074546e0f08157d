"""The largest load that a battery alone holds for a given time."""

import numpy as np
from numpy.typing import ArrayLike, NDArray


def largest_constant_load(
    energy: ArrayLike,
    horizon: ArrayLike,
    fixed: ArrayLike,
    linear: ArrayLike,
    square: ArrayLike,
    limit: ArrayLike,
) -> NDArray[np.float64]:
    """Largest constant AC load that stored energy and inverter power hold over a horizon.

    Parameters
    ----------
    energy : array_like, shape (N,)
        Stored energy above the floor, measured at the cells [J], not negative.
    horizon : array_like, shape (N,)
        Time to hold the load [s], above 0.
    fixed : array_like, shape (N,)
        Draw on the cells at no load [W].
    linear : array_like, shape (N,)
        Draw on the cells per watt of AC power [1], above 0.
    square : array_like, shape (N,)
        Draw on the cells per watt squared of AC power [1/W], not negative.
    limit : array_like, shape (N,)
        Continuous AC power of the inverters [W]; may be infinite.

    Returns
    -------
    ndarray, shape (N,)
        AC power [W]; 0 where the draw at no load alone uses up the energy.

    Notes
    -----
    The load P solves ``fixed + linear * P + square * P**2 = energy / horizon``. The root is taken
    in the form ``2 q / (linear + sqrt(linear**2 + 4 * square * q))`` with
    ``q = energy / horizon - fixed``, which loses no digits as `square` goes to 0. Without source
    the stored energy falls monotonically, so the load is held over the horizon exactly when its
    draw does not exceed the mean draw that the energy affords.

    References
    ----------
    Derived here from the energy balance of a constant load.
    """
    spare = np.asarray(energy, dtype=np.float64) / np.asarray(horizon, dtype=np.float64)
    spare = np.maximum(spare - np.asarray(fixed, dtype=np.float64), 0.0)
    slope = np.asarray(linear, dtype=np.float64)
    bend = np.asarray(square, dtype=np.float64)
    power = 2.0 * spare / (slope + np.sqrt(slope * slope + 4.0 * bend * spare))
    return np.asarray(np.minimum(power, np.asarray(limit, dtype=np.float64)))
