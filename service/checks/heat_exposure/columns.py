"""From lanes to temperatures: air, equivalent ambient, lag, and what shade and colour take off."""

from __future__ import annotations

from itertools import pairwise
from typing import Any, NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.check import Arrays
from service.checks.heat_exposure.exposure import Finish
from service.checks.heat_exposure.face_light import (
    FaceLight,
    Sky,
    clear_sky_light,
    weather_light,
)
from service.checks.heat_exposure.garage_air import garage_air
from service.checks.heat_exposure.lit_parts import Mounting, Shades
from service.checks.heat_exposure.remedies import with_remedies
from service.checks.heat_exposure.sol_air import sol_air
from service.checks.heat_exposure.thermal_lag import lagged
from service.checks.heat_exposure.unit_faces import FRONT, face_areas
from service.checks.heat_exposure.walls import on_walls
from service.published.garage_offsets import garage_offsets

Floats = NDArray[np.float64]

#: Lanes worked out at once: more do not stay in the processor's own memory.
_AT_ONCE = 512
#: Both ends of what is not known, by reading.
COOL, HOT = 0, 4
#: Lags tried between the least and the longest.
_WAYS = np.array([0.0, 0.33, 0.67, 1.0]).reshape(4, 1, 1)
#: Reading of each lag: one for every reading, but several at the hot end.
_EACH = [0, 1, 2, 3, *[HOT] * len(_WAYS)]
#: Low, typical and high excess of a garage, by reading.
GARAGE_READINGS = (0, 0, 1, 2, 2)


class Heated(NamedTuple):
    """Temperatures of the lanes of one request [K].

    Attributes
    ----------
    air : ndarray, shape (L, 24)
        Of the record, before anything is added.
    around : ndarray, shape (5, L, 24)
        Of the air at the unit, by reading.
    front : ndarray, shape (5, L, 24)
        Sol-air temperature of the front; where no remedies are asked, the air.
    equivalent, followed : ndarray, shape (5, L, 24)
        Equivalent ambient, without and with the lag.
    remedied : ndarray, shape (3, 5, L, 24)
        With the lag: shaded, lighter, both; none where not asked.
    light : ndarray, shape (4, L, 24)
        Irradiance on the faces at ordinary ground [W/m2].
    there : tuple
        Days by spot, and by place and way to stand within it.
    """

    air: Floats
    around: Floats
    front: Floats
    equivalent: Floats
    followed: Floats
    remedied: Floats
    light: Floats
    there: Any = ()

    def part(self, lanes: slice, there: Any = ()) -> Heated:
        """Return some of the lanes [K], and whose days they are."""
        kept: list[Any] = [values[..., lanes, :] for values in self[:-1]]
        return Heated._make((*kept, there))


def columns(**arrays: Any) -> Arrays:
    """Work out every lane.

    Parameters
    ----------
    **arrays : ndarray
        As `arguments` gives them [K, W/m2, rad, m, s].

    Returns
    -------
    dict
        ``solved``, shape (R,): the `Heated` of each request [K], None where it has no lane; and
        ``days`` as given.

    Notes
    -----
    Source: `on_walls`, `with_remedies`, `garage_air`.
    """
    offsets = arrays["offsets"]
    solved = np.full(len(offsets) - 1, None, dtype=object)
    total = int(offsets[-1])
    if total:
        parts = [
            _some(arrays, slice(first, min(first + _AT_ONCE, total)))
            for first in range(0, total, _AT_ONCE)
        ]
        whole = parts[0]
        if len(parts) > 1:
            whole = Heated(
                *(np.concatenate(of, axis=-2) for of in zip(*map(_values, parts), strict=True))
            )
        for row, (first, past) in enumerate(pairwise(offsets.tolist())):
            if past > first:
                solved[row] = whole.part(slice(first, past), arrays["there"][row])
    return {"solved": solved, "days": arrays["days"]}


def _values(part: Heated) -> Any:
    return part[:-1]


def _some(arrays: Arrays, lanes: slice) -> Heated:
    """Work out some lanes; arrays over readings, lanes and hours have the shape (5, L, 24)."""

    def lane(name: str) -> Floats:
        return np.asarray(arrays[name][lanes][np.newaxis, :, np.newaxis])

    def reading(name: str) -> Floats:
        return np.asarray(arrays[name][lanes].T[:, :, np.newaxis])

    course, door = arrays["course"][lanes], arrays["door"][lanes]
    air = arrays["course_air"][course]
    around = _around(air, door) + reading("air_rise")
    outdoors = (door == 0)[:, np.newaxis]
    sky = Sky(*(_of(arrays, name, course, outdoors) for name in Sky._fields))
    facing, albedo = lane("facing"), reading("albedo")
    light = _light(sky, facing, albedo, arrays["course_clear"][course])
    finish = Finish(*(reading(name) for name in Finish._fields))
    unit = Mounting(*(lane(name) for name in Mounting._fields))
    areas = face_areas(lane("width"), lane("height"), lane("depth"))
    through = arrays["through"][lanes][np.newaxis]
    on = on_walls(
        around, light, sky.zenith, sky.azimuth, facing, unit, _shades(arrays, lanes, lane),
        areas, finish, through,
    )  # fmt: skip
    ways = on.exposure.equivalent[np.newaxis]
    if arrays["remedies"]:
        lighter, loss = arrays["lighter"], arrays["covered_loss"]
        ways = with_remedies(around, light, on.exposure, areas, finish, lighter, loss)
    followed = _followed(ways, np.asarray(finish.lag))
    front = around
    if arrays["remedies"]:
        front = sol_air(around, on.light[FRONT], finish.absorptance, finish.coefficient)
    shown = np.asarray(on.light)[:, min(2, on.light.shape[1] - 1)]
    return Heated(air, around, front, on.exposure.equivalent, followed[0], followed[1:], shown)


def _followed(ways: Floats, lag: Floats) -> Floats:
    """Return temperatures with their lag, shape (ways, 5, L, 24) [K].

    Notes
    -----
    At the hot end it is the hotter of several lags at every hour: at night a longer one is the
    hotter.
    """
    several = lag[HOT] + _WAYS * (lag[COOL] - lag[HOT])
    found = lagged(ways[:, _EACH], np.concatenate((lag[:HOT], several)))
    hottest = np.maximum.reduce(found[:, HOT:], axis=1, keepdims=True)
    return np.concatenate((found[:, :HOT], hottest), axis=1)


def _of(
    arrays: Arrays, name: str, course: NDArray[np.int64], outdoors: NDArray[np.bool_]
) -> Floats:
    """Return sun or light of the lanes' days; a garage has no light."""
    values = arrays[f"course_{name}"][course]
    if name in ("ghi", "dni", "dhi"):
        values = values * outdoors
    return np.asarray(values[np.newaxis])


def _around(air: Floats, door: NDArray[np.int64]) -> Floats:
    """Return the air outside or in a garage, by reading."""
    around = np.repeat(air[np.newaxis], len(GARAGE_READINGS), axis=0)
    for number, name in enumerate(("west_door", "other_door"), 1):
        inside = np.flatnonzero(door == number)
        if inside.size:
            warmed = garage_air(air[inside], np.arange(air.shape[-1]), garage_offsets()[name])
            around[:, inside] = warmed[list(GARAGE_READINGS)]
    return around


def _light(sky: Sky, facing: Floats, albedo: Floats, clear: NDArray[np.bool_]) -> FaceLight:
    """Return the light of weather, and of a cloudless sky where a day is one."""
    if not clear.any():
        return weather_light(sky, facing, albedo)
    cloudless = clear_sky_light(sky.dni, sky.dhi, sky.zenith, sky.azimuth, facing, albedo)
    directed, scattered = np.broadcast_arrays(cloudless.directed, cloudless.scattered)
    if clear.all():
        return FaceLight(directed, scattered)
    weather, chosen = weather_light(sky, facing, albedo), clear[:, np.newaxis]
    return FaceLight(
        np.where(chosen, directed, weather.directed),
        np.where(chosen, scattered, weather.scattered),
    )


def _shades(arrays: Arrays, lanes: slice, lane: Any) -> Shades:
    """Return the shades, screens on an axis of their own before the others."""
    distance = arrays["screen_distance"][lanes]
    wall = lane("wall_height")
    if distance.shape[1] == 0:
        return Shades(lane("edge_depth"), lane("edge_height"), wall_height=wall)
    shape = (distance.shape[1], 1, distance.shape[0], 1)
    return Shades(
        lane("edge_depth"),
        lane("edge_height"),
        distance.T.reshape(shape),
        arrays["screen_height"][lanes].T.reshape(shape),
        wall_height=wall,
    )
