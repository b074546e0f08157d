"""Which lengths a tape must confirm: those whose error alone takes the room."""

from __future__ import annotations

from typing import Any

from service.checks.clearance.asked import Asked
from service.checks.clearance.fit import Fit, lens_of
from service.checks.clearance.judged import Judged
from service.checks.clearance.positions_of import name_of
from service.checks.clearance.request import ClearanceRequest, as_tree
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.scenes import scene_of
from service.checks.clearance.solve import fits
from service.checks.clearance.spots import Spot
from service.findings import AskBy, Verdict

#: Fields of an object that are lengths, and what is measured of it.
_LENGTHS = ("left", "width", "bottom", "height", "depth", "out", "clear", "clear_right", "length")
#: Lengths named at most.
_NAMED = 6


def tape_questions(request: ClearanceRequest, rules: RuleNumbers, chosen: Judged) -> list[Asked]:
    """Return the lengths to measure: their errors decide, or nobody said how they were had."""
    spot, fit = chosen.spot, chosen.fit
    found = []
    if spot.measured_by is None:
        found.append(
            Asked(
                f"{spot.place_at}/measured_by",
                "how the lengths were had",
                "Were the lengths taken with a tape, or how else?",
                AskBy.TELEPHONE,
                ("tape", "photo"),
                "A margin smaller than the error of a length is none.",
                moves=True,
            )
        )
    open_margin = fit.lengths_decide or fit.verdict is Verdict.UNDETERMINED
    if not open_margin:
        return found
    parts = _parts(spot)
    deciding = [one for one in parts if _decides(request, rules, spot, fit, one[0])]
    for pointer, named, thing in (deciding or parts)[:_NAMED]:
        found.append(
            Asked(
                pointer,
                f"the place and size of {named}",
                f"Which are the place and size of {named}, measured with a tape?",
                AskBy.VISIT,
                (_taped(thing),) if thing is not None else (),
                "The margin there is smaller than the error of the lengths."
                if deciding
                else "The errors of these lengths together are larger than the margin.",
                moves=True,
            )
        )
    return found


def _parts(spot: Spot) -> list[tuple[str, str, Any]]:
    """Return the parts of a place whose lengths may be off: pointer, name, value."""
    found: list[tuple[str, str, Any]] = [
        (f"{spot.pointer}/objects/{at}", name_of(thing), thing)
        for at, thing in enumerate(spot.objects)
    ]
    found += [
        (f"{spot.pointer}/way/{at}", f"part {at + 1} of the way before the wall", part)
        for at, part in enumerate(spot.way)
    ]
    found.append((spot.length_at, "the wall", spot.length))
    if spot.eave is not None and spot.kind == "wall":
        found.append((f"{spot.place_at}/eave", "the eave", spot.eave))
    return found


def _decides(
    request: ClearanceRequest, rules: RuleNumbers, spot: Spot, fit: Fit, pointer: str
) -> bool:
    """Return whether the errors of one part alone change whether all units stand."""
    stand = fit.solved.arrangement.complete
    lens = lens_of(spot)._replace(lengths=1 if stand else -1, only=pointer)
    return fits(scene_of(spot, request.units, rules, lens), fit.counts) is not stand


def _taped(thing: Any) -> Any:
    """Return a part with every length as measured with a tape."""
    tree = as_tree(thing)
    if not isinstance(tree, dict) or "value" in tree:
        return _by_tape(tree)
    return {
        name: _by_tape(value) if name in _LENGTHS and value is not None else value
        for name, value in tree.items()
    }


def _by_tape(value: Any) -> Any:
    inches = value["value"] if isinstance(value, dict) else value
    return {"value": inches, "by": "tape"}
