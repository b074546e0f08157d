"""The answer under other admissible readings: the next size up, the other edition."""

from __future__ import annotations

from service.checks.conductor_sizing.arguments import edition_of
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.size_rules import said
from service.checks.conductor_sizing.verdicts import made_of, verdict_of
from service.facts import filled
from service.findings import Alternative, Verdict

_OTHER = {"nec-2020": "nec-2023", "nec-2023": "nec-2020"}


def alternatives(request: ConductorSizingRequest, verdict: Verdict) -> list[Alternative]:
    """Return what the other readings come to."""
    edition, known = edition_of(request)
    tried: list[tuple[str, str, ConductorSizingRequest]] = []
    if request.circuit.kind == "storage_output":
        tried.append(
            (
                "next-size-up",
                "The next standard breaker above the ampacity may be used on the output of storage "
                "too.",
                filled(request, "/circuit/kind", "inverter_output"),
            )
        )
    if not known:
        tried.append(
            (
                "other-edition",
                f"The place reads {_OTHER[edition]}.",
                filled(request, "/edition", _OTHER[edition]),
            )
        )
    found = []
    for (name, reading, _), made in zip(tried, made_of([one for *_, one in tried]), strict=True):
        then = verdict_of(made)
        sizes = ", ".join(
            f"{one.row.material} {said(one.row.phase)} with ground {said(one.row.ground)}"
            for one in made
        )
        found.append(
            Alternative(
                id=name,
                reading=reading,
                verdict=then,
                flips_verdict=then is not verdict,
                statement=f"It comes to {sizes}.",
            )
        )
    return found
