"""Units as somebody would hang them: where, and how far off that may be."""

from __future__ import annotations

from typing import NamedTuple

from service.checks.clearance.lens import UNSTATED, measured
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.spots import Spot


class Hand(NamedTuple):
    """A unit placed by hand: its kind, its left edge and how far that may be off [m]."""

    kind: int
    left: float
    error: float


def placed_by_hand(request: ClearanceRequest, spot: Spot) -> list[Hand]:
    """Return the units that somebody placed, from left to right."""
    kinds = {kind.id: at for at, kind in enumerate(request.units)}
    by = spot.measured_by or UNSTATED
    return sorted(
        (Hand(kinds[one.unit], *measured(one.left, by)) for one in spot.placed),
        key=lambda hand: hand.left,
    )
