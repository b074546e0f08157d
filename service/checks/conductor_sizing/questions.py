"""What to ask next: the distance first, then the terminals and the nameplate."""

from __future__ import annotations

from typing import Any, NamedTuple

from service.checks.conductor_sizing.answer import MaterialSizing
from service.checks.conductor_sizing.arguments import edition_of, other_edition
from service.checks.conductor_sizing.circuit_kinds import KINDS, CircuitKind
from service.checks.conductor_sizing.request import ConductorSizingRequest, with_lugs
from service.checks.conductor_sizing.sized import Sized
from service.checks.conductor_sizing.terminal_fit import TERMINAL_FIT, terminal_fit
from service.checks.conductor_sizing.verdicts import made_of, verdict_of
from service.facts import CoarseRun, DistanceRun, Run, filled
from service.findings import AskBy, Question, Verdict, best, worst
from service.published import load
from service.published.conductors import index_of, sizes
from service.published.overcurrent_ratings import standard_ratings

_LUG = "/largest"
#: Bounds of the contract [A].
_LEAST_BREAKER, _MOST_BREAKER = 10.0, 4000.0


class _Asked(NamedTuple):
    pointer: str
    label: str
    question: str
    ask_by: AskBy
    values: tuple[Any, ...]
    why: str


def questions(
    request: ConductorSizingRequest, verdict: Verdict, both: list[Sized], rows: list[MaterialSizing]
) -> list[Question]:
    """Return the questions, those first whose answer changes the verdict.

    Parameters
    ----------
    request : ConductorSizingRequest
        As sent.
    verdict : Verdict
        Of the whole answer to it.
    both, rows : list of Sized, list of MaterialSizing
        Copper and aluminum of it; an answer that changes the size of copper is said to.
    """
    row = rows[0]
    asked = _open(request, row)
    tried: list[tuple[tuple[str, ...], ConductorSizingRequest]] = [
        ((one.pointer,), filled(request, one.pointer, value))
        for one in asked
        if not one.pointer.endswith(_LUG)
        for value in one.values
    ]
    ends = tuple(one.pointer for one in asked if one.pointer.endswith("/marked"))
    if len(ends) == 2:
        # Either end alone holds the column down: only both together may lift it.
        tried.append((ends, filled(filled(request, ends[0], 75), ends[1], 75)))
    decides: set[str] = set()
    moves: set[str] = set()
    for (pointers, _), made in zip(tried, made_of([one for _, one in tried]), strict=True):
        if verdict_of(made) is not verdict:
            decides.update(pointers)
        if made[0].row.phase != row.phase:
            moves.update(pointers)
    lugs = [one for one in asked if one.pointer.endswith(_LUG)]
    if _lugs_decide(request, verdict, both, rows, lugs):
        decides.update(one.pointer for one in lugs)
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


def _lugs_decide(
    request: ConductorSizingRequest,
    verdict: Verdict,
    both: list[Sized],
    rows: list[MaterialSizing],
    lugs: list[_Asked],
) -> bool:
    """Return whether what the terminals take, told of all of them, changes the verdict.

    Of marked terminals they change no size, so that no circuit is sized again; of bare ones they
    may change the column.
    """
    bare = any(getattr(request.circuit, name).marked is None for name in ("near", "far"))
    for value in lugs[0].values if lugs else ():
        told = with_lugs(request, [one.pointer.split("/")[2] for one in lugs], value)
        if bare:
            (made,) = made_of([told])
            if verdict_of(made) is not verdict:
                return True
            continue
        found = [
            worst(
                [one.verdict for one in row.findings if one.rule != TERMINAL_FIT]
                + [one.verdict for one, _ in terminal_fit(told, sized)]
            )
            for row, sized in zip(rows, both, strict=True)
        ]
        if best(found) is not verdict:
            return True
    return False


def _open(request: ConductorSizingRequest, row: MaterialSizing) -> list[_Asked]:
    circuit, kind = request.circuit, KINDS[request.circuit.kind]
    found = _of_the_run(request, kind)
    for name, where in (("near", kind.near), ("far", kind.far)):
        if getattr(circuit, name).marked is None:
            found.append(
                _Asked(
                    f"/circuit/{name}/marked",
                    f"the temperature marked on the terminal at {where}",
                    f"Which temperature is marked on the terminals at {where}? A photo of the "
                    "label will do; open nothing.",
                    AskBy.PHOTO,
                    (60, 75),
                    "Unmarked ones are taken at 60 degC up to 100 A.",
                )
            )
        if getattr(circuit, name).largest is None and row.phase is not None:
            found.append(
                _Asked(
                    f"/circuit/{name}/largest",
                    f"the largest conductor of the terminal at {where}",
                    f"Which conductors do the terminals at {where} take, by their label or data "
                    "sheet?",
                    AskBy.RECORD,
                    tuple(_smaller_and(row.phase)),
                    "What the distance asks for may be more than they take.",
                )
            )
    return found + _of_the_nameplate(request, kind, row)


def _of_the_run(request: ConductorSizingRequest, kind: CircuitKind) -> list[_Asked]:
    run = request.run
    ask = (
        f"How many feet is it along the walls from {kind.near} to {kind.far}, up and down counted?"
    )
    if isinstance(run, CoarseRun):
        table = load("coarse_distances")
        ends = [table.number(run.answer, end) for end in ("low", "high")]
        values = tuple({"kind": "distance", "length": end} for end in ends)
        why = "Every size of the circuit hangs on it."
        return [_Asked("/run", "the distance along the route", ask, AskBy.TELEPHONE, values, why)]
    if isinstance(run, DistanceRun):
        values = tuple(ways_of(run))
        where = (
            f"Which way does the run go from {kind.near} to {kind.far}: along walls, through the "
            "attic, over the roof, in the ground?"
        )
        why = "Heat on the way takes a part of what a conductor carries."
        return [_Asked("/run", "where the run leads", where, AskBy.TELEPHONE, values, why)]
    return [
        _Asked(
            f"/run/segments/{index}/cover",
            "how deep it lies",
            "How many inches of earth lie, or may lie, above its top?",
            AskBy.VISIT,
            (0.0, 36.0),
            "The code asks for a least cover.",
        )
        for index, part in enumerate(run.segments)
        if part.place == "buried" and part.cover is None
    ][:1]


def ways_of(run: Run) -> list[dict[str, Any]]:
    """Return runs of a distance at both ends of the heat on the way; none where parts are known."""
    if not isinstance(run, DistanceRun):
        return []
    return [
        {"kind": "segments", "segments": [{"length": run.length, "place": place}]}
        for place in ("indoors", "rooftop")
    ]


def _of_the_nameplate(
    request: ConductorSizingRequest, kind: CircuitKind, row: MaterialSizing
) -> list[_Asked]:
    found = []
    circuit = request.circuit
    if circuit.kw is not None:
        found.append(
            _Asked(
                "/circuit/amps",
                "the amps of the nameplate",
                f"Which amps does the nameplate of {kind.near} state?",
                AskBy.PHOTO,
                (),
                "Amps worked out of kW are second best.",
            )
        )
    if circuit.most_breaker_a is None and kind.nameplate:
        found.append(
            _Asked(
                "/circuit/most_breaker_a",
                "the largest breaker of the nameplate",
                "Which breaker does the nameplate allow at most?",
                AskBy.PHOTO,
                _breakers(request, row),
                "A breaker above it is not allowed.",
            )
        )
    if other_edition(request) is not None and request.edition is None:
        found.append(
            _Asked(
                "/edition",
                "the edition of the code",
                "Which edition of the electrical code does the authority read for this permit?",
                AskBy.RECORD,
                (other_edition(request),),
                "Editions differ in what a roof adds.",
            )
        )
    return found


def _breakers(request: ConductorSizingRequest, row: MaterialSizing) -> tuple[float, ...]:
    """Return the breaker that is needed and the next smaller one [A]."""
    if row.breaker_a is None:
        return ()
    least = max(row.breaker_a, request.circuit.breaker_a or 0.0)
    below = [one for one in standard_ratings(edition_of(request)[0]).tolist() if one < least]
    ends = (below[-1], least) if below and request.circuit.breaker_a is None else (least,)
    return tuple(end for end in ends if _LEAST_BREAKER <= end <= _MOST_BREAKER)


def _smaller_and(phase: str) -> list[str]:
    """Return the size below a size, where there is one, and the size."""
    place = index_of(phase)
    return [*sizes()[max(place - 1, 0) : place], phase]


def _shown(values: tuple[Any, ...]) -> list[Any] | None:
    """Return the values tried, None where they hold more than a number, or there are none."""
    plain = bool(values) and all(isinstance(value, str | float | int) for value in values)
    return list(values) if plain else None
