"""A check that does nothing of use and has every construct that the contract must be able to say.

Tests register it to see that one record is enough for the contract, the reference lists and the
site assessment, and that generated clients take every form.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Annotated, Any, Literal

import numpy as np
from msgspec import Meta, Struct

from service.check import Arrays, Check, FromSite, Includes, Operation, run_check
from service.facts import FactCoarse, FactOneOf, FactRange, FactUnknown, Reference, fact
from service.findings import Answer, Basis, Finding, Verdict
from service.published import data_edition
from service.quantities.fields import choice, number, out, quantity, said, text


class DummyRound(Struct, tag="round", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """A round thing."""

    across: Annotated[float, quantity("in", "Width across.", ge=0, le=100, example=3.5)]


class DummySquare(Struct, tag="square", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """A square thing."""

    side: Annotated[float, quantity("in", "Length of a side.", ge=0, le=100, example=4.0)]
    turned: Annotated[bool, Meta(description="Whether it lies on a corner.", examples=[False])] = (
        False
    )


_Area = Annotated[float, quantity("ft", "Run of the line.", ge=0, le=10_000, example=30.0)]
_Month = Annotated[float, quantity("kWh", "Energy of a month.", ge=0, le=20_000, example=700.0)]


class DummyRequest(Struct, forbid_unknown_fields=True, kw_only=True):
    """Every construct that a request may have."""

    reference: Reference | None = None
    shape: Annotated[
        DummyRound | DummySquare,
        Meta(description="One of two shapes.", examples=[{"kind": "round", "across": 3.5}]),
    ]
    other_shape: Annotated[
        DummyRound | DummySquare | None,
        Meta(description="Another shape; absent: none.", examples=[{"kind": "square", "side": 4}]),
    ] = None
    shapes: Annotated[
        list[DummyRound | DummySquare],
        Meta(description="More shapes.", max_length=4, examples=[[{"kind": "square", "side": 4}]]),
    ] = []
    run: Annotated[
        _Area
        | FactRange[_Area]
        | FactOneOf[_Area]
        | FactCoarse[Literal["long", "short"]]
        | FactUnknown
        | None,
        fact(
            "Run of the line from end to end.",
            ask_by="photo",
            question="How long is the run?",
            who="owner",
            example=30.0,
            coarse={"short": (0.0, 30.0), "long": (30.0, 300.0)},
            photo="The wall from end to end.",
        ),
    ] = None
    colour: Annotated[
        Literal["red", "blue"] | FactOneOf[Literal["red", "blue"]] | FactUnknown | None,
        fact(
            "Colour of the line.",
            ask_by="telephone",
            question="Which colour has it?",
            who="owner",
            example="red",
        ),
    ] = None
    wet: Annotated[
        bool | FactOneOf[bool] | FactUnknown | None,
        fact(
            "Whether it stands in water.",
            ask_by="visit",
            question="Does it stand in water?",
            who="installer",
            example=False,
        ),
    ] = None
    months: (
        Annotated[
            _Month | Annotated[list[_Month], Meta(min_length=12, max_length=12)],
            Meta(description="Energy of one month or of twelve.", examples=[700.0]),
        ]
        | None
    ) = None
    count: Annotated[int, Meta(ge=1, le=9, description="How many.", examples=[2])] = 1
    factor: Annotated[float, number("A factor.", ge=0, le=2, example=1.0)] = 1.0
    name: Annotated[str, text("What it is called.", example="Line A")] | None = None
    mode: Annotated[Literal["fast", "slow"] | None, choice("How.", example="fast")] = None
    grid: Annotated[
        list[Annotated[list[_Area], Meta(max_length=3)]],
        Meta(description="Runs by row.", max_length=3, examples=[[[1.0, 2.0], [3.0]]]),
    ] = []


class DummyPart(Struct, kw_only=True, forbid_unknown_fields=True):
    """One part of the answer."""

    label: Annotated[str, said("What it is.", example="Line A")]
    run_ft: Annotated[float | None, out("ft", "Its run; null: unknown.", example=30.0)]
    rows: Annotated[list[list[float]], out("ft", "Runs by row.", example=[[1.0, 2.0]], decimals=3)]


class DummyAnswer(Answer, kw_only=True, forbid_unknown_fields=True):
    """Every construct that an answer may have."""

    total_ft: Annotated[float, out("ft", "Sum of the runs.", example=36.0, decimals=3)]
    parts: Annotated[list[DummyPart], said("Its parts.", example=[])]
    largest: Annotated[DummyPart | None, said("The largest part; null: none.", example=None)]


def _arguments(requests: Sequence[DummyRequest]) -> Arrays:
    runs = [r.run if isinstance(r.run, float) else float("nan") for r in requests]
    return {"run": np.array(runs), "factor": np.array([r.factor for r in requests])}


def _columns(run: Any, factor: Any) -> Arrays:
    known = np.isfinite(run)
    return {"total": np.where(known, run, 0.0) * factor, "known": known}


def _explain(request: DummyRequest, columns: Arrays, row: int, _includes: Includes) -> DummyAnswer:
    total = columns["total"].tolist()[row]
    verdict = _verdicts([request])[0]
    rule = Finding(
        rule="no-criterion-stated", verdict=Verdict.UNDETERMINED, statement="Nothing is asked."
    )
    return DummyAnswer(
        verdict=verdict,
        headline="not yet: nothing is asked.",
        summary="Nothing is asked.",
        conditions=[],
        findings=[rule],
        alternatives=[],
        assumptions=[],
        questions=[],
        cautions=[],
        sources=[],
        basis=Basis(code_edition=None, data_edition=data_edition()),
        reference=request.reference,
        total_ft=total,
        parts=[DummyPart(label="line", run_ft=total, rows=[])],
        largest=None,
    )


def _from_site(_site: Any, _candidate: Any, _answers: Mapping[str, Any]) -> FromSite:
    request = DummyRequest(shape=DummyRound(across=3.5), run=30.0)
    return FromSite(request=request, missing=(), pointers={})


def _verdicts(requests: Sequence[DummyRequest]) -> list[Verdict]:
    known = _columns(**_arguments(requests))["known"]
    return [Verdict.CONDITIONAL if is_known else Verdict.UNDETERMINED for is_known in known]


def _run(request: DummyRequest, includes: Includes) -> DummyAnswer:
    answer: DummyAnswer = run_check(_arguments, _columns, _explain)(request, includes)
    return answer


DUMMY = Check(
    id="dummy-check",
    title="Dummy check",
    description="A check that tests register.",
    tag="checks",
    request=DummyRequest,
    answer=DummyAnswer,
    run=_run,
    work=lambda _request: 0.1,
    arguments=_arguments,
    columns=_columns,
    explain=_explain,
    facts_read=("/run",),
    from_site=_from_site,
    verdicts=_verdicts,
    needs=lambda _site: [],
    figures=lambda _answer: [],
)

#: The dummy's request in the place of a site's, so that its facts are listed.
DUMMY_SITE = Operation(
    id="site-assessment",
    title="Dummy site",
    description="A site whose facts are those of the dummy check.",
    tag="assessment",
    request=DummyRequest,
    answer=DummyAnswer,
    run=_run,
    work=lambda _request: 0.1,
)
