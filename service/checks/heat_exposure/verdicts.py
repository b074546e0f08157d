"""Verdicts alone, many at once: for reruns of questions and of an assessment."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.arguments import arguments
from service.checks.heat_exposure.climate_days import ClimateDays, climate_days
from service.checks.heat_exposure.cold_end import cold_verdict
from service.checks.heat_exposure.columns import Heated, columns
from service.checks.heat_exposure.judged import (
    Ends,
    SpotHeat,
    Tops,
    factors,
    gives_nothing,
    heat_verdict,
    least_parts,
    peaks,
    power_verdict,
    rise_of,
    spots_heat,
)
from service.checks.heat_exposure.request import HeatExposureRequest, warming
from service.checks.heat_exposure.stated_outage import window_of
from service.findings import Verdict, best, worst

Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Judged:
    """A spot and how each of its rules stands."""

    heat: SpotHeat
    ends: Ends | None
    parts: Ends | None
    factor: Floats | None
    rules: dict[str, Verdict]

    @property
    def verdict(self) -> Verdict:
        """Return the worst of the rules."""
        return worst(self.rules.values())


def judge(request: HeatExposureRequest, climate: ClimateDays, spot: SpotHeat) -> Judged:
    """Return how a spot stands."""
    return judge_ways(request, climate, spot, spot.lanes.followed[np.newaxis], [spot.top])[0]


def judge_ways(
    request: HeatExposureRequest,
    climate: ClimateDays,
    spot: SpotHeat,
    followed: Floats,
    tops: list[Tops],
) -> list[Judged]:
    """Return how a spot stands at other temperatures of it.

    Parameters
    ----------
    request : HeatExposureRequest
    climate : ClimateDays
    spot : SpotHeat
    followed : ndarray, shape (ways, 5, L, 24)
        [K].
    tops : list of list
        The highest of every lane, by way and reading [K].
    """
    rise = rise_of(spot)
    factor = None if rise is None else factors(request, followed, rise)
    inside = np.flatnonzero(window_of(request) > 0.0)
    cold, found = cold_verdict(request, climate, spot.spot), []
    for way, top in enumerate(tops):
        ends = None if rise is None else peaks(spot, top, rise)
        of = None if factor is None else factor[way]
        parts = None if of is None else least_parts(spot, of, inside)
        least = 1.0 if parts is None else parts.least
        nothing = of is not None and least <= 0.0 and gives_nothing(spot, of, inside)
        rules = {
            "heat-limit": heat_verdict(request, ends),
            "heat-power": power_verdict(request, parts, nothing=nothing),
            "cold-limit": cold,
        }
        found.append(Judged(spot, ends, parts, of, rules))
    return found


def judge_all(
    request: HeatExposureRequest, climate: ClimateDays, solved: Heated | None
) -> list[Judged]:
    """Return how every spot of a request stands; none where its climate bars an answer."""
    if solved is None:
        return []
    return [judge(request, climate, spot) for spot in spots_heat(request, climate, solved)]


def verdict_of(judged: Sequence[Judged]) -> Verdict:
    """Return the verdict of a request: that of its best spot."""
    return best(one.verdict for one in judged)


def verdicts_with(
    requests: Sequence[HeatExposureRequest], days: Sequence[ClimateDays] | None
) -> list[Verdict]:
    """Return the verdict of each request, whose days may be known already."""
    if not requests:
        return []
    places = [climate_days(one.climate) for one in requests] if days is None else list(days)
    keys = [
        (warming(one), id(place) if days is not None or place.how == "own" else 0)
        for one, place in zip(requests, places, strict=True)
    ]
    first: dict[tuple[bytes, int], int] = {}
    alike = [first.setdefault(key, at) for at, key in enumerate(keys)]
    kept = list(first.values())
    with np.errstate(all="ignore"):
        lanes = arguments(
            [requests[at] for at in kept], [places[at] for at in kept], remedies=False
        )
        solved = dict(zip(kept, columns(**lanes)["solved"], strict=True))
    return [
        verdict_of(judge_all(request, place, solved[at]))
        for request, place, at in zip(requests, places, alike, strict=True)
    ]


def verdicts(requests: Sequence[HeatExposureRequest]) -> list[Verdict]:
    """Return the verdict of each request, the same as that of its whole answer."""
    return verdicts_with(requests, None)
