"""A year of hours on some walls: what the sun does is worked out for the bright hours alone."""

from __future__ import annotations

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.exposure import Exposure, Finish, light_reaching
from service.checks.heat_exposure.face_light import Sky, weather_light
from service.checks.heat_exposure.lit_parts import Mounting, Shades, lit_parts
from service.checks.heat_exposure.sol_air import equivalent_ambient, mean_light
from service.checks.heat_exposure.wall_sun import wall_sun

Floats = NDArray[np.float64]


def year_on_walls(
    air: ArrayLike,
    sky: Sky,
    facing: ArrayLike,
    albedo: ArrayLike,
    unit: Mounting,
    shades: Shades,
    areas: ArrayLike,
    finish: Finish,
    through: ArrayLike = 1.0,
) -> Exposure:
    """Return the equivalent ambient through a year on each of some walls.

    Parameters
    ----------
    air : array_like, shape (N,) or (R, 1, N)
        [K].
    sky : Sky
        Shape (N,) [W/m2, rad].
    facing : array_like, shape (W, 1)
        Azimuth that each wall faces [rad].
    albedo : array_like, shape () or (W, 1)
        Part of the global horizontal irradiance that the ground reflects [1].
    unit, shades, areas, finish
        As in `on_walls`.
    through : array_like, shape () or (W, N), optional
        Part of the beam that trees let through [1].

    Returns
    -------
    Exposure
        Shape (R, W, N) [K]; the same as from `on_walls`, at about half the work.

    Notes
    -----
    Source: `on_walls`.
    """
    bright, dark = bright_hours(sky)
    towards = np.asarray(facing, dtype=np.float64)
    light = weather_light(bright, towards, albedo)
    lit = lit_parts(wall_sun(bright.zenith, bright.azimuth, towards), unit, shades)
    passing = np.broadcast_to(through, (towards.shape[0], dark.size))[:, ~dark]
    mean: Floats = np.zeros((towards.shape[0], dark.size))
    mean[:, ~dark] = mean_light(light_reaching(light, lit, passing), areas)
    equivalent = equivalent_ambient(
        air, mean, areas, finish.absorptance, finish.coefficient, finish.sky_loss
    )
    return Exposure(mean, equivalent, finish.lag)


def year_light(
    sky: Sky, facing: float, unit: Mounting, shades: Shades, albedo: float, through: ArrayLike = 1.0
) -> Floats:
    """Return the irradiance on the faces through a year behind all shades.

    Parameters
    ----------
    sky : Sky
        Shape (8760,) [W/m2, rad].
    facing, albedo : float
        [rad, 1].
    unit, shades
        As in `lit_parts`, of shape () or (1, 1) [m].
    through : array_like, shape () or (8760,), optional
        Part of the beam that trees let through [1].

    Returns
    -------
    ndarray, shape (4, 8760)
        [W/m2].

    Notes
    -----
    Source: `weather_light`, `lit_parts`.
    """
    bright, dark = bright_hours(sky)
    towards = np.array([[facing]])
    lit = lit_parts(wall_sun(bright.zenith, bright.azimuth, towards), unit, shades)
    passing = np.broadcast_to(through, dark.shape)[~dark]
    found: Floats = np.zeros((4, dark.size))
    light = weather_light(bright, towards, albedo)
    found[:, ~dark] = light_reaching(light, lit, passing)[:, 0]
    return found


def bright_hours(sky: Sky) -> tuple[Sky, NDArray[np.bool_]]:
    """Return the hours that have light, and which hours are dark.

    Parameters
    ----------
    sky : Sky
        Shape (N,) [W/m2, rad].

    Returns
    -------
    sky : Sky
        Shape (B,) [W/m2, rad].
    dark : ndarray of bool, shape (N,)

    Notes
    -----
    Source: derived.
    """
    dark = (np.asarray(sky.ghi) <= 0.0) & (np.asarray(sky.dni) <= 0.0)
    dark &= np.asarray(sky.dhi) <= 0.0
    return Sky(*(np.asarray(part)[~dark] for part in sky)), dark
