"""Five readings of what is not known of a unit and its air, from cool to hot."""

from __future__ import annotations

from functools import cache, lru_cache
from typing import Final

from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.self_heating import enclosure_rise
from service.checks.heat_exposure.thermal_lag import time_constant
from service.checks.heat_exposure.unit_faces import face_areas
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


def sky_loss_of(*, covered: bool) -> Five:
    """Return the long-wave loss of the top, none where something stands over it [W/m2]."""
    found = heat_defaults()["sky_loss_w_m2"]
    return spread(found.cool, 0.0 if covered else found.value, found.hot)


@lru_cache(maxsize=512)
def exposed_area(unit: HungUnit) -> float:
    """Return the area of front, sides and top [m2]."""
    sizes = (si(size, "in") for size in (unit.width, unit.height, unit.depth))
    return float(face_areas(*sizes).sum())


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


def air_rise_of(request: HeatExposureRequest, error: float, *, stated: bool, garage: bool) -> Five:
    """Return what is added to the air of the record [K].

    Parameters
    ----------
    request : HeatExposureRequest
    error : float
        Of the climate sites for their distance, where no offset of the home is stated [K].
    stated : bool
        Whether the day is one that the caller states: nothing is added for extremes then.
    garage : bool
        Whether the air is that of a garage, which has an excess of its own.
    """
    defaults = heat_defaults()
    offset = request.outdoor_offset
    around = error if offset is None else 0.0
    value = (offset or 0.0) * _KELVIN_PER_F
    cool, hot = value - around, value + around
    parts = [(request.extreme_rise, defaults["percentile_gap_k"].hot * (not stated))]
    parts.append((request.wall_air_rise, defaults["wall_air_k"].hot * (not garage)))
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
