"""Place and date: under which code edition the rules are read."""

from __future__ import annotations

from service.assessment.request import SiteAssessmentRequest
from service.codes import default_permit_date, editions
from service.findings import Assumption, Basis, Finding, Verdict
from service.published import data_edition


def dated(request: SiteAssessmentRequest) -> tuple[list[Finding], Basis, list[Assumption]]:
    """Return findings, basis and assumptions on place and permit date."""
    day = request.permit_date or default_permit_date().isoformat()
    place = request.place
    found = editions(place.state, day, place.county or "", place.city or "")
    assumed = []
    if request.permit_date is None:
        assumed.append(
            Assumption(
                pointer="/permit_date",
                value=day,
                reason="The release's stated default date; no rule applied here depends on it.",
            )
        )
    if found.known:
        return [], Basis(code_edition=found.current, data_edition=data_edition()), assumed
    unknown = Finding(
        rule="code-edition-unknown",
        verdict=Verdict.UNDETERMINED,
        statement="The code edition in force at this place and date is unknown to this release; no "
        "rule applied here depends on it.",
    )
    return [unknown], Basis(code_edition=None, data_edition=data_edition()), assumed
