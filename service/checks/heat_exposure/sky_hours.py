"""The sun that belongs to hours of a weather file."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.face_light import Sky
from service.physics.irradiance_on_plane import extraterrestrial_normal
from service.physics.sun_position import sun_position

Floats = NDArray[np.float64]


def sky_of_hours(
    ghi: ArrayLike,
    dni: ArrayLike,
    dhi: ArrayLike,
    first_hour: int,
    latitude: float,
    longitude: float,
    utc_offset: float,
) -> Sky:
    """Return light and sun of consecutive hours.

    Parameters
    ----------
    ghi, dni, dhi : array_like, shape (N,)
        Global horizontal, direct normal and diffuse horizontal irradiance, means of each hour
        [W/m2].
    first_hour : int
        Beginning of the first hour in the 365-day year, local standard time [h].
    latitude, longitude : float
        North and east positive [rad].
    utc_offset : float
        Local standard time less universal time [s].

    Returns
    -------
    Sky
        Shape (N,); the sun stands where it is in the middle of each hour [W/m2, rad].

    Notes
    -----
    Source: `sun_position`, `extraterrestrial_normal`.
    """
    hour = first_hour + np.arange(np.size(ghi), dtype=np.float64)
    zenith, azimuth = sun_position(hour + 0.5, latitude, longitude, utc_offset)
    day = np.floor(hour / 24.0) + 1.0
    return Sky(ghi, dni, dhi, zenith, azimuth, extraterrestrial_normal(day))
