"""The answer with the unit shaded, in a lighter colour, or both."""

from __future__ import annotations

from math import floor

from service.checks.heat_exposure.arguments import LIGHTER
from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.readings import SHELTERED, absorptance_of
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.verdicts import Judged, judge_ways
from service.findings import Alternative, Verdict, best
from service.published.sunlit_faces import absorptances

_READINGS = {
    "full-shade": "Something keeps all direct sun off it the whole day.",
    "lighter-colour": "Its faces are white.",
    "shade-and-lighter": "It is shaded the whole day, and its faces are white.",
}
_F_PER_K = 1.8
#: What takes less off is no choice: the estimate tells no two such readings apart [degF].
_WORTH_F = 1.8


def alternatives(
    request: HeatExposureRequest, climate: ClimateDays, judged: list[Judged], chosen: Judged
) -> list[Alternative]:
    """Return what shade and colour come to at the place that the answer stands for."""
    wall, verdict = chosen.heat.spot.wall, best(one.verdict for one in judged)
    if wall is None:
        return []
    dark = absorptance_of(request.unit)[SHELTERED] > absorptances()[LIGHTER].value
    open_ways = {
        "full-shade": not wall.full_shade,
        "lighter-colour": dark,
        "shade-and-lighter": dark and not wall.full_shade,
    }
    others = [one.verdict for one in judged if one is not chosen]
    now, found = max(chosen.heat.hot_peak[1]), []
    tops = chosen.heat.remedied_tops
    ways = judge_ways(request, climate, chosen.heat, chosen.heat.lanes.remedied, tops)
    for name, top, way in zip(_READINGS, tops, ways, strict=True):
        if not open_ways[name]:
            continue
        then: Verdict = best([way.verdict, *others])
        off = (now - max(chosen.heat.peak_of(top)[1])) * _F_PER_K
        if off < _WORTH_F and then is verdict:
            continue
        found.append(
            Alternative(
                id=name,
                reading=_READINGS[name],
                verdict=then,
                flips_verdict=then is not verdict,
                statement=f"It takes some {floor(max(off, 0.0))} degF off on the hottest days.",
            )
        )
    return found
