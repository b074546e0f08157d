"""The main conductors of a dwelling, which carry all of its load, at 83 % of their rating."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import reaches

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]

#: Share of the rating that the ampacity must reach [1].
#: Source: NEC 2023 (NFPA 70) 310.12. Standing: secondary.
_SHARE: Final = 0.83
#: Ratings for which the rule stands [A]. Source: as above.
_FROM, _TO = 100.0, 400.0


def dwelling_service(
    rating: ArrayLike, terminal: Floats, conditions: Floats, carries_all: ArrayLike
) -> Bools:
    """Return which sizes the rule for dwellings admits.

    Parameters
    ----------
    rating : array_like, broadcastable to shape (L,)
        Of the service or feeder [A].
    terminal : ndarray, shape (L, N)
        Ampacity in the column of the terminals [A].
    conditions : ndarray, shape (L, N)
        Ampacity under the conditions of use [A].
    carries_all : array_like of bool, broadcastable to shape (L,)
        Whether the conductors carry the whole load of one dwelling. Never the circuit of a source,
        of a backed-up panel or of a detached garage.

    Returns
    -------
    ndarray of bool, shape (L, N)

    Notes
    -----
    Source: NEC 2023 (NFPA 70) 310.12(A) and (B), as told by secondary sources.
    """
    amps = np.asarray(rating, np.float64)[..., np.newaxis]
    ranged = reaches(amps, _FROM, "current") & reaches(_TO, amps, "current")
    least = _SHARE * amps
    enough = reaches(terminal, least, "current") & reaches(conditions, least, "current")
    return np.asarray(enough & ranged & np.asarray(carries_all, np.bool_)[..., np.newaxis])
