"""Temperatures of a unit on some walls, from the light of its hours."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.checks.heat_exposure.exposure import Exposure, Finish, exposure, light_reaching
from service.checks.heat_exposure.face_light import FaceLight
from service.checks.heat_exposure.lit_parts import Mounting, Shades, lit_parts
from service.checks.heat_exposure.wall_sun import wall_sun

Floats = NDArray[np.float64]


class OnWalls(NamedTuple):
    """A unit on W walls at R readings through N hours.

    Attributes
    ----------
    lit : ndarray, shape (4, W, N)
        Part of the directed light that reaches each face behind all shades [1].
    light : ndarray, shape (4, W, N)
        Irradiance on each face [W/m2].
    exposure : Exposure
        Shape (R, W, N) [K].
    """

    lit: Floats
    light: Floats
    exposure: Exposure


def on_walls(
    air: ArrayLike,
    light: FaceLight,
    zenith: ArrayLike,
    azimuth: ArrayLike,
    facing: ArrayLike,
    unit: Mounting,
    shades: Shades,
    areas: ArrayLike,
    finish: Finish,
    through: ArrayLike = 1.0,
) -> OnWalls:
    """Return what a unit would feel on each of some walls.

    Parameters
    ----------
    air : array_like, shape (N,) or (R, 1, N)
        N hours that repeat: a day, or a year [K].
    light : FaceLight
        Shape (4, W, N), of the same facings [W/m2].
    zenith, azimuth : array_like, shape (N,)
        Of the sun [rad].
    facing : array_like, shape (W, 1)
        Azimuth that each wall faces [rad].
    unit : Mounting
        Of shape () or (W, 1) [m].
    shades : Shades
        Of shape () or (W, 1), screens (K, W, 1) [m].
    areas : array_like, shape (4,)
        Of the faces [m2].
    finish : Finish
        Of shape () or (R, 1, 1) [1, W/(m2 K), W/m2, s].
    through : array_like, shape () or (W, N), optional
        Part of the beam that trees let through [1].

    Returns
    -------
    OnWalls
        [1, W/m2, K].

    Notes
    -----
    Source: `lit_parts`, `exposure`.
    """
    lit = lit_parts(wall_sun(zenith, azimuth, facing), unit, shades) * np.asarray(through)
    reaching = light_reaching(light, lit)
    return OnWalls(lit, reaching, exposure(air, reaching, areas, finish))
