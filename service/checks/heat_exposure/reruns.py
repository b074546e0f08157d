"""The check run again on the same days with one fact told: for questions and other choices."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.request import HeatExposureRequest, with_climate
from service.checks.heat_exposure.verdicts import verdicts_with
from service.facts import SiteClimate, filled
from service.findings import Verdict


class Told(NamedTuple):
    """Facts told: values by pointer."""

    values: tuple[tuple[str, Any], ...]


def rerun(
    request: HeatExposureRequest, climate: ClimateDays, told: Sequence[Told]
) -> list[Verdict]:
    """Return the verdict with each of some facts told."""
    # The days are known already: a year of the caller's own is not carried along.
    place = climate.places[0].site or "riverside"
    light = with_climate(request, SiteClimate(site=place))
    requests = []
    for one in told:
        made = light
        for pointer, value in one.values:
            made = filled(made, pointer, value)
        requests.append(made)
    return verdicts_with(requests, [climate] * len(requests))
