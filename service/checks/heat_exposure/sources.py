"""The sources of an answer, and its numbers line by line."""

from __future__ import annotations

from functools import cache

from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.readings import (
    HOT,
    SHELTERED,
    WINDY,
    absorptance_of,
    coefficient_of,
    exposed_area,
    lag_of,
)
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.shown import degf, hottest_lane
from service.checks.heat_exposure.unit_faces import FRONT, TOP
from service.checks.heat_exposure.verdicts import Judged
from service.climate import cite_site
from service.facts import DesignDay, DesignDayAtSite, GaragePlace, OutdoorPlace
from service.findings import Finding, SourceRef, WorkingLine, source_refs
from service.published import Source, load
from service.published.sunlit_faces import ABSORPTANCE, COEFFICIENTS, GROUND

_HOUR = 3600.0


def _cells(request: HeatExposureRequest) -> list[tuple[str, str]]:
    """Return table and row of what was read."""
    found = _of_the_faces(request) + _of_the_shell(request)
    place, climate = request.place, request.climate
    if not isinstance(place, OutdoorPlace) and request.wall_air_rise is None:
        other = isinstance(place, GaragePlace) and place.door_faces == "other"
        found.append(("garage_offsets", "other_door" if other else "west_door"))
    if isinstance(climate, DesignDay | DesignDayAtSite):
        found += [("design_day_profile", row) for row in load("design_day_profile").rows]
    elif request.extreme_rise is None:
        found.append(("heat_defaults", "percentile_gap_k"))
    if isinstance(climate, DesignDay):
        found.append(("optical_depth_exponents", climate.depths.edition))
    return found


def _of_the_faces(request: HeatExposureRequest) -> list[tuple[str, str]]:
    """Return what sun and wind do to the faces: nothing in a garage."""
    place, unit = request.place, request.unit
    if isinstance(place, GaragePlace):
        return []
    found = [(COEFFICIENTS, one) for one in ("calm", "sheltered", "windy")]
    if unit.absorptance is None:
        known = load(ABSORPTANCE).rows if unit.colour is None else (unit.colour,)
        found += [(ABSORPTANCE, one) for one in known]
    stated = [wall.ground for wall in place.walls] if place is not None else [None]
    rows = load(GROUND).rows if None in stated else dict.fromkeys(filter(None, stated))
    found += [(GROUND, one) for one in rows]
    found.append(("heat_defaults", "sky_loss_w_m2"))
    if request.wall_air_rise is None:
        found.append(("heat_defaults", "wall_air_k"))
    return found


def _of_the_shell(request: HeatExposureRequest) -> list[tuple[str, str]]:
    """Return what the lag and the heat within were worked out with."""
    unit = request.unit
    found = []
    if unit.lag_hours is None:
        by_mass = unit.mass is not None
        found.append(("heat_defaults", "specific_heat_j_kg_k" if by_mass else "lag_h"))
    lag_by_mass = unit.lag_hours is None and unit.mass is not None
    if lag_by_mass or (request.limits.speak_of == "inside" and unit.losses is not None):
        table = "enclosure_materials"
        rows = load(table).rows if unit.enclosure is None else (unit.enclosure,)
        found += [(table, one) for one in rows]
    return found


#: What the coldest hour is worked out with, beside the year.
_COLD = (("heat_defaults", "winter_gap_k"), ("heat_defaults", "night_sky_k"))


def with_sources(
    findings: list[Finding], request: HeatExposureRequest, climate: ClimateDays
) -> list[Finding]:
    """Return the findings, each with the ids of what stands behind it."""
    sites = [cite_site(place.site).id for place in climate.places if place.site is not None]
    hot = [*sites, *(_row(*cell).id for cell in _cells(request))]
    cold = (
        [*sites, *(_row(*cell).id for cell in _COLD)]
        if any(place.year for place in climate.places)
        else []
    )
    for finding in findings:
        finding.sources = cold if finding.rule == "cold-limit" else hot
    return findings


def cited(request: HeatExposureRequest, climate: ClimateDays) -> list[Source]:
    """Return the sources of an answer."""
    sites = [cite_site(place.site) for place in climate.places if place.site is not None]
    return [*sites, *(_row(*cell) for cell in (*_cells(request), *_COLD))]


@cache
def _row(table: str, row: str) -> Source:
    return load(table).cite(row)


def sources(request: HeatExposureRequest, climate: ClimateDays) -> list[SourceRef]:
    """Return the sources of an answer, each once."""
    return source_refs(cited(request, climate))


def working(request: HeatExposureRequest, judged: Judged) -> list[WorkingLine]:
    """Return the numbers behind the hottest hour, line by line."""
    spot, unit = judged.heat, request.unit
    lane, lanes = hottest_lane(spot, spot.hot_days), judged.heat.lanes
    hour = int(lanes.equivalent[SHELTERED, lane].argmax())
    absorbed, passed, lag = absorptance_of(unit), coefficient_of(), lag_of(unit)
    named = f"hour {hour} to {hour + 1}"
    light = lanes.light[:, lane, hour]
    rows = [
        ("Exposed faces", "front, two sides and top", exposed_area(unit), "m2"),
        ("Absorptance", "of the colour", absorbed[SHELTERED], "1"),
        ("Absorptance at the hot end", "of all colours that may be", absorbed[HOT], "1"),
        ("Surface coefficient, windy", "table surface_coefficients", passed[WINDY], "W/(m2 K)"),
        ("Surface coefficient, calm", "table surface_coefficients", passed[HOT], "W/(m2 K)"),
        ("Lag", "time constant", lag[SHELTERED] / _HOUR, "h"),
        ("Lag at the hot end", "time constant", lag[HOT] / _HOUR, "h"),
        ("Light on the front", named, float(light[FRONT]), "W/m2"),
        ("Light on the top", named, float(light[TOP]), "W/m2"),
        ("Air at the unit", named, degf(float(lanes.around[SHELTERED, lane, hour])), "degF"),
        (
            "Sol-air temperature of the front",
            "air + absorptance x light / coefficient",
            degf(float(lanes.front[SHELTERED, lane, hour])),
            "degF",
        ),
        (
            "Equivalent ambient without lag",
            "mean of the faces' sol-air temperatures by area",
            degf(float(lanes.equivalent[SHELTERED, lane, hour])),
            "degF",
        ),
        (
            "Equivalent ambient with lag",
            "first order, the day repeating",
            degf(float(lanes.followed[SHELTERED, lane].max())),
            "degF",
        ),
    ]
    return [
        WorkingLine(quantity=quantity, expression=expression, value=value, unit=of)
        for quantity, expression, value, of in rows
    ]
