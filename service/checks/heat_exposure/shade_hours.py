"""What a wall's tree, or its shade of the whole day, lets through of the direct sun."""

from __future__ import annotations

from typing import Final, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.tree_shade import beam_through, month_of_hour
from service.facts import HangingWall

Floats = NDArray[np.float64]

_HOURS, _DAY = 8760, 24
_OPEN: Final = np.ones(_DAY)


class ShadeHours(NamedTuple):
    """Part let through by month [1], and the hours between which it shades [h]."""

    by_month: tuple[float, ...]
    from_hour: float
    to_hour: float


def shade_hours_of(wall: HangingWall | None) -> ShadeHours | None:
    """Return what shades a wall by the clock; None where nothing does."""
    if wall is None:
        return None
    if wall.full_shade:
        return ShadeHours((0.0,) * 12, 0.0, float(_DAY))
    if wall.tree is None:
        return None
    parts = np.resize(np.array(wall.tree.through_percent) / 100.0, 12)
    return ShadeHours(tuple(parts.tolist()), wall.tree.from_hour, wall.tree.to_hour)


def through_of(shade: ShadeHours | None, day: int) -> Floats:
    """Return the part of the beam let through on a day, shape (24,) [1]."""
    if shade is None:
        return _OPEN
    month = month_of_hour()[day * _DAY : (day + 1) * _DAY]
    return np.asarray(beam_through(month, np.arange(_DAY), *shade))


def through_year_of(shade: ShadeHours | None) -> Floats:
    """Return the part of the beam let through in a year, shape (1,) or (8760,) [1]."""
    if shade is None:
        return np.ones(1)
    return np.asarray(beam_through(month_of_hour(), np.arange(_HOURS) % _DAY, *shade))


def cover_of(shade: ShadeHours | None) -> float:
    """Return how much of the sky a shade known by its hours takes from the top [1].

    Notes
    -----
    As much as it takes of the direct sun through the year and the day: what lets all of it through
    covers nothing. Source: derived, our own choice.
    """
    if shade is None:
        return 0.0
    hours = shade.to_hour - shade.from_hour
    hours += _DAY * (hours < 0.0)
    return float(1.0 - np.mean(shade.by_month)) * hours / _DAY
