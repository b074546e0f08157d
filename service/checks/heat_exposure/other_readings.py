"""The answer with the unit shaded, in a lighter colour, or both."""

from __future__ import annotations

from service.checks.heat_exposure.arguments import LIGHTER
from service.checks.heat_exposure.readings import SHELTERED, absorptance_of
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.reruns import Told
from service.checks.heat_exposure.verdicts import Judged
from service.facts import OutdoorPlace
from service.findings import Alternative, Verdict
from service.published.sunlit_faces import absorptances

_READINGS = {
    "full-shade": "Something keeps all direct sun off it the whole day.",
    "lighter-colour": "Its faces are white.",
    "shade-and-lighter": "It is shaded the whole day, and its faces are white.",
}


def other_choices(request: HeatExposureRequest, judged: Judged) -> list[tuple[str, Told]]:
    """Return the choices to try, by their id."""
    place = request.place
    if not isinstance(place, OutdoorPlace):
        return []
    index = next(at for at, wall in enumerate(place.walls) if wall.id == judged.heat.spot.id)
    shade: tuple[tuple[str, object], ...] = ()
    if not place.walls[index].full_shade:
        shade = ((f"/place/walls/{index}/full_shade", True),)
    colour: tuple[tuple[str, object], ...] = ()
    if absorptance_of(request.unit)[SHELTERED] > absorptances()[LIGHTER].value:
        colour = (("/unit/colour", LIGHTER), ("/unit/absorptance", None))
    found = []
    if shade:
        found.append(("full-shade", Told(shade)))
    if colour:
        found.append(("lighter-colour", Told(colour)))
    if shade and colour:
        found.append(("shade-and-lighter", Told(shade + colour)))
    return found


def alternatives(
    choices: list[tuple[str, Told]], tried: list[Verdict], verdict: Verdict, judged: Judged
) -> list[Alternative]:
    """Return what the choices come to."""
    lanes = judged.heat.lanes.remedied
    by_id = dict(zip(_READINGS, lanes[1:], strict=True)) if lanes.size else {}
    now = lanes[0, SHELTERED].max() if lanes.size else 0.0
    found = []
    for (name, _), then in zip(choices, tried, strict=True):
        off = (now - by_id[name][SHELTERED].max()) * 1.8 if name in by_id else 0.0
        found.append(
            Alternative(
                id=name,
                reading=_READINGS[name],
                verdict=then,
                flips_verdict=then is not verdict,
                statement=f"It takes some {int(off)} degF off on the hottest days.",
            )
        )
    return found
