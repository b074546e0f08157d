"""The answer under other admissible readings: the next size up, the other edition."""

from __future__ import annotations

from service.checks.conductor_sizing.arguments import other_edition, size_name
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.size_rules import said
from service.checks.conductor_sizing.sized import Sized
from service.checks.conductor_sizing.verdicts import made_of, verdict_of
from service.facts import filled
from service.findings import Alternative, Verdict

_EDITIONS = {"nec-2020": "the NEC of 2020", "nec-2023": "the NEC of 2023"}


def alternatives(
    request: ConductorSizingRequest, both: list[Sized], verdict: Verdict
) -> list[Alternative]:
    """Return what the other readings come to."""
    edition = other_edition(request)
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
    if edition is not None:
        tried.append(
            (
                "other-edition",
                f"The place reads {_EDITIONS[edition]}.",
                filled(request, "/edition", edition),
            )
        )
    found = []
    for (name, reading, _), made in zip(tried, made_of([one for *_, one in tried]), strict=True):
        then = verdict_of(made)
        same = all(
            (one.row.phase, one.row.ground) == (size_name(now.size), size_name(now.ground))
            for one, now in zip(made, both, strict=True)
        )
        if name == "other-edition" and same and then is verdict:
            # Both editions come to the same: nothing to choose.
            continue
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
    return found + _ungrown(request, both, verdict)


def _ungrown(
    request: ConductorSizingRequest, both: list[Sized], verdict: Verdict
) -> list[Alternative]:
    """Return the ground of a solar source circuit by the reading that it need not grow.

    Source: NEC 690.45, read differently by authorities: from memory, not verified.
    """
    if request.circuit.kind != "pv_source":
        return []
    small = [size_name(int(one.found.ground.table_size[one.lane])) for one in both if one.size >= 0]
    if not small:
        return []
    return [
        Alternative(
            id="ground-not-grown",
            reading="The ground of a solar source circuit need not grow with the distance.",
            verdict=verdict,
            flips_verdict=False,
            statement=f"The ground is then {' and '.join(said(one) for one in small)} copper.",
        )
    ]
