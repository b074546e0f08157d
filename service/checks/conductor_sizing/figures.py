"""Numbers for others: how far the sizes reach, which is what the distance costs."""

from __future__ import annotations

from service.checks.conductor_sizing.answer import ConductorSizingAnswer
from service.checks.conductor_sizing.size_rules import said
from service.facts import Site
from service.findings import Figure

#: Break points shown: that of the size answered and the next ones.
_SHOWN = 3


def needs(_site: Site) -> list[Figure]:
    """Return nothing: the wire hangs on the candidate."""
    return []


def figures(answer: ConductorSizingAnswer) -> list[Figure]:
    """Return the break points of copper from the size answered on."""
    copper = answer.materials[0]
    names = [row.size for row in copper.reach]
    first = names.index(copper.phase) if copper.phase in names else 0
    return [
        Figure(
            id=f"copper-reach-{place + 1}",
            label=f"{said(row.size)} copper as far as, one way",
            value=row.up_to_ft,
            unit="ft",
        )
        for place, row in enumerate(copper.reach[first : first + _SHOWN])
    ]
