"""Five readings of what is not known of a unit and its air, from cool to hot."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Final

from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.self_heating import enclosure_rise
from service.checks.heat_exposure.thermal_lag import time_constant
from service.facts import HangingWall, HungUnit
from service.published.enclosure_materials import enclosure_coefficients
from service.published.heat_defaults import heat_defaults
from service.published.sunlit_faces import (
    absorptances,
    ground_reflectances,
    surface_coefficients,
)
from service.quantities.units import si

Five = tuple[float, float, float, float, float]

#: Places of the readings: both ends of all that is not known, and between them the wind alone.
COOL: Final = 0
WINDY: Final = 1
SHELTERED: Final = 2
CALM: Final = 3
HOT: Final = 4
#: What is shown.
SHOWN: Final = slice(WINDY, HOT)
#: Colour where none is stated.
USUAL_COLOUR: Final = "light_grey"
USUAL_GROUND: Final = "ordinary"
#: Material whose coefficient stands where none is stated; a pass holds for all of them.
USUAL_ENCLOSURE: Final = "painted_steel"
_HOUR, _KELVIN_PER_F = 3600.0, 1.0 / 1.8


def spread(cool: float, value: float, hot: float) -> Five:
    """Return a value by reading: its cool end, three times itself, its hot end [any unit]."""
    return (cool, value, value, value, hot)


@lru_cache(maxsize=512)
def absorptance_of(unit: HungUnit) -> Five:
    """Return the part of sunlight that the faces take in [1]."""
    if unit.absorptance is not None:
        return spread(unit.absorptance, unit.absorptance, unit.absorptance)
    known = absorptances()
    if unit.colour is not None:
        return spread(*known[unit.colour])
    low = min(one.low for one in known.values())
    high = max(one.high for one in known.values())
    return spread(low, known[USUAL_COLOUR].value, high)


@cache
def coefficient_of() -> Five:
    """Return the heat that faces pass to the air [W/(m2 K)]."""
    wind = surface_coefficients()
    windy, calm = wind["windy"], wind["calm"]
    return (windy, windy, wind["sheltered"], calm, calm)


def sky_loss_of(cover: float) -> Five:
    """Return the long-wave loss of the top, less what stands over it takes of the sky [W/m2]."""
    found = heat_defaults()["sky_loss_w_m2"]
    return spread(found.cool, found.value * (1.0 - cover), found.hot)


@lru_cache(maxsize=512)
def exposed_area(unit: HungUnit) -> float:
    """Return the area of front, sides and top [m2]."""
    width, height, depth = unit.width, unit.height, unit.depth
    return (width * height + 2.0 * height * depth + width * depth) * si(1.0, "in") ** 2


def _shell(unit: HungUnit) -> tuple[float, float, float]:
    """Return least, usual and most heat that the shell passes [W/(m2 K)]."""
    known = enclosure_coefficients()
    if unit.enclosure is not None:
        one = known[unit.enclosure]
        return one, one, one
    return min(known.values()), known[USUAL_ENCLOSURE], max(known.values())


@lru_cache(maxsize=512)
def lag_of(unit: HungUnit) -> Five:
    """Return the time constant, the longest at the cool end [s]."""
    if unit.lag_hours is not None:
        return spread(*[unit.lag_hours * _HOUR] * 3)
    defaults = heat_defaults()
    if unit.mass is None:
        found = defaults["lag_h"]
        return spread(found.cool * _HOUR, found.value * _HOUR, found.hot * _HOUR)
    mass, area = si(unit.mass, "lb"), exposed_area(unit)
    least, usual, most = _shell(unit)
    heat = defaults["specific_heat_j_kg_k"]
    ends = ((heat.cool, least), (heat.value, usual), (heat.hot, most))
    return spread(*(float(time_constant(mass, c, k, area)) for c, k in ends))


def own_rise_of(request: HeatExposureRequest) -> Five | None:
    """Return what the unit's own heat adds to what is compared; None where it is not known [K]."""
    if request.limits.speak_of == "ambient":
        return spread(0.0, 0.0, 0.0)
    losses = request.unit.losses
    if losses is None:
        return None
    area = exposed_area(request.unit)
    least, usual, most = _shell(request.unit)
    return spread(*(float(enclosure_rise(losses, area, k)) for k in (most, usual, least)))


def home_against_sites(outdoor_offset: float | None, error: float) -> tuple[float, float]:
    """Return how much hotter it is at the home than at its climate sites, and the error of that.

    Parameters
    ----------
    outdoor_offset : float or None
        As the request states it [degF].
    error : float
        Of the climate sites for their distance [K].

    Returns
    -------
    tuple of float
        [K]. An offset that is stated takes the place of the error.
    """
    return (0.0, error) if outdoor_offset is None else (outdoor_offset * _KELVIN_PER_F, 0.0)


def air_rise_of(
    request: HeatExposureRequest, error: float, *, extremes: bool, garage: bool
) -> Five:
    """Return what is added to the air of the record: see `_air_rise` [K]."""
    stated = (request.extreme_rise, request.wall_air_rise, request.outdoor_offset)
    return _air_rise(*stated, error, extremes, garage)


@lru_cache(maxsize=512)
def _air_rise(
    extreme_rise: float | None,
    wall_air_rise: float | None,
    outdoor_offset: float | None,
    error: float,
    extremes: bool,
    garage: bool,
) -> Five:
    """Return what is added to the air of the record [K].

    Parameters
    ----------
    extreme_rise, wall_air_rise, outdoor_offset : float or None
        As the request states them [degF].
    error : float
        Of the climate sites for their distance, where no offset of the home is stated [K].
    extremes : bool
        Whether it is a hot day of a record: a typical one, or one that the caller states, gets no
        hotter.
    garage : bool
        Whether the air is that of a garage, which has an excess of its own.
    """
    defaults = heat_defaults()
    value, around = home_against_sites(outdoor_offset, error)
    cool, hot = value - around, value + around
    parts = [(extreme_rise, defaults["percentile_gap_k"].hot)] if extremes else []
    parts.append((wall_air_rise, defaults["wall_air_k"].hot * (not garage)))
    for given, end in parts:
        if given is None:
            hot += end
        else:
            cool, value, hot = (x + given * _KELVIN_PER_F for x in (cool, value, hot))
    return spread(cool, value, hot)


def albedo_of(wall: HangingWall | None) -> Five:
    """Return the part of sunlight that the ground reflects [1]."""
    known = ground_reflectances()
    if wall is not None and wall.ground is not None:
        return spread(*[known[wall.ground]] * 3)
    return spread(min(known.values()), known[USUAL_GROUND], max(known.values()))
