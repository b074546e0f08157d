"""The check run again on the same days with one fact told: for questions and other choices."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any, NamedTuple

from service.checks.heat_exposure.climate_days import ClimateDays, climate_days
from service.checks.heat_exposure.columns import Heated
from service.checks.heat_exposure.request import HeatExposureRequest, with_climate
from service.checks.heat_exposure.verdicts import judge_all, verdict_of, verdicts_with
from service.facts import SiteClimate, filled
from service.findings import Verdict


class Told(NamedTuple):
    """Facts told: values by pointer."""

    values: tuple[tuple[str, Any], ...]


#: What these hold moves no temperature, so that the days need not be worked out again.
_OF_THE_SHEET = ("/limits/", "/derating", "/outage/")


def rerun(
    request: HeatExposureRequest, climate: ClimateDays, solved: Heated, told: Sequence[Told]
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
    again = [
        at
        for at, one in enumerate(told)
        if not all(pointer.startswith(_OF_THE_SHEET) for pointer, _ in one.values)
    ]
    asked = [requests[at] for at in again]
    days = [climate_days(requests[at].climate) if _elsewhere(told[at]) else climate for at in again]
    found = dict(zip(again, verdicts_with(asked, days), strict=True))
    return [
        found[at] if at in found else verdict_of(judge_all(one, climate, solved))
        for at, one in enumerate(requests)
    ]


def _elsewhere(one: Told) -> bool:
    """Return whether it tells of another climate than that of the days at hand."""
    return any(pointer == "/climate" for pointer, _ in one.values)
