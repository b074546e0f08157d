"""The smallest trade size of a raceway whose sections all hold the conductors."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Bools = NDArray[np.bool_]

#: The conductors fit.
FITS: Final = 0
#: No trade size of one of the sections is large enough.
NONE_FITS: Final = 1
#: Rows of the table of fill: one conductor, two, more, and any number in a nipple.
_ONE, _TWO, _MORE, _NIPPLE = 0, 1, 2, 3
#: In place of a kind of raceway: no further section.
NO_SECTION: Final = -1
#: Inside diameter over conductor diameter at which three equal conductors may jam in a bend [1].
#: Source: NEC 2023 (NFPA 70) Chapter 9, Table 1, informational note 2. Standing: secondary.
_JAM_FROM, _JAM_TO = 2.8, 3.2
#: A count that falls short of the next whole one by no more is that one [1].
#: Source: NEC 2023 (NFPA 70) Chapter 9, note 7. Standing: secondary.
_ROUNDS_UP = 0.8


class RacewayFill(NamedTuple):
    """The raceway of each lane.

    Attributes
    ----------
    trade_size : ndarray of int, shape (L,)
        Smallest that holds the conductors in every section; -1 where there is none.
    filled : ndarray, shape (L,)
        Share of the tightest section filled at that size [1]; 0 where there is none.
    allowed : ndarray, shape (L,)
        Share that may be filled [1].
    code : ndarray of int, shape (L,)
        `FITS` or `NONE_FITS`.
    """

    trade_size: Ints
    filled: Floats
    allowed: Floats
    code: Ints


def raceway_fill(
    areas: Floats,
    counts: Ints,
    sections: Ints,
    inside: Floats,
    fill: Floats,
    nipple: ArrayLike = False,
) -> RacewayFill:
    """Return the smallest trade size for conductors of several kinds.

    Parameters
    ----------
    areas, counts : ndarray, shape (L, K)
        Area over the insulation of each kind of conductor [m2], and how many: phases, neutral and
        equipment ground alike. A cable counts once, with its largest diameter.
    sections : ndarray of int, shape (L, R)
        Kind of raceway of each section of the run, `NO_SECTION` for padding.
    inside : ndarray, shape (W, T)
        Inside area by kind of raceway and rising trade size, NaN where there is none [m2].
    fill : ndarray, shape (4,)
        Share that one, two, more conductors may fill, and any number in a nipple [1].
    nipple : array_like of bool, broadcastable to shape (L,), optional
        Whether the raceway is no longer than 24 in.

    Returns
    -------
    RacewayFill

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Chapter 9, Table 1 and notes 3, 4, 6 and 9.
    """
    count = counts.sum(axis=1)
    row = np.where(count <= 1, _ONE, np.where(count == 2, _TWO, _MORE))
    allowed = fill[np.where(np.asarray(nipple, np.bool_), _NIPPLE, row)]
    taken = (areas * counts).sum(axis=1)
    room = np.where((sections == NO_SECTION)[..., np.newaxis], np.inf, inside[sections])
    tightest = room.min(axis=1)
    share = taken[:, np.newaxis] / tightest
    fits = reaches(allowed[:, np.newaxis], share, "fraction")
    found, size = fits.any(axis=1), fits.argmax(axis=1)
    filled = np.where(found, share[np.arange(len(size)), size], 0.0)
    return RacewayFill(np.where(found, size, -1), filled, allowed, np.where(found, FITS, NONE_FITS))


def may_jam(inside_diameter: ArrayLike, conductor_diameter: ArrayLike) -> Bools:
    """Return whether three equal conductors may jam in a bend.

    Parameters
    ----------
    inside_diameter, conductor_diameter : array_like
        Of the raceway, and over the insulation of one conductor [m].

    Returns
    -------
    ndarray of bool

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Chapter 9, Table 1, informational note 2, by a secondary source.
    """
    ratio = np.asarray(inside_diameter, np.float64) / np.asarray(conductor_diameter, np.float64)
    return reaches(ratio, _JAM_FROM, "fraction") & reaches(_JAM_TO, ratio, "fraction")


def most_equal_conductors(room: ArrayLike, area: ArrayLike) -> Ints:
    """Return how many conductors of one size a raceway holds; not for mixed sizes.

    Parameters
    ----------
    room : array_like
        Area that may be filled [m2].
    area : array_like
        Over the insulation of one conductor [m2].

    Returns
    -------
    ndarray of int

    Notes
    -----
    Source: NEC 2023 (NFPA 70) Chapter 9, note 7, by a secondary source.
    """
    ratio = np.asarray(room, np.float64) / np.asarray(area, np.float64)
    whole = np.floor(ratio)
    return np.asarray(whole + reaches(ratio - whole, _ROUNDS_UP, "fraction"), np.int64)
