"""Part-load losses of an inverter: a curve through two published efficiencies."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]


def schmid_coefficients(
    efficiency_10: ArrayLike, efficiency_100: ArrayLike
) -> tuple[Floats, Floats]:
    """Coefficients of the loss curve through the efficiencies at 10 % and 100 % of rated power.

    Parameters
    ----------
    efficiency_10, efficiency_100 : array_like, shape (N,)
        Efficiency at a tenth of the rated AC power and at the rated AC power [1], in (0, 1].

    Returns
    -------
    p0, k : ndarray, shape (N,)
        Constant loss and quadratic loss as parts of the rated AC power [1].

    Notes
    -----
    With p = P / P_rated the input power is ``P_rated * (p + p0 + k * p**2)``, so that the
    efficiency is ``p / (p + p0 + k * p**2)``. Written out at p = 0.1 and at p = 1 this is a pair
    of linear equations; solved::

        p0 = (10 / efficiency_10 - 1 / efficiency_100 - 9) / 99
        k  = 1 / efficiency_100 - p0 - 1

    The constant loss flows at every load. Use this curve together with the efficiency of the
    cells, or a round-trip efficiency together with an idle draw, never both.

    References
    ----------
    The form of the curve: Schmid, J. and Schmidt, H., "Inverters for photovoltaic systems", 1991
    (from memory, not verified). The solution for p0 and k is derived here.
    """
    low = np.asarray(efficiency_10, dtype=np.float64)
    rated = np.asarray(efficiency_100, dtype=np.float64)
    constant = (10.0 / low - 1.0 / rated - 9.0) / 99.0
    return constant, 1.0 / rated - constant - 1.0


def discharge_coefficients(
    rated_power: ArrayLike, p0: ArrayLike, k: ArrayLike, cell_efficiency: ArrayLike
) -> tuple[Floats, Floats, Floats]:
    """Draw on the cells as a quadratic in AC power, of an inverter with a part-load curve.

    Parameters
    ----------
    rated_power : array_like, shape (N,)
        Rated AC power of the inverters that are on, all units together [W].
    p0, k : array_like, shape (N,)
        Constant and quadratic loss as parts of the rated power [1].
    cell_efficiency : array_like, shape (N,)
        One-way efficiency of the cells on discharge [1], in (0, 1].

    Returns
    -------
    fixed : ndarray, shape (N,)
        Draw at no load [W].
    linear : ndarray, shape (N,)
        Draw per watt of AC power [1].
    square : ndarray, shape (N,)
        Draw per watt squared of AC power [1/W].

    References
    ----------
    Derived here from the curve of `schmid_coefficients`, divided by the efficiency of the cells.
    """
    rated = np.asarray(rated_power, dtype=np.float64)
    cells = np.asarray(cell_efficiency, dtype=np.float64)
    fixed = np.asarray(p0, dtype=np.float64) * rated / cells
    square = np.asarray(k, dtype=np.float64) / (rated * cells)
    return fixed, 1.0 / cells, square
