"""Whether raceways and cables may lie where they do, deep enough and not too hot."""

from __future__ import annotations

import numpy as np

from service.checks.conductor_sizing.arguments import ambient_of, edition_of
from service.checks.conductor_sizing.burial import (
    DEEP_ENOUGH,
    DEPTH_UNKNOWN,
    DIRECT_BURIAL,
    METAL_CONDUIT,
    NONMETALLIC_CONDUIT,
    burial,
)
from service.checks.conductor_sizing.parts import Part, needs_a_look
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.tables import ZERO_CELSIUS
from service.findings import Finding, Verdict
from service.published.burial_cover import BurialLocation, burial_locations
from service.published.cable_types import Allowed, cable_types
from service.published.raceway_places import raceway_places
from service.published.raceways import raceways
from service.published.run_places import run_places
from service.published.table_arrays import INCH

Row = tuple[Finding, str | None]

#: A temperature above the limit by less is the limit [K]. Standing: derived, our choice.
_SAME_TEMPERATURE = 1e-6


def earth(parts: list[Part]) -> list[Row]:
    """Return whether every buried part may lie where it does, and deep enough.

    A part whose kind may not be buried at all is told of by `places`, or by the conditions of use.
    """
    return [
        row
        for part in parts
        if part.buried and may_lie(part) is not Allowed.NO
        for row in _cover(part, burial_locations()[part.under])
    ]


def _cover(part: Part, location: BurialLocation) -> list[Row]:
    what = label(part.way)
    where = "in the ground" if part.under == "other" else location.label
    cable = part.way not in raceways()
    if cable and location.cables and part.way not in location.cables:
        words = f"{_first(what)} lies {where} in a raceway alone."
        return [(Finding(rule="burial-cover", verdict=Verdict.FAIL, statement=words), None)]
    table = np.array([[location.direct_burial, location.rigid_metal, location.nonmetallic]])
    known = np.array([part.cover is not None])
    result = burial(np.array([0]), np.array([_column(part.way)]), table, part.cover or 0.0, known)
    code, cover = int(result.code[0]), float(result.cover[0]) / INCH
    words = f"{_first(what)} {where} needs {cover:.0f} in of cover"
    condition = None
    if code == DEEP_ENOUGH:
        verdict, words = Verdict.PASS, f"{words}, and has it."
    elif code == DEPTH_UNKNOWN:
        verdict, words = Verdict.CONDITIONAL, f"{words}; how deep it lies is not stated."
        condition = f"{what} has {cover:.0f} in of cover"
    else:
        verdict, words = Verdict.FAIL, f"{words}, and has {(part.cover or 0) / INCH:.0f}."
    return [(Finding(rule="burial-cover", verdict=verdict, statement=words), condition)]


def _column(way: str) -> int:
    """Return the column of the table of cover.

    A raceway of no column of its own that is listed for burial is read as a nonmetallic one: the
    column holds other approved raceways too, from memory, not verified.
    """
    kinds = raceways()
    if way not in kinds:
        return DIRECT_BURIAL
    return METAL_CONDUIT if kinds[way].cover == "rigid_metal" else NONMETALLIC_CONDUIT


def places(request: ConductorSizingRequest, parts: list[Part]) -> list[Row]:
    """Return on what it hangs that cables and raceways lie where they do.

    Cables that may not lie there have no column, which the conditions of use tell.
    """
    edition, _ = edition_of(request)
    hung = dict.fromkeys(
        row
        for part in parts
        for row in (_hot(part, ambient_of(request, part, edition) - ZERO_CELSIUS), _lies(part))
        if row is not None
    )
    return [
        (Finding(rule=rule, verdict=verdict, statement=words), condition)
        for rule, verdict, words, condition in hung
    ]


_Told = tuple[str, Verdict, str, str | None]


def _lies(part: Part) -> _Told | None:
    allowed, what = may_lie(part), label(part.way)
    if part.way not in raceways():
        words = needs_a_look(part)
        if words is None:
            return None
        told = f"{_first(what)} may lie there on conditions: {words}"
        return "cable-place", Verdict.CONDITIONAL, told, f"{what} is of a kind that may lie there"
    where = run_places()[part.place].label
    if allowed is Allowed.NO:
        told = f"{_first(what)} may not lie {where}: another raceway."
        return "raceway-place", Verdict.FAIL, told, None
    if allowed is Allowed.CONDITIONAL:
        told = (
            f"{_first(what)} may lie {where} on conditions: {raceway_places()[part.way].condition}"
        )
        condition = f"{what} is of a kind that may lie {where}"
        return "raceway-place", Verdict.CONDITIONAL, told, condition
    return None


def _hot(part: Part, ambient: float) -> _Told | None:
    if part.way not in raceways():
        return None
    hottest = raceway_places()[part.way].hottest
    if hottest is None or ambient <= hottest + _SAME_TEMPERATURE:
        return None
    what, where = label(part.way), run_places()[part.place].label
    told = (
        f"It is {ambient:.0f} degC around {what} {where}: above {hottest:.0f} degC it has to be "
        "listed for that."
    )
    condition = f"{what} {where} is listed for {ambient:.0f} degC"
    return "raceway-place", Verdict.CONDITIONAL, told, condition


def may_lie(part: Part) -> Allowed:
    """Return whether the cable or raceway of a part may lie there.

    Source: tables cable_types and raceway_places.
    """
    if part.way in raceways():
        kind = raceway_places()[part.way]
        return kind.buried if part.buried else kind.outdoors if part.wet else Allowed.YES
    cable = cable_types()[part.way]
    return cable.buried if part.buried else cable.outdoors if part.wet else cable.indoors


def label(way: str) -> str:
    """Return a raceway or cable in words."""
    kinds = raceways()
    return kinds[way].label if way in kinds else cable_types()[way].label


def _first(what: str) -> str:
    """Return words to begin a sentence with."""
    return what[:1].upper() + what[1:]
