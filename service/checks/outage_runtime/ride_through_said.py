"""Chance of riding an outage through, under assumed kinds of outage."""

from __future__ import annotations

from service.checks.outage_runtime import year_answer as an
from service.checks.outage_runtime.year_survey import HOUR, Survey
from service.physics.outage_durations import lognormal_parameters, ride_through_chance
from service.published.outage_kinds import OutageKind, outage_kinds

_Ends = tuple[tuple[float, float], tuple[float, float]]


def _chances(kind: OutageKind, survey: Survey) -> _Ends:
    """Return low and high chance from the start charge and from full."""
    if kind.cv is None:
        shares = survey.carried(kind.mean_h).mean(axis=1).tolist()
        return (shares[0], shares[0]), (shares[1], shares[1])
    mu, sigma = lognormal_parameters(kind.mean_h * HOUR, kind.cv)
    start, full = (
        ride_through_chance(survey.held[row], survey.lasts[row], mu, sigma) for row in (0, 1)
    )
    return start, full


def _words(kind: OutageKind) -> str:
    if kind.cv is None:
        return f"{kind.words} An assumption: exactly {kind.mean_h:g} h."
    return (
        f"{kind.words} An assumption: lognormal, mean {kind.mean_h:.3g} h, standard deviation "
        f"{kind.cv:g} times that."
    )


def ride_through(survey: Survey) -> list[an.RideThrough]:
    """Return the chance of riding through, by assumed kind of outage."""
    found = []
    for kind in outage_kinds():
        if kind.cv is None and kind.mean_h * HOUR > survey.horizon + 1e-6:
            continue
        start, full = _chances(kind, survey)
        found.append(
            an.RideThrough(
                model=kind.id,
                statement=_words(kind),
                from_start_low_percent=100.0 * start[0],
                from_start_high_percent=100.0 * start[1],
                from_full_low_percent=100.0 * full[0],
                from_full_high_percent=100.0 * full[1],
                standing=str(kind.standing),
            )
        )
    return found
