"""The answer under other admissible readings."""

from __future__ import annotations

from service.checks.surge_feasibility.capacity_rules import RULE as CAPACITY
from service.checks.surge_feasibility.capacity_rules import largest_load
from service.checks.surge_feasibility.judgement import Judgement
from service.checks.surge_feasibility.motor_verdict import WORDS
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.start_outcome import (
    COUNTED_FOLDED,
    FOLDS_BACK,
    LIGHTS_DIP,
    TRIPS,
    UNCERTAIN,
)
from service.checks.surge_feasibility.steady import Carried
from service.checks.surge_feasibility.verdicts import verdicts
from service.checks.surge_feasibility.versions import BARE
from service.facts import filled
from service.findings import Alternative, Finding, Verdict, worst

_READINGS = (
    (
        "source-folds-back",
        COUNTED_FOLDED,
        "Beyond its ratings the inverter lets the volts sag, and that is counted on.",
    ),
    ("source-trips", TRIPS, "Beyond its ratings the inverter shuts down."),
)


def alternatives(
    request: SurgeFeasibilityRequest,
    stands: Judgement,
    carried: Carried,
    findings: list[Finding],
    verdict: Verdict,
) -> list[Alternative]:
    """Return the other readings: the stand-alone rule, and what a source does beyond ratings.

    The verdict of each is that of the whole answer with the one rule read otherwise.
    """
    rule = largest_load(carried)
    kept = "breaks" if rule is Verdict.FAIL else "keeps"
    then = worst([rule, *(one.verdict for one in findings if one.rule != CAPACITY)])
    shown = [
        Alternative(
            id="largest-load-rule",
            reading="The rule for stand-alone systems: the source carries the largest single load.",
            verdict=then,
            flips_verdict=then is not verdict,
            statement=(
                f"The largest single load stated takes {carried.largest_va:.0f} VA, and the source "
                f"has {carried.continuous_va:.0f} VA: it {kept} that rule."
            ),
        )
    ]
    shown += _of_drives(request, verdict)
    made, found = stands.made, stands.found
    stated = request.inverter is None or stands.source.beyond == TRIPS
    if made is None or found is None or stated:
        return shown
    bare = found.of[BARE][0].word
    for name, beyond, reading in _READINGS:
        words = found.beyond[beyond]
        # A reading says something where it changes a word, and one that a fact excludes says none.
        excluded = beyond == TRIPS and stands.source.beyond == FOLDS_BACK
        if excluded or (words == bare).all():
            continue
        least = int(words.min())
        then = (
            Verdict.CONDITIONAL
            if least >= LIGHTS_DIP
            else Verdict.UNDETERMINED
            if least == UNCERTAIN
            else Verdict.FAIL
        )
        then = worst([then, *(one.verdict for one in findings if one.rule != "motor-starts")])
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


def _of_drives(request: SurgeFeasibilityRequest, verdict: Verdict) -> list[Alternative]:
    """Return the answer for machines whose sound speaks for a drive, whatever they are said to be.

    A steady hum that rises and falls, by telephone, is no more than a hint.
    """
    heard = [
        place
        for place, motor in enumerate(request.motors)
        if motor.hum == "steady" and motor.locked_rotor_a is None and motor.kind != "drive_fed"
    ]
    if not heard:
        return []
    changed = request
    for place in heard:
        changed = filled(changed, f"/motors/{place}/kind", "drive_fed")
        changed = filled(changed, f"/motors/{place}/soft_starter", None)
    (then,) = verdicts([changed])
    names = " and ".join(request.motors[place].id for place in heard)
    return [
        Alternative(
            id="drive-fed-machine",
            reading=f"{names}: the steady hum is that of a drive.",
            verdict=then,
            flips_verdict=then is not verdict,
            statement="A drive brings it up without a surge; its nameplate says which it is.",
        )
    ]
