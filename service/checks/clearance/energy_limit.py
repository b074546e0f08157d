"""How many units the limits of stored energy allow at a place."""

from __future__ import annotations

from collections.abc import Sequence
from math import floor
from typing import Final, NamedTuple

#: Part of a unit by which a quotient may fall short of a whole number and still be it.
_WHOLE: Final = 1e-9


class EnergyReadings(NamedTuple):
    """Whether stored energy is within the limits, read in both ways.

    Attributes
    ----------
    per_location : tuple of bool
        Whether each location is within its own limit.
    per_property : bool
        Whether all of them together are within the limit of a property.
    total : float
        Of all locations [J].
    """

    per_location: tuple[bool, ...]
    per_property: bool
    total: float


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


def energy_readings(
    locations: Sequence[tuple[float, float]], property_limit: float
) -> EnergyReadings:
    """Return whether stored energy is within the limits, for each location and for all together.

    Parameters
    ----------
    locations : sequence of (stored, limit)
        By class of location [J].
    property_limit : float
        Of all together, where the text is read so [J].

    Returns
    -------
    EnergyReadings

    Notes
    -----
    Source: NFPA 855 2023, 15.5.2, "for each location listed", secondary; the reading for a whole
    property of NFPA 855 2020, 15.7.1, secondary.
    """
    total = sum(stored for stored, _ in locations)
    return EnergyReadings(
        tuple(not over(stored, limit) for stored, limit in locations),
        not over(total, property_limit),
        total,
    )


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
