"""How many units the limits of stored energy allow at a place."""

from __future__ import annotations

from math import floor
from typing import Final

#: Part of a unit by which a quotient may fall short of a whole number and still be it.
_WHOLE: Final = 1e-9


def columns_allowed(
    limit: float, existing: float, per_column: float, per_unit: float, unit_limit: float
) -> int:
    """Return how many columns of units may be added.

    Parameters
    ----------
    limit, existing : float
        Of the location, and what is stored there already [J].
    per_column : float
        Of all units of a column [J].
    per_unit, unit_limit : float
        Of one listed unit, and the most that one may store [J].

    Returns
    -------
    int
        0 where one unit stores more than a unit may.

    Notes
    -----
    Exactly at a limit is within it. Source: IRC 2021 R328.5, secondary, for what is limited; the
    count derived.
    """
    if over(per_unit, unit_limit):
        return 0
    return max(0, floor((limit - existing) / per_column + _WHOLE))


def over(stored: float, limit: float) -> bool:
    """Return whether a stored energy is over a limit.

    Parameters
    ----------
    stored, limit : float
        [J].

    Returns
    -------
    bool

    Notes
    -----
    Source: derived.
    """
    return stored > limit * (1.0 + _WHOLE)
