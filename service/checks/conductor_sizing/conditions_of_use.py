"""Ampacity under the conditions of use: heat, company in the raceway, and short parts of a run."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: The lowest ampacity of the run holds.
LOWEST: Final = 0
#: A short part of the run is left out.
SHORT_PART_EXCEPTED: Final = 1
#: A part of the run is hotter than the table of its insulation goes.
TOO_HOT: Final = 2
#: The insulation may not lie where a part of the run lies.
NOT_PERMITTED: Final = 3
#: In place of a column: the insulation may not lie there.
NO_COLUMN: Final = -1
#: A raceway up to this length adjusts for no company, 24 in [m].
#: Source: NEC 2023 (NFPA 70) 310.15(C)(1)(b) and Chapter 9, note 4. Standing: secondary.
NIPPLE: Final = 0.6096
#: A part up to the lesser of both is left out: 10 ft [m], and this share of the circuit [1].
#: Source: NEC 2023 (NFPA 70) 310.14(A)(2), exception. Standing: secondary.
_SHORT_PART, _SHORT_SHARE = 3.048, 0.10
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


class ConditionsOfUse(NamedTuple):
    """Ampacity under the conditions of use.

    Attributes
    ----------
    ampacity : ndarray, shape (L, N)
        Of every size [A]; 0 where the conductor may not be used, NaN where the table has none.
    factor : ndarray, shape (L, S)
        Of every part [1]; 0 where the conductor may not be used.
    code : ndarray of int, shape (L,)
        `LOWEST`, `SHORT_PART_EXCEPTED`, `TOO_HOT` or `NOT_PERMITTED`.
    """

    ampacity: Floats
    factor: Floats
    code: Ints


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


def conditions_of_use(
    segments: Segments, factors: Factors, ampacity: Floats, material: Ints
) -> ConditionsOfUse:
    """Return the ampacity of every size under the conditions of use.

    Parameters
    ----------
    segments : Segments
        Parts of the run.
    factors : Factors
        Tables of correction and adjustment.
    ampacity : ndarray, shape (M, 3, N)
        By material, column and size, NaN where the table has none [A].
    material : ndarray of int, shape (L,)
        Of each lane.

    Returns
    -------
    ConditionsOfUse

    Notes
    -----
    The lowest ampacity of the run holds, unless the parts that have less than another add up to no
    more than the lesser of 10 ft and 10 % of the run: then that other holds. No part is left out
    whose insulation may not lie there or may not be so hot. A run without any length has no short
    part. The terminals are judged elsewhere and gain nothing by it.
    Source: NEC 2023 (NFPA 70) 310.14(A)(2) and (3), 310.15(B) and (C), as told by secondary
    sources.
    """
    factor = segment_factors(segments, factors)
    total = segments.length.sum(axis=1)
    real = (segments.length > 0) | (total <= 0)[:, np.newaxis]
    refused = (real & (segments.column == NO_COLUMN)).any(axis=1)
    hot = (real & (factor == 0)).any(axis=1)
    column = np.maximum(segments.column, 0)
    first = column[np.arange(len(column)), real.argmax(axis=1)]
    # With one column for the whole run the factors alone say which part governs.
    share, short = _governing(segments.length, real, np.where(real, factor, np.inf))
    found = ampacity[material, first] * share[:, np.newaxis]
    mixed = (real & (column != first[:, np.newaxis])).any(axis=1)
    if mixed.any():
        each = ampacity[material[mixed, np.newaxis], column[mixed]] * factor[mixed][..., np.newaxis]
        each = np.where(real[mixed][..., np.newaxis], each, np.inf)
        found[mixed], lifted = _governing(segments.length[mixed], real[mixed], each)
        short[mixed] = lifted.any(axis=1)
    barred = refused | hot
    found[barred] = np.where(np.isnan(found[barred]), np.nan, 0.0)
    code = np.where(short, SHORT_PART_EXCEPTED, LOWEST)
    code = np.where(refused, NOT_PERMITTED, np.where(hot, TOO_HOT, code))
    return ConditionsOfUse(found, factor, code)


def _governing(length: Floats, real: Bools, value: Floats) -> tuple[Floats, Bools]:
    """Return the highest value below which lies no more than a short part, and if it is lifted."""
    more = (slice(None), slice(None)) + (np.newaxis,) * (value.ndim - 2)
    long, allowed = length[more], np.minimum(_SHORT_PART, _SHORT_SHARE * length.sum(axis=1))
    allowed = allowed[more[1:]]
    lowest = value.min(axis=1)
    governing = lowest.copy()
    for part in range(value.shape[1] if value.shape[1] > 1 else 0):
        here = value[:, part : part + 1]
        less = np.where(value < here, long, 0.0).sum(axis=1)
        usable = reaches(allowed, less, "length") & real[:, part][more[1:]]
        usable &= (length.sum(axis=1) > 0)[more[1:]]
        governing = np.where(usable, np.fmax(governing, here[:, 0]), governing)
    return governing, governing > lowest
