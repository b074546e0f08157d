"""A second check for the assessment to compose: how much is kept against how much is asked.

It exists in the tests alone. Its answer takes one number, and it can be told what to take it from.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import numpy as np
from msgspec import Struct

from service.check import Arrays, Check, FromSite, Includes, run_check
from service.facts import Equipment
from service.findings import (
    ESTIMATE_NOT_DESIGN,
    Answer,
    AskBy,
    Assumption,
    Basis,
    Caution,
    Figure,
    Finding,
    Question,
    SourceRef,
    Verdict,
)

#: What `level` is held against, and what stands in for it [%].
LIMIT = 50.0
ASSUMED = 60.0
_POINTERS = {"/level": "/equipment/reserve_percent", "/unit": "/candidates/*/battery"}


class LevelRequest(Struct, kw_only=True):
    """A level in percent; None: unknown."""

    level: float | None = None


def _arguments(requests: Sequence[LevelRequest]) -> Arrays:
    return {"level": np.array([ASSUMED if r.level is None else r.level for r in requests])}


def _columns(level: Any) -> Arrays:
    return {"enough": level >= LIMIT, "level": level}


def _verdict(request: LevelRequest, enough: bool) -> Verdict:
    if not enough:
        return Verdict.FAIL
    return Verdict.UNDETERMINED if request.level is None else Verdict.PASS


def _explain(request: LevelRequest, columns: Arrays, row: int, _includes: Includes) -> Answer:
    verdict = _verdict(request, bool(columns["enough"][row]))
    tried: tuple[tuple[str, str, list[float | str] | None], ...] = (
        ("/level", "the level", [0.0, 100.0]),
        ("/unit/ambient", "the air at the unit", [60.0, 90.0]),
        ("/nowhere", "what no site field holds", None),
    )
    asked = [
        Question(
            pointer=pointer,
            label=label,
            question=f"What is {label}?",
            ask_by=AskBy.VISIT,
            can_change_verdict=True,
            range=values,
            why="It is held against the limit.",
        )
        for pointer, label, values in tried
    ]
    assumed = [
        Assumption(pointer=pointer, value=ASSUMED, reason="It stands in.")
        for pointer in ("/level", "/nowhere")
    ]
    return Answer(
        verdict=verdict,
        headline=f"{verdict}.",
        summary="The level is held against the limit.",
        conditions=[],
        findings=[Finding(rule="level", verdict=verdict, statement="The level is compared.")],
        alternatives=[],
        assumptions=assumed if request.level is None else [],
        questions=asked if request.level is None else [],
        cautions=[ESTIMATE_NOT_DESIGN, Caution(id="level", text="A level is no promise.")],
        sources=[
            SourceRef(id="own", title="Own", edition="1", place="row", standing="derived"),
            SourceRef(id="own", title="Own", edition="1", place="row", standing="derived"),
        ],
        basis=Basis(code_edition=None, data_edition="0"),
    )


def _verdicts(requests: Sequence[LevelRequest]) -> list[Verdict]:
    enough = _columns(**_arguments(requests))["enough"]
    return [_verdict(request, bool(is_so)) for request, is_so in zip(requests, enough, strict=True)]


def reserve_of(site: Any, _candidate: Any, _answers: Mapping[str, Any]) -> FromSite:
    """Return the level that the site's equipment states as its reserve."""
    level = (site.equipment or Equipment()).reserve_percent
    return FromSite(LevelRequest(level=level if isinstance(level, float) else None), (), _POINTERS)


def level_check(
    *,
    check_id: str = "level",
    after: tuple[str, ...] = (),
    from_site: Callable[..., FromSite] = reserve_of,
) -> Check:
    """Return the check, under another id, after other checks, or fed with something else."""
    return Check(
        id=check_id,
        title="Level",
        description="A check of the tests.",
        tag="checks",
        request=LevelRequest,
        answer=Answer,
        run=run_check(_arguments, _columns, _explain),
        work=lambda _request: 0.1,
        arguments=_arguments,
        columns=_columns,
        explain=_explain,
        facts_read=("/equipment",),
        after=after,
        from_site=from_site,
        verdicts=_verdicts,
        needs=lambda _site: [Figure(id="level-limit", label="Level", value=LIMIT, unit="%")],
        figures=lambda answer: [
            Figure(id="rules", label="Rules", value=float(len(answer.findings)), unit="1")
        ],
    )
