"""Whether both terminals take the conductor, or one that it is spliced to."""

from __future__ import annotations

from service.checks.conductor_sizing.constraints import SIZES_AT_HAND
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.size_rules import name, said
from service.checks.conductor_sizing.sized import Sized
from service.facts import Terminal
from service.findings import Finding, Verdict
from service.published.conductors import index_of

TERMINAL_FIT = "terminal-fit"
#: Below these amps a bare terminal is at 60 degC whatever it takes [A], and one for no more than
#: this size at any amps. Source: NEC 2023 (NFPA 70) 110.14(C)(1). Standing: secondary.
_SMALL_CIRCUIT, _SMALL_LUG = 100.0, "1"


def terminal_fit(request: ConductorSizingRequest, sized: Sized) -> list[tuple[Finding, str | None]]:
    """Return how each terminal takes the conductor.

    A size that only the distance or the other terminal asks for may be spliced down near the
    terminal, by a listed connector, to one that is no smaller than the other rules ask; strands
    are never cut. Several sets end at one terminal. What is not stated of a terminal is a
    condition.
    """
    if sized.size < 0:
        return []
    ends = ((request.circuit.near, "at the source"), (request.circuit.far, "at the far end"))
    return [_told(request, sized, end, where) for end, where in ends]


def _told(
    request: ConductorSizingRequest, sized: Sized, end: Terminal, where: str
) -> tuple[Finding, str | None]:
    # The terminals' own smallest sizes are no rule on a pigtail at the other end.
    least = max(int(place) for place in sized.found.smallest[sized.lane][:SIZES_AT_HAND])
    most = sized.size if end.largest is None else index_of(end.largest)
    conditions = []
    if sized.material == "aluminum" and end.aluminum is False:
        return _failed(f"The terminal {where} is not marked for aluminum.")
    if end.smallest is None and end.largest is None:
        words = f"The range of the terminal {where} is not known."
    elif sized.size <= most:
        words = f"The terminal {where} takes {name(sized.size)}."
    elif most >= least:
        lowest = 0 if end.smallest is None else index_of(end.smallest)
        words = (
            f"The terminal {where} takes no more than {said(end.largest)}: a listed connector "
            f"near it, down to a pigtail of no less than {name(max(least, lowest))}."
        )
        conditions = [f"the conductors are spliced down {where} by listed connectors"]
    else:
        return _failed(
            f"The terminal {where} takes no more than {said(end.largest)}; the amps ask for "
            f"{name(least)}."
        )
    unsaid = _unsaid(request, sized, end)
    if unsaid:
        conditions.append(f"the terminals {' and '.join(unsaid)}")
        words += f" It is not stated that they {' and '.join(unsaid)}."
    verdict = Verdict.CONDITIONAL if conditions else Verdict.PASS
    finding = Finding(rule=TERMINAL_FIT, verdict=verdict, statement=words)
    return finding, ", and ".join(conditions) or None


def _failed(words: str) -> tuple[Finding, None]:
    return Finding(rule=TERMINAL_FIT, verdict=Verdict.FAIL, statement=words), None


def _unsaid(request: ConductorSizingRequest, sized: Sized, end: Terminal) -> list[str]:
    """Return what is not stated of a terminal and has to hold."""
    conductor = f"{name(sized.size)} {sized.material}"
    sets = request.circuit.sets
    found = []
    if sets > 1:
        found.append(f"take {sets} conductors of {conductor} each")
    elif end.smallest is None and end.largest is None:
        found.append(f"take {conductor}")
    if sized.material == "aluminum" and end.aluminum is None:
        found.append("are marked for aluminum")
    bare = end.marked is None and end.largest is None and sized.size <= index_of(_SMALL_LUG)
    if bare and float(sized.found.device.rating[sized.lane]) > _SMALL_CIRCUIT:
        found.append(f"are marked 75 degC or made for more than {_SMALL_LUG} AWG")
    return found
