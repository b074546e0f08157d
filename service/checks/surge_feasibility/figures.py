"""Numbers for others: what the site asks of any source, what an answer shows."""

from __future__ import annotations

from service.checks.surge_feasibility.answer import SurgeFeasibilityAnswer
from service.facts import Site
from service.findings import Figure


def needs(_site: Site) -> list[Figure]:
    """Return nothing: what a start asks of a source hangs on the source."""
    return []


def figures(answer: SurgeFeasibilityAnswer) -> list[Figure]:
    """Return the amps that the assessment shows."""
    starts = [motor.start_amps for motor in answer.motors if motor.start_amps is not None]
    found = [
        Figure(
            id="leg-amps-likely",
            label="Amps of the heavier leg, everything running",
            value=answer.steady.leg_likely_a,
            unit="A",
        )
    ]
    if starts:
        found.append(
            Figure(
                id="start-amps-most",
                label="Most amps that a start would take on a source without a ceiling",
                value=max(starts),
                unit="A",
            )
        )
    return found
