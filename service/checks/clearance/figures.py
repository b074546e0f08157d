"""Numbers for others: how many units stand, what way stays, how far the panel is."""

from __future__ import annotations

from service.checks.clearance.answer import ClearanceAnswer
from service.facts import Site
from service.findings import Figure


def needs(_site: Site) -> list[Figure]:
    """Return nothing: what room is needed hangs on the unit."""
    return []


def figures(answer: ClearanceAnswer) -> list[Figure]:
    """Return the numbers of the place that stands for the answer."""
    place = next((one for one in answer.places if one.id == answer.place), None)
    if place is None:
        return []
    found = [
        Figure(
            id="units-placed",
            label=f"Units that stand at {place.id}",
            value=float(place.placed),
            unit="units",
        )
    ]
    if place.way_left_in is not None:
        found.append(
            Figure(
                id="way-left",
                label="Way that stays where it is narrowest",
                value=place.way_left_in,
                unit="in",
            )
        )
    if place.to_panel_high_ft is not None:
        found.append(
            Figure(
                id="way-to-panel",
                label="Way of the wires from a unit to the panel, at most",
                value=place.to_panel_high_ft,
                unit="ft",
            )
        )
    return found
