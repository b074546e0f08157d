"""A cloudless day at a place whose optical depths the caller gives."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.clear_sky import clear_sky, extraterrestrial_of_depths
from service.physics.sun_position import sun_position
from service.published.optical_depths import Exponents

Floats = NDArray[np.float64]


class ClearDay(NamedTuple):
    """Sun and light on the hours of a cloudless day, shape (24,).

    Attributes
    ----------
    beam, diffuse : ndarray
        Direct normal and diffuse horizontal irradiance [W/m2].
    zenith, azimuth : ndarray
        Of the sun [rad].
    """

    beam: Floats
    diffuse: Floats
    zenith: Floats
    azimuth: Floats


def clear_day(
    day: int,
    latitude: float,
    longitude: float,
    utc_offset: float,
    beam_depth: float,
    diffuse_depth: float,
    exponents: Exponents,
) -> ClearDay:
    """Return sun and light at midnight, at one in the morning and so on, local standard time.

    Parameters
    ----------
    day : int
        Day of the year, 1 on 1 January [d].
    latitude, longitude : float
        North and east positive [rad].
    utc_offset : float
        Local standard time less universal time [s].
    beam_depth, diffuse_depth : float
        Optical depths of the place and month [1].
    exponents : Exponents
        Of the edition that the depths were made for [1].

    Returns
    -------
    ClearDay
        [W/m2, rad]; values of the moment, as `design_dry_bulb` gives temperatures.

    Notes
    -----
    Source: `clear_sky`, `sun_position`.
    """
    hour = 24.0 * (day - 1) + np.arange(24.0)
    zenith, azimuth = sun_position(hour, latitude, longitude, utc_offset)
    outside = extraterrestrial_of_depths(day)
    beam, diffuse = clear_sky(zenith, outside, beam_depth, diffuse_depth, exponents)
    return ClearDay(beam, diffuse, zenith, azimuth)
