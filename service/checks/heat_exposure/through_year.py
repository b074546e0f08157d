"""A year at the place of the unit: hours over thresholds, and the hottest of every month."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.answer import HeatYear
from service.checks.heat_exposure.arguments import stand_of, unit_of
from service.checks.heat_exposure.climate_days import ClimateDays, PlaceDays, sky_of_year
from service.checks.heat_exposure.columns import GARAGE_READINGS
from service.checks.heat_exposure.exposure import Finish
from service.checks.heat_exposure.garage_air import garage_air
from service.checks.heat_exposure.judged import SpotHeat
from service.checks.heat_exposure.lit_parts import Mounting, Shades
from service.checks.heat_exposure.readings import COOL, HOT, SHELTERED, SHOWN, air_rise_of, lag_of
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.shade_hours import shade_hours_of, through_year_of
from service.checks.heat_exposure.shown import (
    band,
    coolest_ways,
    degf,
    hottest_lane,
    hour_counts,
    hours_of,
)
from service.checks.heat_exposure.sol_air import equivalent_ambient, mean_light
from service.checks.heat_exposure.spots import Stand
from service.checks.heat_exposure.thermal_lag import lagged
from service.checks.heat_exposure.unit_faces import TOP, face_areas
from service.checks.heat_exposure.year_on_walls import year_light
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
    """Return the year as it is recorded, and its lines; none where no year is known."""
    at_place, at_stand = spot.place_and_stand(hottest_lane(spot, spot.hot_days))
    place, stand = climate.places[at_place], spot.spot.stands[at_stand]
    if place.year is None:
        return None, []
    garage = stand.door is not None
    rise = np.array(air_rise_of(request, climate.error, extremes=False, garage=garage))
    air = place.year.air + rise.reshape(5, 1, 1)
    equivalent = _in_garage(air, stand) if garage else _on_wall(request, place, stand, air)
    lag = lag_of(request.unit)
    shown = lagged(equivalent[SHOWN], lag[SHELTERED])
    hot = lagged(equivalent[HOT], np.linspace(lag[HOT], lag[COOL], 3).reshape(3, 1, 1)).max(axis=0)
    counts = hour_counts(
        request,
        place.year.air[np.newaxis],
        equivalent[SHELTERED],
        coolest_ways(equivalent[COOL], lag),
        shown[1],
        hot,
    )
    year = HeatYear(
        facing_deg=None if garage else stand.facing,
        ambient=band(shown.max(axis=-1).tolist(), float(hot.max())),
        hours=hours_of(request, counts, [0]),
    )
    lines = [("air", "Highest air of the record in the month", place.year.air)]
    lines += [
        (f"ambient/{wind}", f"Highest equivalent ambient of the month with lag, {wind}", values)
        for wind, values in zip(_WINDS, shown[:, 0], strict=True)
    ]
    return year, [
        _line(f"year/{name}", words, np.maximum.reduceat(values, _MONTHS), "month")
        for name, words, values in lines
    ]


def _in_garage(air: Floats, stand: Stand) -> Floats:
    """Return the air of a garage, shape (5, 1, 8760) [K]."""
    if stand.door is None or stand.door not in garage_offsets():
        return air
    hours = np.arange(_HOURS) % 24
    readings = garage_air(air[:, 0], hours, garage_offsets()[stand.door])
    return np.asarray(readings[list(GARAGE_READINGS), np.arange(5)][:, np.newaxis])


def _on_wall(request: HeatExposureRequest, place: PlaceDays, stand: Stand, air: Floats) -> Floats:
    """Return the equivalent ambient by reading, shape (5, 1, 8760) [K]."""
    values = unit_of(request.unit) | stand_of(request, stand)
    shades = Shades(
        values["edge_depth"],
        values["edge_height"],
        np.array(values["screen_distance"]).reshape(-1, 1, 1),
        np.array(values["screen_height"]).reshape(-1, 1, 1),
        wall_height=values["wall_height"],
    )
    unit = Mounting(*(values[name] for name in Mounting._fields))
    areas = face_areas(values["width"], values["height"], values["depth"])
    sky, albedo = sky_of_year(place), np.array(values["albedo"]).reshape(5, 1, 1)
    usual = values["albedo"][SHELTERED]
    through = through_year_of(shade_hours_of(stand.wall))
    mean = mean_light(year_light(sky, values["facing"], unit, shades, usual, through), areas)
    upright = 1.0 - areas[TOP] / areas.sum()
    # The light of the ground goes with what it reflects, and reaches the upright faces by half.
    light = mean + 0.5 * (albedo - usual) * upright * np.asarray(sky.ghi)
    finish = [np.array(values[name]).reshape(5, 1, 1) for name in Finish._fields[:3]]
    return equivalent_ambient(air, light, areas, *finish)


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
