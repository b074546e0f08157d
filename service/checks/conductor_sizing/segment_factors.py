"""Parts of a run with conditions of their own, and the factors of heat and company in each."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: In place of a column: the insulation may not lie there.
NO_COLUMN: Final = -1
#: A raceway up to this length adjusts for no company, 24 in [m].
#: Source: NEC 2023 (NFPA 70) 310.15(C)(1)(b) and Chapter 9, note 4. Standing: secondary.
NIPPLE: Final = 0.6096
#: A temperature that exceeds the upper end of a band by less lies in it [K]. Standing: derived.
_SAME_TEMPERATURE = 1e-6


class Segments(NamedTuple):
    """Parts of the run with conditions of their own, padded with parts of no length.

    Attributes
    ----------
    length : ndarray, shape (L, S)
        One way [m].
    ambient : ndarray, shape (L, S)
        Around the raceway or cable, with what a roof adds [K].
    counted : ndarray of int, shape (L, S)
        Current-carrying conductors together there.
    raceway_length : ndarray, shape (L, S)
        Of the raceway or bundle they are together in [m].
    column : ndarray of int, shape (L, S)
        Column of the ampacity table that the insulation has there, wet or dry; `NO_COLUMN`.
    """

    length: Floats
    ambient: Floats
    counted: Ints
    raceway_length: Floats
    column: Ints


class Factors(NamedTuple):
    """The tables of correction and adjustment.

    Attributes
    ----------
    ambient_to : ndarray, shape (B,)
        Upper ends of the bands of temperature, rising [K].
    ambient : ndarray, shape (B, 3)
        Factor by band and column, NaN where there is none [1].
    counted_to : ndarray, shape (K,)
        Upper ends of the bands of count, rising; the last infinite.
    counted : ndarray, shape (K,)
        Factor by band [1].
    """

    ambient_to: Floats
    ambient: Floats
    counted_to: Floats
    counted: Floats


def segment_factors(segments: Segments, factors: Factors) -> Floats:
    """Return the product of both factors for every part, shape (L, S) [1].

    Notes
    -----
    A band is taken whole, without interpolation: the first whose upper end is not exceeded.
    Source: NEC 2023 (NFPA 70) Tables 310.15(B)(1)(1) and 310.15(C)(1).
    """
    band = np.searchsorted(factors.ambient_to, segments.ambient - _SAME_TEMPERATURE)
    beyond = np.vstack([factors.ambient, np.full((1, 3), np.nan)])
    ambient = beyond[band, np.maximum(segments.column, 0)]
    company = factors.counted[np.searchsorted(factors.counted_to, segments.counted)]
    company = np.where(reaches(NIPPLE, segments.raceway_length, "length"), 1.0, company)
    usable = ~np.isnan(ambient) & (segments.column != NO_COLUMN)
    return np.where(usable, ambient * company, 0.0)
