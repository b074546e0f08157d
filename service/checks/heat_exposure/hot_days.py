"""Which days of a year may be the hottest for a unit on a wall that faces somewhere.

Air alone does not tell: next to no September sun reaches a north wall, and a south wall near the
coast is hottest in autumn. Units of several shapes, colours and lags stand in for any unit, and the
days that are hottest for one of them are the shortlist.
"""

from __future__ import annotations

from functools import lru_cache
from typing import Final, NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.face_light import Sky
from service.checks.heat_exposure.lit_parts import Mounting, Shades
from service.checks.heat_exposure.thermal_lag import lagged
from service.checks.heat_exposure.unit_faces import TOP, face_areas
from service.checks.heat_exposure.year_on_walls import year_light

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

_HOURS: Final = 24
#: Width, height and depth of the units that stand in [m]: flat, usual, and mostly top and sides.
_SHAPES: Final = ((1.0, 1.5, 0.03), (0.76, 1.0, 0.2), (0.3, 0.3, 0.9))
#: Absorptance over surface coefficient of the units that stand in [m2 K/W]: from shade to black.
_QUOTIENTS: Final = (0.0, 0.03, 0.05, 0.07, 0.1)
_LAGS: Final = (0.0, 3.0 * 3600.0, 8.0 * 3600.0)
_LAG_STEP: Final = 900.0
#: Where parts of the day begin in which the hottest hour is sought: an outage may lie in any [h].
_PARTS: Final = (0, 7, 12, 17)
#: Ordinary ground [1], and a usual way from wall to unit and height above ground [m].
_ALBEDO, _STANDOFF, _BOTTOM = 0.2, 0.05, 0.6
_MONTHS: Final = np.cumsum([31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30])
#: What the hottest days that are picked may miss of the year [K]: of 7,800 walls of the climate
#: sites under three units one missed 1.1 and the next 0.6; black cubes on bright ground may miss
#: 2.7. Standing: derived, our own.
MISSED: Final = 1.2


class Shortlist(NamedTuple):
    """Days that may be the hottest, with the air and the light of each.

    Attributes
    ----------
    days : ndarray of int, shape (n,)
        0 on 1 January [d].
    air, ghi : ndarray, shape (n, 24)
        [K, W/m2].
    light : ndarray, shape (4, n, 24)
        On front, left, right and top, shaded by the wall alone, at ordinary ground [W/m2].
    """

    days: Ints
    air: Floats
    ghi: Floats
    light: Floats


def shortlist(air: Floats, sky: Sky, facing: float, above: float) -> Shortlist:
    """Return the days that may be the hottest on a wall.

    Parameters
    ----------
    air : ndarray, shape (8760,)
        [K].
    sky : Sky
        Shape (8760,) [W/m2, rad].
    facing : float
        Azimuth that the wall faces [rad].
    above : float
        How far the wall reaches above the unit [m].

    Returns
    -------
    Shortlist
        [d, K, W/m2].

    Notes
    -----
    The hottest of each month for a usual unit are among them. Source: derived, our own choice.
    """
    _, height, depth = _SHAPES[1]
    unit, edge = Mounting(_STANDOFF, depth, _BOTTOM, height), _BOTTOM + height + above
    light = year_light(sky, facing, unit, Shades(0.0, edge), _ALBEDO)
    areas = np.stack([face_areas(*shape) for shape in _SHAPES])
    mean = (areas / areas.sum(axis=1, keepdims=True)) @ light
    course = (air + np.reshape(_QUOTIENTS, (-1, 1, 1)) * mean).reshape(-1, 365, _HOURS)
    ways = [course @ _following(lag) for lag in _LAGS]
    parts = [np.maximum.reduceat(way, _PARTS, axis=-1) for way in ways]
    whole = [part.max(axis=-1) for part in parts]
    usual = whole[1][2 * len(_SHAPES) + 1]
    months = [part.argmax() for part in np.split(usual, _MONTHS)]
    hottest = [part.argmax(axis=1).ravel() for part in (*parts, *(one[..., None] for one in whole))]
    days = np.unique([*np.concatenate(hottest), *(np.append(0, _MONTHS) + months)])

    def of(values: ArrayLike) -> Floats:
        return np.asarray(np.asarray(values).reshape(-1, _HOURS)[days])

    return Shortlist(days, of(air), of(sky.ghi), np.stack([of(face) for face in light]))


def course_on(listed: Shortlist, quotient: float, areas: Floats, albedo: float) -> Floats:
    """Return the course of a unit on the days of a shortlist, without lag and sky loss.

    Parameters
    ----------
    listed : Shortlist
        [K, W/m2].
    quotient : float
        Absorptance over surface coefficient [m2 K/W].
    areas : ndarray, shape (4,)
        [m2].
    albedo : float
        [1].

    Returns
    -------
    ndarray, shape (n, 24)
        [K].

    Notes
    -----
    Source: derived; means by area, the ground's light reaching the upright faces by half.
    """
    parts = areas / areas.sum()
    ground = 0.5 * (albedo - _ALBEDO) * (1.0 - parts[TOP])
    light = (parts @ listed.light.reshape(parts.size, -1)).reshape(listed.ghi.shape)
    mean = light + ground * listed.ghi
    return np.asarray(listed.air + quotient * mean)


def hottest_two(course: Floats, lags: tuple[float, float], window: Floats) -> tuple[int, int]:
    """Return the hottest day and the hottest in an outage; where they are one, the next hottest.

    Parameters
    ----------
    course : ndarray, shape (n, 24)
        Of n days without lag [K].
    lags : tuple of float
        Least and longest time constant: at night a longer one is the hotter [s].
    window : ndarray, shape (24,)
        Length of each hour within the outage [s].

    Returns
    -------
    tuple of int
        Places among the days [1].

    Notes
    -----
    Each day repeats, and the lag is that of the nearest quarter of an hour: this picks days, it
    works out no temperature. Source: `lagged`.
    """
    least, most = (round(lag / _LAG_STEP) * _LAG_STEP for lag in lags)
    followed = course @ _following(least)
    if most > least:
        followed = np.maximum(followed, course @ _following(most))
    peak, inside = followed.max(axis=-1), followed[:, window > 0.0].max(axis=-1)
    first, second = int(peak.argmax()), int(inside.argmax())
    if first == second and peak.size > 1:
        peak[first] = -np.inf
        second = int(peak.argmax())
    return first, second


@lru_cache(maxsize=256)
def _following(lag: float) -> Floats:
    """Return what each hour of a repeating day gives to each, shape (24, 24) [1]."""
    return lagged(np.eye(_HOURS), lag)
