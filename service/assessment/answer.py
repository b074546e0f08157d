"""What the site assessment answers."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Struct

from service.findings import Alternative, Answer, Figure, Finding, Verdict
from service.quantities.fields import said


class CheckSummary(Struct, kw_only=True, forbid_unknown_fields=True):
    """One check's answer for one candidate, in short; the check's own path gives the whole."""

    check: Annotated[str, said("Id of the check.", example="outage-runtime")]
    verdict: Annotated[
        Verdict, said("Its verdict with the facts as assumed.", example="conditional")
    ]
    headline: Annotated[
        str, said("The check's own line.", example="sign, subject to: it is full at the start.")
    ]
    findings: Annotated[list[Finding], said("Its findings, worst first.", example=[])]
    alternatives: Annotated[list[Alternative], said("Other readings and choices.", example=[])]
    figures: Annotated[list[Figure], said("Its main numbers.", example=[])]


class CandidateAnswer(Struct, kw_only=True, forbid_unknown_fields=True):
    """How one candidate suits the site."""

    id: Annotated[str, said("The caller's own id.", example="two-units")]
    verdict: Annotated[
        Verdict,
        said(
            "The worst of its checks over every admissible value of the open facts.",
            example="conditional",
        ),
    ]
    because: Annotated[
        list[str],
        said(
            "Which values of open facts take the verdict below that of its checks.",
            example=["undetermined if the medical equipment is oxygen"],
        ),
    ]
    conditions: Annotated[
        list[str],
        said("What must be so for it to hold.", example=["it is full when the outage starts"]),
    ]
    checks: Annotated[list[CheckSummary], said("Its checks.", example=[])]


class Round(Struct, kw_only=True, forbid_unknown_fields=True):
    """Questions that are asked in one go."""

    round: Annotated[
        Literal["telephone", "photos", "records", "visit"],
        said("How they are asked.", example="telephone"),
    ]
    pointers: Annotated[
        list[str],
        said("Fields to fill, the deciding ones first.", example=["/home/well_pump"]),
    ]


class SiteAssessmentAnswer(Answer, kw_only=True, forbid_unknown_fields=True):
    """The whole job for one lead: what suits the home, and which question to ask next."""

    needs: Annotated[list[Figure], said("What the site asks of any candidate.", example=[])]
    candidates: Annotated[
        list[CandidateAnswer], said("The candidates, in the order of the request.", example=[])
    ]
    rounds: Annotated[list[Round], said("The questions by the way they are asked.", example=[])]
