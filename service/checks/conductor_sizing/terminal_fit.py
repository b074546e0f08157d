"""Whether both terminals take the conductor, or one that it is spliced to."""

from __future__ import annotations

from service.checks.conductor_sizing.constraints import DROP
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.size_rules import name, said
from service.checks.conductor_sizing.sized import Sized
from service.findings import Finding, Verdict
from service.published.conductors import index_of

TERMINAL_FIT = "terminal-fit"


def terminal_fit(request: ConductorSizingRequest, sized: Sized) -> list[tuple[Finding, str | None]]:
    """Return how each terminal with a stated range takes the conductor.

    A size that only the distance asks for may be spliced down near the terminal, by a listed
    connector, to one that is no smaller than the other rules ask; strands are never cut.
    """
    least = max(int(place) for place in sized.found.smallest[sized.lane][:DROP])
    found: list[tuple[Finding, str | None]] = []
    for end, where in (
        (request.circuit.near, "at the source"),
        (request.circuit.far, "at the far end"),
    ):
        if sized.size < 0:
            continue
        if end.smallest is None and end.largest is None:
            marked = " and are marked for aluminum" if sized.material == "aluminum" else ""
            words = f"Which conductors the terminal {where} takes is not stated."
            condition = f"the terminals take {name(sized.size)} {sized.material}{marked}"
            found.append(
                (
                    Finding(rule=TERMINAL_FIT, verdict=Verdict.CONDITIONAL, statement=words),
                    condition,
                )
            )
            continue
        most = sized.size if end.largest is None else index_of(end.largest)
        lowest = 0 if end.smallest is None else index_of(end.smallest)
        if lowest <= sized.size <= most:
            words = f"The terminal {where} takes {name(sized.size)}."
            found.append((Finding(rule=TERMINAL_FIT, verdict=Verdict.PASS, statement=words), None))
        elif sized.size > most >= least:
            words = (
                f"The terminal {where} takes no more than {said(end.largest)}: a listed connector "
                f"near it, down to a pigtail of no less than {name(max(least, lowest))}."
            )
            condition = f"the conductors are spliced down {where} by listed connectors"
            found.append(
                (
                    Finding(rule=TERMINAL_FIT, verdict=Verdict.CONDITIONAL, statement=words),
                    condition,
                )
            )
        elif sized.size < lowest:
            words = f"The terminal {where} takes no less than {said(end.smallest)}: pull that."
            condition = f"conductors of no less than {said(end.smallest)} are pulled"
            found.append(
                (
                    Finding(rule=TERMINAL_FIT, verdict=Verdict.CONDITIONAL, statement=words),
                    condition,
                )
            )
        else:
            words = (
                f"The terminal {where} takes no more than {said(end.largest)}; the amps ask for "
                f"{name(least)}."
            )
            found.append((Finding(rule=TERMINAL_FIT, verdict=Verdict.FAIL, statement=words), None))
    return found
