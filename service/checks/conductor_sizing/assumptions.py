"""Every value that entered because the request did not state it."""

from __future__ import annotations

from service.checks.conductor_sizing.arguments import edition_of, neutral_of
from service.checks.conductor_sizing.circuit_kinds import KINDS
from service.checks.conductor_sizing.material_rows import FULL_LOAD_HOURS
from service.checks.conductor_sizing.parts import USUAL_WAY, ambient_stated, segments_of
from service.checks.conductor_sizing.place_rules import label
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.codes import default_permit_date
from service.facts import SegmentsRun
from service.findings import Assumption
from service.published.run_places import run_places


def assumptions(request: ConductorSizingRequest) -> list[Assumption]:
    """Return the defaults that entered."""
    circuit = request.circuit
    found = []
    if request.drop_target_percent is None:
        found.append(
            Assumption(
                pointer="/drop_target_percent",
                value=100.0 * KINDS[circuit.kind].target,
                reason="common practice, no source: 2 % for what feeds in, 3 % for loads",
            )
        )
    if request.full_load_hours is None:
        found.append(
            Assumption(
                pointer="/full_load_hours",
                value=FULL_LOAD_HOURS,
                reason="common practice, no source: some three hours a day",
            )
        )
    if circuit.neutral is None:
        reason = "common practice, no source: as such circuits are usually wired"
        found.append(
            Assumption(pointer="/circuit/neutral", value=neutral_of(circuit), reason=reason)
        )
    if request.edition is None:
        edition, known = edition_of(request)
        reason = "by state and date" if known else "derived, our choice: the place is not known"
        found.append(Assumption(pointer="/edition", value=edition, reason=reason))
        if known and request.permit_date is None:
            found.append(
                Assumption(
                    pointer="/permit_date",
                    value=default_permit_date().isoformat(),
                    reason="the release's stated default date",
                )
            )
    return found + _of_the_run(request)


def _of_the_run(request: ConductorSizingRequest) -> list[Assumption]:
    if not isinstance(request.run, SegmentsRun):
        (stood,) = segments_of(request)
        hot, way = ambient_stated(request, stood), label(USUAL_WAY)
        words = f"{stood.length:.0f} ft on an outside wall in the sun, {hot:.0f} degF, {way}"
        reason = "common practice, no source: hot and wet; an attic or a roof would be hotter"
        return [Assumption(pointer="/run/segments", value=words, reason=reason)]
    found = []
    for index, segment in enumerate(request.run.segments):
        at = f"/run/segments/{index}"
        if segment.ambient is None:
            by_site = request.climate_site is not None and run_places()[segment.place].outdoors
            reason = "common practice, no source: a hot end for the place"
            if by_site:
                reason = "0.4 % dry bulb of the site's hottest month, of one typical year"
            value = ambient_stated(request, segment)
            found.append(Assumption(pointer=f"{at}/ambient", value=value, reason=reason))
        if segment.way is None:
            reason = "derived, our choice: rigid PVC conduit, Schedule 40"
            found.append(Assumption(pointer=f"{at}/way", value=USUAL_WAY, reason=reason))
        if segment.place == "rooftop" and segment.roof_height is None:
            reason = "the worse reading: on the roof itself"
            found.append(Assumption(pointer=f"{at}/roof_height", value=0.0, reason=reason))
    return found
