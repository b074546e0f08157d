"""The parts of a run as they enter: stated, or what stands in for them."""

from __future__ import annotations

from typing import NamedTuple

from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.climate import climate_sites
from service.facts import CoarseRun, DistanceRun, RunSegment
from service.published import load
from service.published.cable_types import cable_types
from service.published.insulation_columns import insulation_columns
from service.published.raceways import raceways
from service.published.run_places import run_places
from service.published.table_arrays import FOOT, INCH

#: Where nothing is said: rigid PVC conduit, Schedule 40. Standing: derived, our choice.
USUAL_WAY = "pvc40"
#: From this height above a sunlit roof nothing is added [m]: 3/4 in since 2023, 7/8 in before.
#: Source: NEC 310.15(B)(2), public pages on code changes. Standing: secondary.
ROOF_HEIGHT = {"nec-2023": 0.75 * INCH, "nec-2020": 0.875 * INCH}
#: Longest nipple [m]. Source: NEC 310.15(C)(1), 24 in. Standing: secondary.
_NIPPLE = 24 * INCH
_NIPPLES = ("nipple", "indoor_nipple")


class Part(NamedTuple):
    """A part of a run in SI.

    Attributes
    ----------
    place, way : str
        Ids of the place, and of the raceway or cable.
    length : float
        [m].
    ambient : float
        With what a roof adds still to come [degC].
    roof_height : float
        Above a sunlit roof [m]; infinite: none.
    counted : int
        Current-carrying conductors of other circuits beside it.
    dry, wet : bool
        Whether it may lie there dry; whether it is wet there.
    column : int or None
        Temperature column that the conditions of use start from [degC]; None: not permitted.
    cap : int
        Highest final column [degC].
    cover : float or None
        [m]; None: not stated.
    under : str
        Id of what lies above it.
    """

    place: str
    way: str
    length: float
    ambient: float
    roof_height: float
    counted: int
    wet: bool
    column: int | None
    cap: int
    cover: float | None
    under: str

    @property
    def buried(self) -> bool:
        """Return whether it lies in the ground."""
        return self.place == "buried"

    @property
    def nipple(self) -> bool:
        """Return whether it is a nipple short enough to count as one."""
        return self.place in _NIPPLES and self.length <= _NIPPLE + 1e-9


def segments_of(request: ConductorSizingRequest) -> list[RunSegment]:
    """Return the segments stated, or the one that stands in: an outside wall in the sun."""
    run = request.run
    if isinstance(run, DistanceRun):
        return [RunSegment(length=run.length, place="outside_wall")]
    if isinstance(run, CoarseRun):
        far = load("coarse_distances").number(run.answer, "high")
        return [RunSegment(length=far, place="outside_wall")]
    return run.segments


def parts_of(request: ConductorSizingRequest) -> list[Part]:
    """Return the parts of the run of a request.

    Source: tables run_places, insulation_columns, cable_types.
    """
    return [_part(request, segment) for segment in segments_of(request)]


def ambient_stated(request: ConductorSizingRequest, segment: RunSegment) -> float:
    """Return the air around a segment: stated, by the climate site, or the hot end [degF].

    The 0.4 % dry bulb of the hottest month lies above the 2 % of a year that is usually taken.
    """
    if segment.ambient is not None:
        return segment.ambient
    place = run_places()[segment.place]
    if request.climate_site is None or not place.outdoors:
        return place.ambient
    return 32.0 + 1.8 * max(climate_sites()[request.climate_site].db_0_4_c)


def _part(request: ConductorSizingRequest, segment: RunSegment) -> Part:
    place, way = run_places()[segment.place], segment.way or USUAL_WAY
    wet = place.outdoors or place.underground
    ambient = ambient_stated(request, segment)
    column, cap = _columns(request, way, wet=wet, place=segment.place)
    above_roof = segment.place == "rooftop"
    height = 0.0 if segment.roof_height is None else segment.roof_height * INCH
    return Part(
        segment.place,
        way,
        segment.length * FOOT,
        (ambient - 32.0) / 1.8,
        height if above_roof else float("inf"),
        segment.other_conductors,
        wet,
        column,
        cap,
        None if segment.cover is None else segment.cover * INCH,
        segment.under,
    )


def _columns(
    request: ConductorSizingRequest, way: str, *, wet: bool, place: str
) -> tuple[int | None, int]:
    """Return the column where correction starts, None where it may not lie, and the final cap."""
    if way in raceways():
        own = insulation_columns()[request.insulation]
        return (own.wet if wet else own.dry), 90
    cable = cable_types()[way]
    if place == "buried":
        allowed = cable.buried
    elif wet:
        allowed = cable.outdoors
    else:
        allowed = cable.indoors
    return (None if allowed == "no" else int(cable.derating_column)), int(cable.column)


def wall_of(parts: list[Part]) -> str:
    """Return whose impedance is read: steel where any part lies in steel, PVC otherwise."""
    kinds = raceways()
    steel = any(part.way in kinds and kinds[part.way].material == "steel" for part in parts)
    return "steel" if steel else "pvc"


def needs_a_look(part: Part) -> str | None:
    """Return on what a cable's being there hangs, in words; None: on nothing."""
    if part.way in raceways():
        return None
    cable = cable_types()[part.way]
    allowed = cable.buried if part.buried else cable.outdoors if part.wet else cable.indoors
    return cable.condition if allowed == "conditional" else None
