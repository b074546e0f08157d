"""The answer under other admissible readings."""

from __future__ import annotations

from service.checks.surge_feasibility import versions as tried
from service.checks.surge_feasibility.arguments import Solvable
from service.checks.surge_feasibility.judged_start import judge
from service.checks.surge_feasibility.motor_verdict import WORDS
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.start_outcome import (
    FOLDS_BACK,
    LIGHTS_DIP,
    TRIPS,
    UNCERTAIN,
)
from service.checks.surge_feasibility.steady import Carried
from service.findings import Alternative, Verdict
from service.quantities.comparison import reaches

_READINGS = (
    ("source-folds-back", FOLDS_BACK, "Beyond its ratings the inverter lets the volts sag."),
    ("source-trips", TRIPS, "Beyond its ratings the inverter shuts down."),
)


def alternatives(
    request: SurgeFeasibilityRequest,
    made: Solvable | None,
    found: tried.Solved | None,
    carried: Carried,
    verdict: Verdict,
) -> list[Alternative]:
    """Return the other readings: the stand-alone rule, and what a source does beyond ratings."""
    fits = bool(reaches(carried.continuous_va, carried.largest_va, "power"))
    passes = Verdict.CONDITIONAL if carried.known else Verdict.UNDETERMINED
    then = passes if fits else Verdict.FAIL
    shown = [
        Alternative(
            id="largest-load-rule",
            reading="The rule for stand-alone systems: the source carries the largest single load.",
            verdict=then,
            flips_verdict=then is not verdict,
            statement=(
                f"The largest single load stated takes {carried.largest_va:.0f} VA, and the source "
                f"has {carried.continuous_va:.0f} VA."
            ),
        )
    ]
    if made is None or found is None or request.inverter.beyond_rating is not None:
        return shown
    for name, beyond, reading in _READINGS:
        known = made.known._replace(beyond=made.known.beyond * 0 + beyond)
        words = judge({tried.BARE: made.case}, made.limits, known)[tried.BARE][0].word
        worst = int(words.min())
        then = (
            Verdict.CONDITIONAL
            if worst >= LIGHTS_DIP
            else Verdict.UNDETERMINED
            if worst == UNCERTAIN
            else Verdict.FAIL
        )
        said = "; ".join(
            f"{request.motors[place].id}: {WORDS[int(word)].replace('_', ' ')}"
            for place, word in zip(made.places, words, strict=True)
        )
        shown.append(
            Alternative(
                id=name,
                reading=reading,
                verdict=then,
                flips_verdict=then is not verdict,
                statement=f"For the starts alone: {said}.",
            )
        )
    return shown
