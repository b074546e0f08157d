"""Rules between what is on one wall, what lies before it and the wall itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from service.facts.siting_length import AnySpan, LengthSource, MeasuredLength
from service.facts.siting_measured import (
    INCH,
    Reach,
    exceeds,
    longest,
    measured,
    meeting,
    number_at,
    reach,
)
from service.facts.siting_mounted import Mounted, between_refusals, mounted
from service.facts.siting_objects import CornerOpening, Opening, WallEquipment, WallObject
from service.facts.siting_place import PlacedUnit, WayPart
from service.facts.siting_spans import span_refusals

Refusals = list[tuple[str, str]]


class WallSeen(NamedTuple):
    """One wall, whatever its place is.

    Attributes
    ----------
    at : str
        Pointer of what holds the lists.
    length, height : lengths
    open_ends : tuple of str
        Ends of which it is stated that nothing meets them.
    objects, way, placed : sequences
    by : str
        How its lengths were had that say nothing themselves.
    """

    at: str
    length: AnySpan
    height: AnySpan | None
    open_ends: tuple[str, ...]
    objects: Sequence[WallObject]
    way: Sequence[WayPart]
    placed: Sequence[PlacedUnit]
    by: LengthSource


def seen_wall_refusals(wall: WallSeen, widths: Mapping[str, float]) -> Refusals:
    """Return (pointer, detail) of every rule of one wall that is broken.

    Parameters
    ----------
    wall : WallSeen
    widths : mapping of str to float
        Id of a kind of unit -> its width [in].
    """
    found: Refusals = []
    on_wall = []
    for index, thing in enumerate(wall.objects):
        at = f"{wall.at}/objects/{index}"
        found += span_refusals(thing, at)
        if isinstance(thing, CornerOpening) and thing.end in wall.open_ends:
            words = "Nothing meets the wall at this end: correct it, or what the end meets."
            found.append((f"{at}/end", words))
        if isinstance(thing, Opening | WallEquipment):
            on_wall.append(mounted(thing, at, wall.by))
            found += _of_the_mounted(on_wall[-1], wall)
    found += between_refusals(on_wall, wall.by)
    return found + _of_the_way(wall) + _of_the_placed(wall, widths)


def beyond(
    along: Reach, wall: WallSeen, start: tuple[float | MeasuredLength, str], end: str
) -> Refusals:
    """Return what reaches beyond the wall by more than the errors allow.

    Parameters
    ----------
    along : Reach
    wall : WallSeen
    start : tuple of (length, pointer)
        Its left edge.
    end : str
        Pointer of its width.
    """
    limit = longest(wall.length, wall.by)
    left, at = start
    starts_beyond = along.low - (along.inner_low - along.low) > limit
    if along.begins_before(0.0) or starts_beyond:
        words = "It begins beyond the wall: send its left edge from the wall's left end, 0 or more."
        return [(number_at(left, at), words)]
    if along.ends_beyond(limit):
        return [(end, "It reaches beyond the wall's right end: correct it or the wall's length.")]
    return []


def _of_the_mounted(one: Mounted, wall: WallSeen) -> Refusals:
    thing, at = one.thing, one.at
    width = number_at(thing.width, f"{at}/width")
    found = beyond(one.along, wall, (thing.left, f"{at}/left"), width)
    if wall.height is not None:
        top = longest(wall.height, wall.by)
        if thing.height is not None and one.up.ends_beyond(top):
            words = "Its upper edge stands above the wall: correct its edges or the wall's height."
            found.append((number_at(thing.height, f"{at}/height"), words))
        elif (
            thing.bottom is not None
            and thing.height is None
            and exceeds(thing.bottom, wall.height, wall.by)
        ):
            words = "Its lower edge stands above the wall: correct it or the wall's height."
            found.append((number_at(thing.bottom, f"{at}/bottom"), words))
    if isinstance(thing, Opening) and thing.escape and thing.operable is False:
        words = "What does not open is no escape opening: correct escape or operable."
        found.append((f"{at}/escape", words))
    return found


def _of_the_way(wall: WallSeen) -> Refusals:
    found: Refusals = []
    reaches = [reach(part.left, part.length, wall.by) for part in wall.way]
    second = {later for _, later in meeting(reaches)}
    for index, part in enumerate(wall.way):
        at = f"{wall.at}/way/{index}"
        found += span_refusals(part, at)
        length = number_at(part.length, f"{at}/length")
        found += beyond(reaches[index], wall, (part.left, f"{at}/left"), length)
        if index in second:
            words = "It overlaps another part of the way: let each begin where the last one ends."
            found.append((number_at(part.left, f"{at}/left"), words))
    return found


def _of_the_placed(wall: WallSeen, widths: Mapping[str, float]) -> Refusals:
    found: Refusals = []
    for index, placed in enumerate(wall.placed):
        at = f"{wall.at}/placed/{index}"
        if placed.unit not in widths:
            found.append((f"{at}/unit", "Send the id of one of the units."))
            continue
        low, off = measured(placed.left, wall.by)
        high = low + widths[placed.unit] * INCH
        left = number_at(placed.left, f"{at}/left")
        found += beyond(
            Reach(low, high, low + off, high - off), wall, (placed.left, f"{at}/left"), left
        )
    return found
