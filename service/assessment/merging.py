"""One list out of many: assumptions, cautions and sources without repeats."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from service.assessment.asking import Answered
from service.assessment.open_facts import OpenFact
from service.assessment.pointers import mapped
from service.findings import Assumption, Caution, SourceRef


def merged_assumptions(
    facts: Sequence[OpenFact], answered: Sequence[Answered], dated: Iterable[Assumption]
) -> list[Assumption]:
    """Return what entered in place of absent fields, by pointer of the site request."""
    found: dict[str, Assumption] = {}
    for fact in facts:
        found[fact.pointer] = Assumption(
            pointer=fact.pointer,
            value=fact.value,
            range=fact.range,
            reason=f"{fact.reason} Standing: common practice, no source.",
        )
    for assumption in dated:
        found[assumption.pointer] = assumption
    for one in answered:
        for assumption in one.answer.assumptions if one.answer else ():
            pointer = mapped(assumption.pointer, one.made.pointers, one.candidate)
            if pointer is not None and pointer not in found:
                found[pointer] = Assumption(
                    pointer=pointer,
                    value=assumption.value,
                    range=assumption.range,
                    reason=assumption.reason,
                    source=assumption.source,
                )
    return list(found.values())


def without_repeats(items: Iterable[Any]) -> list[Any]:
    """Return items by their id, the first of each kept."""
    found: dict[str, Any] = {}
    for item in items:
        found.setdefault(item.id, item)
    return list(found.values())


def merged_cautions(answered: Sequence[Answered], own: Iterable[Caution]) -> list[Caution]:
    """Return the cautions of the site and of its checks without repeats."""
    found = [c for one in answered if one.answer for c in one.answer.cautions]
    return without_repeats([*own, *found])


def merged_sources(answered: Sequence[Answered], own: Iterable[SourceRef]) -> list[SourceRef]:
    """Return the sources of the site and of its checks without repeats."""
    return without_repeats(
        [*own, *(s for one in answered if one.answer for s in one.answer.sources)]
    )
