"""The answer with the weather of another climate site that might stand for the home's position."""

from __future__ import annotations

import numpy as np

from service.checks.heat_exposure.arguments import arguments
from service.checks.heat_exposure.climate_days import ClimateDays, alone, of_choice
from service.checks.heat_exposure.columns import columns
from service.checks.heat_exposure.findings_of import felt, kind
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.shown import hottest_lane
from service.checks.heat_exposure.verdicts import Judged, judge_all, verdict_of
from service.facts import PointClimate
from service.findings import Alternative, Verdict, rank

#: Other sites shown at most.
_SITES_SHOWN = 3


def other_sites(
    request: HeatExposureRequest, climate: ClimateDays, chosen: Judged, verdict: Verdict
) -> list[Alternative]:
    """Return the answer of each other site: those as near in kind first, then the lesser ones.

    The answer holds for all that are as near in kind, by the hottest of them; each keeps the error
    of its distance.
    """
    if not isinstance(request.climate, PointClimate):
        return []
    hottest, _ = chosen.heat.place_and_stand(hottest_lane(chosen.heat, chosen.heat.hot_days))
    others = [
        *(alone(one, climate) for at, one in enumerate(climate.places) if at != hottest),
        *map(of_choice, climate.beside),
    ][:_SITES_SHOWN]
    if not others:
        return []
    with np.errstate(all="ignore"):
        lanes = arguments([request] * len(others), others, remedies=False)
        solved = columns(**lanes)["solved"]
    found = []
    for days_there, heated in zip(others, solved, strict=True):
        judged = judge_all(request, days_there, heated)
        then = verdict_of(judged)
        best = min(judged, key=lambda one: (-rank(one.verdict), _most(one)))
        found.append(
            Alternative(
                id="other-climate-site",
                reading=f"With the weather of {days_there.places[0].name} instead.",
                verdict=then,
                flips_verdict=then is not verdict,
                statement=f"On the hottest days {kind(request, best)} is {felt(best)} instead of "
                f"{felt(chosen)}.",
            )
        )
    return found


def _most(judged: Judged) -> float:
    return max(map(max, judged.heat.hot_peak))
