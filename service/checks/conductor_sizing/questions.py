"""What to ask next: the distance first, then the terminals and the nameplate."""

from __future__ import annotations

from typing import Any, NamedTuple

from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.verdicts import made_of, verdict_of
from service.facts import CoarseRun, filled
from service.findings import AskBy, Question, Verdict
from service.published import load


class _Asked(NamedTuple):
    pointer: str
    label: str
    question: str
    ask_by: AskBy
    values: tuple[Any, ...]
    why: str


def questions(
    request: ConductorSizingRequest, verdict: Verdict, phase: str | None
) -> list[Question]:
    """Return the questions, those first whose answer changes the verdict.

    Parameters
    ----------
    request : ConductorSizingRequest
        As sent.
    verdict : Verdict
        Of the whole answer to it.
    phase : str or None
        Size answered in copper: an answer that changes it is said to.
    """
    asked = _open(request)
    tried = [(one, value) for one in asked for value in one.values]
    found = made_of([filled(request, one.pointer, value) for one, value in tried])
    decides, moves = set(), set()
    for (one, _), made in zip(tried, found, strict=True):
        if verdict_of(made) is not verdict:
            decides.add(one.pointer)
        if made[0].row.phase != phase:
            moves.add(one.pointer)
    shown = [
        Question(
            pointer=one.pointer,
            label=one.label,
            question=one.question,
            ask_by=one.ask_by,
            can_change_verdict=one.pointer in decides,
            range=_shown(one.values),
            why=one.why + (" It can change the size." if one.pointer in moves else ""),
        )
        for one in asked
    ]
    return sorted(shown, key=lambda q: (not q.can_change_verdict, q.pointer not in moves))


def _open(request: ConductorSizingRequest) -> list[_Asked]:
    circuit = request.circuit
    found = []
    if isinstance(request.run, CoarseRun):
        table = load("coarse_distances")
        ends = [table.number(request.run.answer, end) for end in ("low", "high")]
        found.append(
            _Asked(
                "/run",
                "the distance along the route",
                "How many feet is it along the walls from the battery to the panel, up and down "
                "counted?",
                AskBy.TELEPHONE,
                tuple({"kind": "distance", "length": end} for end in ends),
                "Every size of the circuit hangs on it.",
            )
        )
    for name, where in (("near", "the battery's terminals"), ("far", "the panel's lugs")):
        if getattr(circuit, name).marked is None:
            found.append(
                _Asked(
                    f"/circuit/{name}/marked",
                    f"the temperature marked on {where}",
                    f"Which temperature is marked on {where}? A photo of the label will do; open "
                    "nothing.",
                    AskBy.PHOTO,
                    (60, 75),
                    "Unmarked ones are taken at 60 degC up to 100 A.",
                )
            )
    if circuit.most_breaker_a is None:
        found.append(
            _Asked(
                "/circuit/most_breaker_a",
                "the largest breaker of the nameplate",
                "Which breaker does the nameplate allow at most?",
                AskBy.PHOTO,
                (),
                "A breaker above it is not allowed.",
            )
        )
    return found


def _shown(values: tuple[Any, ...]) -> list[Any] | None:
    """Return the values tried, None where they hold more than a number, or there are none."""
    plain = bool(values) and all(isinstance(value, str | float | int) for value in values)
    return list(values) if plain else None
