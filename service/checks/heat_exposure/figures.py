"""Numbers for others: how hot the unit gets, and what power that leaves."""

from __future__ import annotations

from math import floor

from service.checks.heat_exposure.answer import HeatExposureAnswer
from service.facts import Site
from service.findings import Figure


def needs(_site: Site) -> list[Figure]:
    """Return nothing: how hot a unit gets hangs on the unit."""
    return []


def figures(answer: HeatExposureAnswer) -> list[Figure]:
    """Return the band of the hottest days and the least power that is left."""
    hot = answer.hottest
    if hot is None:
        return []
    found = [
        Figure(
            id="ambient-low",
            label="Equivalent ambient temperature on the hottest days, in wind",
            value=float(floor(hot.low)),
            unit="degF",
        ),
        Figure(
            id="ambient-high",
            label="Equivalent ambient temperature on the hottest days, in calm air",
            value=float(-floor(-hot.high + 1e-6)),
            unit="degF",
        ),
    ]
    left = [row.least_percent_low for row in answer.power if row.day == "hottest"]
    found += [
        Figure(
            id="power-left",
            label="Part of its power that is sure in the worst hour of the hottest days",
            value=float(floor(percent + 1e-6)),
            unit="%",
        )
        for percent in left
    ]
    return found
