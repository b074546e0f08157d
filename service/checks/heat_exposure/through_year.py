"""A year at the place of the unit: hours over thresholds, and the hottest of every month."""

from __future__ import annotations

from math import radians

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.answer import HeatYear
from service.checks.heat_exposure.arguments import stand_of, tree_of, unit_of
from service.checks.heat_exposure.climate_days import ClimateDays, sky_of_year
from service.checks.heat_exposure.exposure import Exposure, Finish
from service.checks.heat_exposure.garage_air import garage_air
from service.checks.heat_exposure.judged import SpotHeat
from service.checks.heat_exposure.lit_parts import Mounting, Shades
from service.checks.heat_exposure.readings import SHELTERED, SHOWN, lag_of
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.shown import (
    band,
    degf,
    followed_ways,
    hottest_lane,
    hour_counts,
    hours_of,
)
from service.checks.heat_exposure.spots import Stand
from service.checks.heat_exposure.thermal_lag import lagged
from service.checks.heat_exposure.tree_shade import beam_through, month_of_hour
from service.checks.heat_exposure.unit_faces import face_areas
from service.checks.heat_exposure.year_on_walls import year_on_walls
from service.findings import Series
from service.published.garage_offsets import garage_offsets

Floats = NDArray[np.float64]

_HOURS = 8760
#: First hour of every month.
_MONTHS = np.cumsum([0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30]) * 24
_WINDS = ("windy", "sheltered", "calm")


def through_year(
    request: HeatExposureRequest, climate: ClimateDays, spot: SpotHeat
) -> tuple[HeatYear | None, list[Series]]:
    """Return the year and its lines; none where no year is known."""
    _, stands, days = spot.shape
    lane = hottest_lane(spot, spot.hot_days)
    place = climate.places[lane // (stands * days)]
    stand = spot.spot.stands[lane // days % stands]
    if place.year is None:
        return None, []
    rise = np.array(stand_of(request, climate, stand)["air_rise"])[SHOWN].reshape(3, 1, 1)
    air = place.year.air + rise
    ways = followed_ways(lag_of(request.unit))
    if stand.door is None:
        equivalent, followed = _on_wall(request, climate, stand, air, spot, lane, ways)
    else:
        equivalent = _in_garage(air, stand.door)
        followed = lagged(equivalent, ways)
    counts = hour_counts(request, air[1], equivalent, followed)
    year = HeatYear(
        facing_deg=None if stand.door is not None else stand.facing,
        ambient=band(followed[0].max(axis=-1).tolist()),
        hours=hours_of(request, counts, np.zeros(1, dtype=np.int64)),
    )
    lines = [("air", "Highest air of the month", air[1, 0])]
    lines += [
        (f"ambient/{wind}", f"Highest equivalent ambient of the month with lag, {wind}", values)
        for wind, values in zip(_WINDS, followed[0, :, 0], strict=True)
    ]
    return year, [
        _line(f"year/{name}", words, np.maximum.reduceat(values, _MONTHS), "month")
        for name, words, values in lines
    ]


def _in_garage(air: Floats, door: str) -> Floats:
    hours = np.arange(_HOURS) % 24
    warmed = garage_air(air[1, 0], hours, garage_offsets()[door])
    return np.asarray(warmed[:, np.newaxis])


def _on_wall(
    request: HeatExposureRequest,
    climate: ClimateDays,
    stand: Stand,
    air: Floats,
    spot: SpotHeat,
    lane: int,
    ways: Floats,
) -> Exposure:
    """Return the equivalent ambient from windy to calm, shape (3, 1, 8760), by each lag [K]."""
    _, stands, days = spot.shape
    place = climate.places[lane // (stands * days)]
    values = unit_of(request.unit) | stand_of(request, climate, stand)
    shades = Shades(
        values["edge_depth"],
        values["edge_height"],
        np.array(values["screen_distance"]).reshape(-1, 1, 1),
        np.array(values["screen_height"]).reshape(-1, 1, 1),
    )
    finish = Finish(*(np.array(values[name])[SHOWN].reshape(3, 1, 1) for name in Finish._fields))
    return year_on_walls(
        air,
        sky_of_year(place),
        np.array([[radians(stand.facing)]]),
        values["albedo"][SHELTERED],
        Mounting(*(values[name] for name in Mounting._fields)),
        shades,
        face_areas(values["width"], values["height"], values["depth"]),
        finish._replace(lag=ways),
        _through(stand),
    )


def _through(stand: Stand) -> Floats:
    wall = stand.wall
    if wall is None or (not wall.full_shade and wall.tree is None):
        return np.ones(1)
    if wall.full_shade:
        return np.zeros(1)
    hours = np.arange(_HOURS) % 24
    return np.asarray(beam_through(month_of_hour(), hours, *tree_of(wall)))[np.newaxis]


def day_series(spot: SpotHeat) -> list[Series]:
    """Return the hours of the hottest day at the place of the unit."""
    lane, lanes = hottest_lane(spot, spot.hot_days), spot.lanes
    lines = [
        ("air", "Air at the unit", lanes.around[SHELTERED, lane]),
        ("front", "Sol-air temperature of the front, a surface", lanes.front[SHELTERED, lane]),
    ]
    for wind, values in zip(_WINDS, lanes.followed[SHOWN, lane], strict=True):
        lines.append((f"ambient/{wind}", f"Equivalent ambient with lag, {wind}", values))
    return [_line(f"hottest-day/{name}", words, values, "h") for name, words, values in lines]


def _line(name: str, words: str, kelvin: Floats, unit: str) -> Series:
    return Series(
        id=name,
        label=words,
        x_unit=unit,
        y_unit="degF",
        x=[place + 1.0 for place in range(len(kelvin))],
        y=[degf(value) for value in kelvin.tolist()],
    )
