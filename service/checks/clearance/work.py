"""What a request will cost, before any work."""

from __future__ import annotations

from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.spots import spots_of

#: Measured on one core [ms]: a request, a wall with its reruns, an object on it with its reruns,
#: and what the number of units takes that are placed together in all their orders.
_FLAT_MS, _WALL_MS, _OBJECT_MS, _ORDER_MS = 1.0, 4.0, 0.8, 0.02
#: Whole answers that the reruns of an assessment come to.
RERUNS = 2.0
#: Walls a second in a large batch, on one core.
ARRAY_RATE = 4_000.0


def work(request: ClearanceRequest) -> float:
    """Return the predicted time [ms] on one core."""
    orders = 1
    for unit in request.units:
        orders *= unit.count + 1
    kinds = len(request.units)
    spots = spots_of(request)
    objects = sum(len(spot.objects) + len(spot.way) for spot in spots)
    each = _WALL_MS + _ORDER_MS * orders * kinds
    return _FLAT_MS + kinds * (each * len(spots) + _OBJECT_MS * objects)
