"""Ampacity under the conditions of use: heat, company in the raceway, and short parts of a run."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.conductor_sizing.segment_factors import (
    NO_COLUMN,
    Factors,
    Segments,
    segment_factors,
)
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
#: A part up to the lesser of both is left out: 10 ft [m], and this share of the circuit [1].
#: Source: NEC 2023 (NFPA 70) 310.14(A)(2), exception. Standing: secondary.
_SHORT_PART, _SHORT_SHARE = 3.048, 0.10


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
