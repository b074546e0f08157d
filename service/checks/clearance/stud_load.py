"""How many studs are behind a unit, and what each of them carries."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

#: Part of a spacing by which a width may be short and still span it [1]. Our choice.
_SAME: Final = 1e-9


class StudLoad(NamedTuple):
    """Studs behind a unit, each in the broadcast shape of the inputs.

    Attributes
    ----------
    fewest, most : ndarray of int
        Studs behind the fixings, by where the unit is slid [1].
    mass_each : ndarray
        Mass on each stud with the fewest of them; infinite where there may be none [kg].
    studs_needed : ndarray of int
        Studs among which the mass is spread so that none carries more than is allowed [1].
    holds : ndarray of bool
        The fewest are enough wherever the unit is slid.
    can_hold : ndarray of bool
        The most are enough: the unit must be placed by the studs.
    """

    fewest: NDArray[np.int64]
    most: NDArray[np.int64]
    mass_each: NDArray[np.float64]
    studs_needed: NDArray[np.int64]
    holds: NDArray[np.bool_]
    can_hold: NDArray[np.bool_]


def stud_load(
    width: ArrayLike, spacing: ArrayLike, mass: ArrayLike, allowed: ArrayLike, edge: ArrayLike = 0.0
) -> StudLoad:
    """Return how many studs a unit finds, and what each carries.

    Parameters
    ----------
    width : array_like
        Of the unit, or of the rail that it hangs on [m].
    spacing : array_like
        Of the studs, centre to centre [m].
    mass : array_like
        Of the unit with what hangs on it [kg].
    allowed : array_like
        What one stud may carry, by the maker or an engineer [kg].
    edge : array_like, optional
        What either edge of the width must overhang the middle of the outermost stud [m].

    Returns
    -------
    StudLoad
        [1], [kg].

    Notes
    -----
    Studs stand at every spacing from an unknown first one. Corners, openings and doubled studs are
    not known. The mass is shared alike: a share, no proof of the fixing.
    Source: derived; between n and n + 1 spacings there are n or n + 1 middles of studs.
    """
    spanned = np.asarray(width, dtype=np.float64) - 2.0 * np.asarray(edge, dtype=np.float64)
    spaces = np.floor(spanned / np.asarray(spacing, dtype=np.float64) + _SAME)
    fewest = np.where(spanned >= 0.0, spaces, 0.0)
    most = np.where(spanned >= 0.0, spaces + 1.0, 0.0)
    load = np.asarray(mass, dtype=np.float64)
    needed = np.maximum(np.ceil(load / np.asarray(allowed, dtype=np.float64) - _SAME), 1.0)
    with np.errstate(divide="ignore", invalid="ignore"):
        each = np.where(fewest > 0.0, load / fewest, np.inf)
    return StudLoad(
        fewest=np.asarray(fewest, dtype=np.int64),
        most=np.asarray(most, dtype=np.int64),
        mass_each=each,
        studs_needed=np.asarray(needed, dtype=np.int64),
        holds=np.asarray(fewest >= needed),
        can_hold=np.asarray(most >= needed),
    )
