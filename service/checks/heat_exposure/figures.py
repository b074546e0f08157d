"""Numbers for others: how hot the unit feels, and what power that leaves."""

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
            label="Feels on the hottest days, sun included, in wind",
            value=float(floor(hot.low)),
            unit="degF",
        ),
        Figure(
            id="ambient-high",
            label="Feels on the hottest days, sun included, in calm",
            value=float(-floor(-hot.high + 1e-6)),
            unit="degF",
        ),
    ]
    left = [row.least_percent_low for row in answer.power if row.day == "hottest"]
    found += [
        Figure(
            id="power-left",
            label="Least part of its power left on the hottest days",
            value=float(floor(percent + 1e-6)),
            unit="%",
        )
        for percent in left
    ]
    return found
