"""Resistance and reactance of every size, out of the tables for direct and alternating current."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: Direct-current resistance for the small sizes, the alternating-current table for the others.
SMALL_BY_DC: Final = 0
#: The larger of both tables for every size.
LARGER_OF_BOTH: Final = 1
#: Materials of the tables.
COPPER: Final = 0
ALUMINUM: Final = 1
#: Change of resistance with temperature at 75 degC, by material [1/K].
#: Source: NEC 2023 (NFPA 70) Chapter 9, Table 8, note 2; from memory, not verified.
_COEFFICIENT = np.array([0.00323, 0.00330])
#: Temperature of the tables, 75 degC [K].
TABLE_TEMPERATURE: Final = 348.15


def ac_resistance(dc: Floats, ac: Floats, small: Bools, rule: int = SMALL_BY_DC) -> Floats:
    """Return the resistance of every size at 60 Hz and 75 degC.

    Parameters
    ----------
    dc : ndarray, shape (..., N)
        Direct-current resistance, stranded, NaN where the table has none [ohm/m].
    ac : ndarray, shape (..., N)
        Alternating-current resistance, NaN where the table has none [ohm/m].
    small : ndarray of bool, shape (N,)
        Sizes up to 1 AWG, for which the alternating-current table is rounded to two digits.
    rule : int, optional
        `SMALL_BY_DC` or `LARGER_OF_BOTH`.

    Returns
    -------
    ndarray, shape (..., N)
        [ohm/m]. A size that the alternating-current table leaves out takes the value of the next
        smaller one in it, the safe side.

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Chapter 9, Tables 8 and 9; which of both for which size is common
    practice, no source.
    """
    filled = from_smaller(ac)
    if rule == LARGER_OF_BOTH:
        return np.fmax(dc, filled)
    return np.where(small | np.isnan(filled), dc, filled)


def from_smaller(values: Floats) -> Floats:
    """Return a table [ohm/m] whose gaps hold the value of the next smaller size.

    Parameters
    ----------
    values : ndarray, shape (..., N)
        By rising size, NaN where the table has none [ohm/m].

    Returns
    -------
    ndarray, shape (..., N)
        NaN below the first size alone.

    Notes
    -----
    Source: derived; resistance and reactance fall with size, so this errs to the safe side.
    """
    index = np.where(np.isnan(values), 0, np.arange(values.shape[-1]))
    last = np.maximum.accumulate(index, axis=-1)
    return np.take_along_axis(values, last, axis=-1)


def temperature_factor(temperature: ArrayLike, material: Ints) -> Floats:
    """Return resistance at a temperature in parts of that at 75 degC.

    Parameters
    ----------
    temperature : array_like
        Of the conductor [K].
    material : ndarray of int
        `COPPER` or `ALUMINUM`.

    Returns
    -------
    ndarray
        [1].

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Chapter 9, Table 8, note 2; from memory, not verified.
    """
    rise = np.asarray(temperature, np.float64) - TABLE_TEMPERATURE
    return np.asarray(1.0 + _COEFFICIENT[material] * rise)


def conductor_temperature(
    ambient: ArrayLike, rated: ArrayLike, amps: ArrayLike, ampacity: ArrayLike
) -> Floats:
    """Return the temperature of a loaded conductor.

    Parameters
    ----------
    ambient : array_like
        Around it [K].
    rated : array_like
        Temperature of the column of `ampacity` [K].
    amps, ampacity : array_like
        What it carries, and what heats it from 30 degC to the rated temperature [A].

    Returns
    -------
    ndarray
        [K].

    Notes
    -----
    The rise over the ambient goes with the square of the current.
    Source: derived, heat in proportion to the losses; 30 degC is the base of Table 310.16.
    """
    full_rise = np.asarray(rated, np.float64) - 303.15
    share = np.asarray(amps, np.float64) / np.asarray(ampacity, np.float64)
    return np.asarray(np.asarray(ambient, np.float64) + full_rise * share**2)
