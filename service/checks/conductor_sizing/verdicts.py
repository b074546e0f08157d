"""Verdicts alone, many at once: for reruns of questions and of an assessment."""

from __future__ import annotations

from collections.abc import Sequence

from service.checks.conductor_sizing.arguments import arguments, edition_of
from service.checks.conductor_sizing.columns import columns
from service.checks.conductor_sizing.material_rows import Made, material_rows
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.sized import sized
from service.findings import Verdict, best


def made_of(requests: Sequence[ConductorSizingRequest]) -> list[list[Made]]:
    """Return both materials of each request."""
    if not requests:
        return []
    solved = columns(**arguments(requests))["solved"]
    return [
        material_rows(request, sized(request, row, edition_of(request)[0]))
        for request, row in zip(requests, solved, strict=True)
    ]


def verdict_of(made: list[Made]) -> Verdict:
    """Return the verdict of a circuit: that of the material that stands better."""
    return best(one.row.verdict for one in made)


def verdicts(requests: Sequence[ConductorSizingRequest]) -> list[Verdict]:
    """Return the verdict of each request, the same as that of its whole answer."""
    return [verdict_of(made) for made in made_of(requests)]
