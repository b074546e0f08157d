"""Every value that entered because the request did not state it."""

from __future__ import annotations

from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.readings import (
    COOL,
    HOT,
    SHELTERED,
    USUAL_COLOUR,
    USUAL_GROUND,
    lag_of,
)
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.spots import USUAL_STANDOFF
from service.checks.heat_exposure.stated_outage import USUAL_HOURS, USUAL_START
from service.facts import DesignDay, DesignDayAtSite, GaragePlace, HangingWall, OutdoorPlace
from service.findings import Assumption
from service.published.heat_defaults import heat_defaults
from service.published.sunlit_faces import absorptances, ground_reflectances
from service.quantities.units import si

_HOUR, _F_PER_K = 3600.0, 1.8


def assumptions(request: HeatExposureRequest, climate: ClimateDays) -> list[Assumption]:
    """Return the defaults that entered."""
    place = request.place
    found = _of_the_unit(request) + _of_the_air(request, climate)
    if isinstance(place, OutdoorPlace):
        for index, wall in enumerate(place.walls):
            found += _of_the_wall(request, wall, f"/place/walls/{index}")
    measured = request.wall_air_rise is not None
    if isinstance(place, GaragePlace) and place.door_faces is None and not measured:
        found.append(
            Assumption(
                pointer="/place/door_faces",
                value="west",
                range=["west", "other"],
                reason="the hotter reading",
                source="garage_offsets/west_door",
            )
        )
    if request.derating is not None:
        found += _of_the_outage(request)
    return found


def _of_the_unit(request: HeatExposureRequest) -> list[Assumption]:
    unit, found = request.unit, []
    if unit.standoff is None and not isinstance(request.place, GaragePlace):
        inches = round(USUAL_STANDOFF / si(1.0, "in"), 6)
        reason = (
            "common practice, no source: up to 4 in, usual brackets; without a fence the far side "
            "is the sunnier, before one all are tried"
        )
        found.append(
            Assumption(pointer="/unit/standoff", value=inches, range=[0.0, inches], reason=reason)
        )
    if (
        unit.colour is None
        and unit.absorptance is None
        and not isinstance(request.place, GaragePlace)
    ):
        found.append(
            Assumption(
                pointer="/unit/colour",
                value=USUAL_COLOUR,
                range=list(absorptances()),
                reason="common practice, no source: most units are white or light grey",
                source=f"surface_absorptance/{USUAL_COLOUR}",
            )
        )
    if unit.lag_hours is None:
        lag = lag_of(unit)
        known = unit.mass is not None
        found.append(
            Assumption(
                pointer="/unit/lag_hours",
                value=lag[SHELTERED] / _HOUR,
                range=[lag[HOT] / _HOUR, lag[COOL] / _HOUR],
                reason="derived: its mass over what its shell passes"
                if known
                else "derived: a unit of some 120 kg",
                source="heat_defaults/specific_heat_j_kg_k" if known else "heat_defaults/lag_h",
            )
        )
    return found


def _of_the_air(request: HeatExposureRequest, climate: ClimateDays) -> list[Assumption]:
    defaults, found = heat_defaults(), []
    own_day = isinstance(request.climate, DesignDay | DesignDayAtSite)
    if request.extreme_rise is None and not own_day:
        found.append(
            Assumption(
                pointer="/extreme_rise",
                value=0.0,
                range=[0.0, defaults["percentile_gap_k"].hot * _F_PER_K],
                reason="the record as it stands; a typical year has no extremes",
                source="heat_defaults/percentile_gap_k",
            )
        )
    if request.outdoor_offset is None and climate.error > 0.0:
        off = climate.error * _F_PER_K
        found.append(
            Assumption(
                pointer="/outdoor_offset",
                value=0.0,
                range=[-off, off],
                reason="the climate sites' own air; the error of their distance either way",
            )
        )
    if request.wall_air_rise is None and not isinstance(request.place, GaragePlace):
        found.append(
            Assumption(
                pointer="/wall_air_rise",
                value=0.0,
                range=[0.0, defaults["wall_air_k"].hot * _F_PER_K],
                reason="the record as it stands; air at a sunlit wall is hotter",
                source="heat_defaults/wall_air_k",
            )
        )
    return found


def _of_the_wall(request: HeatExposureRequest, wall: HangingWall, at: str) -> list[Assumption]:
    found = []
    if wall.full_shade is None:
        reason = "the sunnier end: no shade but what is stated"
        found.append(
            Assumption(pointer=f"{at}/full_shade", value=False, range=[False, True], reason=reason)
        )
    if wall.height is None and wall.eave is None and request.unit.bottom is not None:
        top = request.unit.bottom + request.unit.height
        reason = "the sunnier end: a wall no higher than the unit"
        found.append(
            Assumption(pointer=f"{at}/height", value=top, range=[top, 2400.0], reason=reason)
        )
    if wall.ground is None:
        found.append(
            Assumption(
                pointer=f"{at}/ground",
                value=USUAL_GROUND,
                range=list(ground_reflectances()),
                reason="common practice, no source: what is taken where nothing is known",
                source=f"ground_reflectance/{USUAL_GROUND}",
            )
        )
    return found


def _of_the_outage(request: HeatExposureRequest) -> list[Assumption]:
    found = []
    if request.outage.start_hour is None:
        reason = "our choice: with 24 h every hour of the day is in it"
        found.append(Assumption(pointer="/outage/start_hour", value=USUAL_START, reason=reason))
    if request.outage.hours is None:
        reason = "our choice: every hour of the day"
        found.append(Assumption(pointer="/outage/hours", value=USUAL_HOURS, reason=reason))
    return found
