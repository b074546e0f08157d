"""Rules between fields that the contract cannot say."""

from __future__ import annotations

from collections.abc import Iterator

from service.assessment.request import SiteAssessmentRequest
from service.check import FieldError
from service.facts import (
    Equipment,
    Home,
    OutdoorPlace,
    generator_refusals,
    hanging_refusals,
    interval_refusals,
    inverter_refusals,
    motor_refusals,
    row_refusals,
    run_refusals,
    sheet_refusals,
    wall_refusals,
)
from service.facts.siting_refusals import place_refusals, repeated, siting_sheet_refusals

_WALLS = "/home/battery_place/walls"
_SPOTS = "/home/battery_spots"


def _repeated_ids(request: SiteAssessmentRequest) -> Iterator[FieldError]:
    seen: set[str] = set()
    for index, candidate in enumerate(request.candidates or []):
        if candidate.id in seen:
            yield FieldError(
                f"/candidates/{index}/id", f"{candidate.id} stands twice; give each its own id"
            )
        seen.add(candidate.id)


def refusals(request: SiteAssessmentRequest) -> list[FieldError]:
    """Return every rule between fields that the request breaks."""
    home, equipment = request.home or Home(), request.equipment or Equipment()
    rows = [
        *row_refusals(request.wishes.loads or [], "/wishes/loads"),
        *interval_refusals(home.interval_watts, "/home/interval_watts"),
        *generator_refusals(equipment.generator, "/equipment/generator"),
        *motor_refusals(home.motors or [], "/home/motors"),
        *run_refusals(home.battery_run or [], "/home/battery_run"),
    ]
    rows += repeated(
        (spot.id for spot in home.battery_spots),
        _SPOTS,
        "Give every place an id of its own.",
        "/id",
    )
    for index, spot in enumerate(home.battery_spots):
        # A site has no kinds of units to be placed by hand: what names one is refused.
        rows += place_refusals(spot, [], f"{_SPOTS}/{index}")
    walls = home.battery_place.walls if isinstance(home.battery_place, OutdoorPlace) else []
    rows += wall_refusals(walls, _WALLS)
    for index, candidate in enumerate(request.candidates or []):
        at = f"/candidates/{index}"
        rows += sheet_refusals(candidate.limits, candidate.derating, at)
        if candidate.unit is not None:
            rows += hanging_refusals(candidate.unit, walls, f"{at}/unit", _WALLS)
            if candidate.siting is not None:
                box = candidate.unit
                sheet = f"{at}/siting"
                rows += siting_sheet_refusals(candidate.siting, box.height, box.mass, sheet)
        if candidate.inverter is not None:
            rated = candidate.battery.continuous_kw is not None
            rows += inverter_refusals(candidate.inverter, f"{at}/inverter", rated=rated)
    return [*(FieldError(*row) for row in dict.fromkeys(rows)), *_repeated_ids(request)]
