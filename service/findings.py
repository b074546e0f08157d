"""The words of every answer: one vocabulary, the same in every check.

A verdict is, worst first, ``fail``, ``undetermined``, ``conditional`` or ``pass``. An unknown
input never yields ``pass``. A candidate has the worst verdict of its checks, a site the best of
its candidates.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from enum import StrEnum
from typing import Annotated

from msgspec import UNSET, Struct, UnsetType

from service.published import Source
from service.quantities.fields import out, said


class Verdict(StrEnum):
    """How an answer stands, worst first."""

    FAIL = "fail"
    UNDETERMINED = "undetermined"
    CONDITIONAL = "conditional"
    PASS = "pass"  # noqa: S105 - a verdict, not a password


_ORDER = {verdict: rank for rank, verdict in enumerate(Verdict)}


def worst(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the worst verdict, `undetermined` where there is none."""
    return min(verdicts, key=_ORDER.__getitem__, default=Verdict.UNDETERMINED)


def best(verdicts: Iterable[Verdict]) -> Verdict:
    """Return the best verdict, `undetermined` where there is none."""
    return max(verdicts, key=_ORDER.__getitem__, default=Verdict.UNDETERMINED)


def at_best(verdict: Verdict, cap: Verdict) -> Verdict:
    """Return `verdict`, no better than `cap`."""
    return worst((verdict, cap))


def rank(verdict: Verdict) -> int:
    """Return 0 for the worst verdict, 3 for the best."""
    return _ORDER[verdict]


class AskBy(StrEnum):
    """The way a fact can be had, cheapest first."""

    TELEPHONE = "telephone"
    PHOTO = "photo"
    RECORD = "record"
    RECORDING = "recording"
    VISIT = "visit"


class Finding(Struct, kw_only=True, forbid_unknown_fields=True):
    """One rule applied: what was found, against which limit, on whose word."""

    rule: Annotated[
        str, said("Id of the rule, listed by /v1/reference/ids.", example="target-held")
    ]
    verdict: Annotated[Verdict, said("How this rule stands.", example="conditional")]
    statement: Annotated[
        str,
        said("The finding in one sentence.", example="Critical loads are held 14.2 h of 24 h."),
    ]
    actual: Annotated[
        float | None,
        out("in `unit`", "The number found; null where there is none.", example=14.2, decimals=4),
    ] = None
    limit: Annotated[
        float | None,
        out("in `unit`", "The number it is held against; null: none.", example=24.0, decimals=4),
    ] = None
    unit: Annotated[
        str | None, said("Unit of `actual` and `limit`; null where there is none.", example="h")
    ] = None
    sources: Annotated[
        list[str],
        said("Ids of the sources behind it.", example=["outage_defaults/reserve_percent/value"]),
    ] = []


class Alternative(Struct, kw_only=True, forbid_unknown_fields=True):
    """The answer under another admissible reading or another choice."""

    id: Annotated[str, said("Id of the reading or choice.", example="one-more-unit")]
    reading: Annotated[
        str, said("What is read or chosen differently.", example="With one more unit of this kind.")
    ]
    verdict: Annotated[Verdict, said("The verdict under it.", example="pass")]
    flips_verdict: Annotated[
        bool, said("Whether the verdict differs from the answer's.", example=True)
    ]
    statement: Annotated[
        str, said("What changes, in one sentence.", example="Critical loads are held 29.9 h.")
    ]


class Assumption(Struct, kw_only=True, forbid_unknown_fields=True):
    """A value that entered because the request did not state it."""

    pointer: Annotated[
        str, said("JSON Pointer of the absent field.", example="/battery/reserve_percent")
    ]
    value: Annotated[
        int | float | str | bool,
        out("as the field", "The value used.", example=20.0, decimals=6),
    ]
    range: Annotated[
        list[float | str | bool] | None,
        out(
            "as the field",
            "Low and high end, or the choices, a pass had to hold over; null: none.",
            example=[0.0, 100.0],
            decimals=6,
        ),
    ] = None
    reason: Annotated[
        str, said("Why this value.", example="common practice, no source: usual reserve setting")
    ]
    source: Annotated[
        str | None,
        said("Id of its source; null: none.", example="outage_defaults/reserve_percent/value"),
    ] = None


class Question(Struct, kw_only=True, forbid_unknown_fields=True):
    """A fact to ask next."""

    pointer: Annotated[
        str, said("JSON Pointer of the field to fill.", example="/battery/reserve_percent")
    ]
    label: Annotated[str, said("The fact in a few words.", example="the charge kept for outages")]
    question: Annotated[
        str,
        said(
            "The question in plain words.",
            example="At which charge is the battery kept for outages?",
        ),
    ]
    ask_by: Annotated[AskBy, said("How the answer can be had.", example="telephone")]
    can_change_verdict: Annotated[
        bool,
        said("Whether a value of the fact's range changes the verdict, by rerun.", example=True),
    ]
    range: Annotated[
        list[float | str | bool] | None,
        out(
            "as the field",
            "Values tried in the reruns; null: the field was not tried.",
            example=[0.0, 100.0],
            decimals=6,
        ),
    ] = None
    why: Annotated[
        str, said("What hangs on it.", example="Between 0 and 100 % the runtime is 0 to 14.2 h.")
    ]


class Caution(Struct, kw_only=True, forbid_unknown_fields=True):
    """A sentence of safety or scope that fits this answer."""

    id: Annotated[str, said("Id of the caution.", example="medical-equipment")]
    text: Annotated[
        str,
        said("The sentence.", example="Never rely on a battery alone for medical equipment."),
    ]


class SourceRef(Struct, kw_only=True, forbid_unknown_fields=True):
    """Where a number comes from, and how it stands."""

    id: Annotated[
        str, said("Id used in findings.", example="outage_defaults/reserve_percent/value")
    ]
    title: Annotated[str, said("Title of the work.", example="Outage runtime defaults")]
    edition: Annotated[str, said("Edition or date.", example="2026")]
    place: Annotated[
        str,
        said("Section, table, row, column.", example="row reserve_percent, column value"),
    ]
    standing: Annotated[
        str,
        said(
            "published, secondary, common_practice, derived, from_memory or caller.",
            example="common_practice",
        ),
    ]


class Basis(Struct, kw_only=True, forbid_unknown_fields=True):
    """Which editions the answer stands on."""

    code_edition: Annotated[
        str | None,
        said(
            "Code edition the rules were read in; null where no code rule entered.",
            example="ca-2025",
        ),
    ]
    data_edition: Annotated[
        str,
        said(
            "Digest of the published, codes and climate data files.",
            example="0123456789abcdef",
        ),
    ]


class WorkingLine(Struct, kw_only=True, forbid_unknown_fields=True):
    """One line of the calculation, for a plan checker."""

    quantity: Annotated[str, said("What is worked out.", example="Usable energy, new")]
    expression: Annotated[str, said("How.", example="2 x 12 kWh x 1.00")]
    value: Annotated[float, out("in `unit`", "The number.", example=24.0, decimals=6)]
    unit: Annotated[str, said("Its unit.", example="kWh")]
    source: Annotated[
        str | None,
        said("Id of the source of what entered; null: the request.", example=None),
    ] = None


class Series(Struct, kw_only=True, forbid_unknown_fields=True):
    """One line of a drawing: a quantity against time or another quantity."""

    id: Annotated[str, said("Id of the line.", example="stored-energy/typical/new/reserve")]
    label: Annotated[str, said("What it shows.", example="Stored energy, typical use, new")]
    x_unit: Annotated[str, said("Unit of `x`.", example="h")]
    y_unit: Annotated[str, said("Unit of `y`.", example="kWh")]
    x: Annotated[list[float], out("in `x_unit`", "Abscissae.", example=[0.0, 1.0], decimals=4)]
    y: Annotated[list[float], out("in `y_unit`", "Ordinates.", example=[12.0, 11.1], decimals=4)]


class Figure(Struct, kw_only=True, forbid_unknown_fields=True):
    """One number that another answer or a screen shows."""

    id: Annotated[str, said("Id of the figure.", example="hours-typical")]
    label: Annotated[str, said("What it is.", example="Hours at typical use, now")]
    value: Annotated[float, out("in `unit`", "The number.", example=14.2, decimals=3)]
    unit: Annotated[str, said("Its unit.", example="h")]
    at_least: Annotated[
        bool, said("Whether it is a floor: the simulation ended before.", example=False)
    ] = False


#: Stands in every answer that works something out.
ESTIMATE_NOT_DESIGN = Caution(
    id="estimate-not-design",
    text=(
        "This is an estimate for planning, not a design or an approval: the authority having "
        "jurisdiction, the utility, the equipment's listing and instructions and a licensed "
        "electrician decide."
    ),
)


class Answer(Struct, kw_only=True, forbid_unknown_fields=True):
    """What every answer carries, whichever operation gives it."""

    verdict: Annotated[Verdict, said("How the whole answer stands.", example="conditional")]
    headline: Annotated[
        str,
        said(
            "The estimator's line.",
            example="sign, subject to: the reserve is kept at 60 % or more.",
        ),
    ]
    summary: Annotated[
        str,
        said(
            "The homeowner's sentence: the range and the open condition.",
            example="The chosen circuits are expected to run 12 to 19 hours.",
        ),
    ]
    conditions: Annotated[
        list[str],
        said(
            "What must be so for it to hold; empty: nothing, or no verdict that hangs on it.",
            example=["it is full when the outage starts"],
        ),
    ]
    findings: Annotated[list[Finding], said("Rules applied, worst first.", example=[])]
    alternatives: Annotated[list[Alternative], said("Other readings and choices.", example=[])]
    assumptions: Annotated[list[Assumption], said("Every default that entered.", example=[])]
    questions: Annotated[list[Question], said("What to ask next, deciding first.", example=[])]
    cautions: Annotated[list[Caution], said("Safety and scope.", example=[])]
    sources: Annotated[list[SourceRef], said("Sources cited above.", example=[])]
    basis: Annotated[Basis, said("Editions the answer stands on.", example=None)]
    reference: Annotated[
        str | None,
        said("What the request sent as its own reference; null: nothing.", example="lead-0042"),
    ] = None
    working: Annotated[
        list[WorkingLine] | UnsetType,
        said("The calculation line by line; with ?include=working.", example=[]),
    ] = UNSET
    series: Annotated[
        list[Series] | UnsetType,
        said("Time series of the drawings; with ?include=series.", example=[]),
    ] = UNSET


_WORDS = {Verdict.FAIL: "no", Verdict.UNDETERMINED: "not yet", Verdict.PASS: "sign"}
#: Facts that a headline names at most.
_FACTS_NAMED = 3


def headline(
    verdict: Verdict, conditions: Sequence[str], body: str, questions: Iterable[Question]
) -> str:
    """Return the estimator's line: verdict, conditions, the numbers, what to ask."""
    word = _WORDS.get(verdict, "sign, subject to: " + "; ".join(conditions))
    line = f"{word}. {body}"
    asked = list(questions)
    deciding = [q for q in asked if q.can_change_verdict]
    if deciding:
        line += f" Could overturn it: {_named(deciding)}."
    elif asked and verdict is Verdict.UNDETERMINED:
        # No answer settles it alone: say where to begin.
        line += f" Ask first: {_named(asked)}."
    return line


def _named(questions: Sequence[Question]) -> str:
    return "; ".join(f"{q.label} ({q.ask_by})" for q in questions[:_FACTS_NAMED])


def worst_first(findings: Iterable[Finding]) -> list[Finding]:
    """Return the findings ordered by verdict, the worst first, otherwise as given."""
    return sorted(findings, key=lambda finding: rank(finding.verdict))


def source_refs(sources: Iterable[Source]) -> list[SourceRef]:
    """Return the sources without repeats, in the order first cited."""
    unique = {source.id: source for source in sources}
    return [
        SourceRef(
            id=s.id, title=s.title, edition=s.edition, place=s.place, standing=str(s.standing)
        )
        for s in unique.values()
    ]
