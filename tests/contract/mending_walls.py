"""Walls, garages, rooms and units inside the contract, mended where their parts contradict.

Lengths keep how they were had; only a number that cannot stay is put anew.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from typing import Any

from service.quantities.units import from_text

Json = Mapping[str, Any]
Body = dict[str, Any]

#: Fields of lengths that nothing has without being longer than 0.
_ABOVE_0 = ("length", "width", "depth", "height", "eave", "narrowest", "vehicle_length")
#: Below it a length is taken for none [in].
_LEAST = 1e-6


def number_of(length: Any) -> float:
    """Return the inches of a length, whatever form it has."""
    if isinstance(length, dict):
        return number_of(length["value"])
    return from_text(length, "in") if isinstance(length, str) else float(length)


def _put(part: Body, name: str, inches: float) -> None:
    """Give a length another number where it has not that one."""
    length = part.get(name)
    if isinstance(length, dict):
        if number_of(length) != inches:
            part[name] = {**length, "value": inches}
    elif length is None or number_of(length) != inches:
        part[name] = inches


def _at_most(part: Body, name: str, most: float) -> None:
    if part.get(name) is not None and number_of(part[name]) > most:
        _put(part, name, most)


def lengths_are_some(fields: Json, part: Body) -> None:
    """Turn lengths round that are below 0 and cannot be, and lengthen those that are 0."""
    for name, length in part.items():
        forms = fields.get(name, {}).get("oneOf", [{}])
        if length is None or not any("MeasuredLength" in form.get("$ref", "") for form in forms):
            continue
        if forms[0].get("minimum") == 0 or name == "eave":
            _put(part, name, abs(number_of(length)))
        if name in _ABOVE_0 and abs(number_of(part[name])) < _LEAST:
            _put(part, name, 1.0)


def units_agree(fields: Json, unit: Body) -> None:
    """Put the handle on the box, and leave out a conduit's room at no side."""
    if not {"handle", "conduit_entry", "heaviest_piece"} <= set(fields):
        return
    for name, limit, of in (("handle", "height", "in"), ("heaviest_piece", "mass", "lb")):
        most = unit.get(limit)
        if unit.get(name) is not None and most is not None:
            inner = (from_text(v, of) if isinstance(v, str) else v for v in (unit[name], most))
            unit[name] = min(inner)
    if unit.get("conduit_entry") is None:
        unit.pop("conduit_room", None)


def _in_a_row(parts: Sequence[Body], name: str, length: float) -> None:
    """Put parts side by side on a wall, unless they are; `name` is the field of their width."""
    end = 0.0
    for left, right in sorted(_ends(part, name) for part in parts):
        if left < end:
            break
        end = right
    else:
        if end <= length:
            return
    room = length / max(len(parts), 1)
    for index, part in enumerate(parts):
        _put(part, "left", room * index)
        _at_most(part, name, room)


def _ends(part: Body, name: str) -> tuple[float, float]:
    left = number_of(part["left"])
    return left, left + number_of(part[name])


def _wall_agrees(wall: Body, length: float, height: Any) -> None:
    """Put what is on a wall in a row, below its top."""
    objects = wall.get("objects") or []
    mounted = [one for one in objects if one["kind"] in ("opening", "equipment")]
    _in_a_row(mounted, "width", length)
    for one in mounted:
        if one.get("swing") == "out" and one.get("hinge") is not None:
            one["opens_degrees"] = 90
        if one.get("operable") is False:
            one.pop("escape", None)
        if height is not None:
            _below(one, number_of(height))
    for one in objects:
        if one["kind"] == "corner_opening" and wall.get(f"{one['end']}_end") == "open":
            wall[f"{one['end']}_end"] = "wall"


def _below(one: Body, top: float) -> None:
    bottom = 0.0 if one.get("bottom") is None else number_of(one["bottom"])
    if bottom >= top:
        bottom = 0.0
        _put(one, "bottom", bottom)
    _at_most(one, "height", top - bottom)


def _route_agrees(place: Body) -> None:
    route = place.get("to_panel")
    if isinstance(route, dict) and route.get("trench") is not None:
        ends = (route["trench"], route["beyond"])
        route["trench"] = min(from_text(v, "ft") if isinstance(v, str) else v for v in ends)


def places_agree(fields: Json, place: Body) -> None:
    """Let what is on, before and above the wall of a place outdoors or a room fit it."""
    if not {"objects", "way", "length"} <= set(fields):
        return
    length = number_of(place["length"])
    _wall_agrees(place, length, place.get("height"))
    _in_a_row(place.get("way") or [], "length", length)
    if any(one.get("escape") for one in place.get("objects") or []):
        place.pop("escape_way", None)
    if place.get("height") is not None:
        _at_most(place, "eave", number_of(place["height"]))
    _route_agrees(place)


def garages_agree(fields: Json, garage: Body) -> None:
    """Let walls, vehicles and barriers fit the garage, each wall once."""
    if not {"vehicle_opening", "walls", "depth"} <= set(fields):
        return
    width, depth = number_of(garage["width"]), number_of(garage["depth"])
    garage["walls"] = list({wall["side"]: wall for wall in garage["walls"]}.values())
    for wall in garage["walls"]:
        along, out = (width, depth) if wall["side"] == "back" else (depth, width)
        _wall_agrees(wall, along, garage.get("height"))
        for barrier in wall.get("barriers") or []:
            _within(barrier, along)
            _at_most(barrier, "from_wall", out)
    _at_most(garage, "vehicle_length", depth)
    opening = garage.get("vehicle_opening")
    if opening is not None:
        _within(opening, width)
        if garage.get("height") is not None:
            _at_most(opening, "height", number_of(garage["height"]))
    _route_agrees(garage)


def _within(part: Body, length: float) -> None:
    """Move and shorten a part until it fits a length."""
    _at_most(part, "left", length / 2)
    _at_most(part, "width", length - number_of(part["left"]))


def placed_units_agree(fields: Json, request: Body) -> None:
    """Let units placed on walls be of a kind that is wanted, no more than that, and on the wall."""
    if not {"units", "places", "confirmed_rules"} <= set(fields):
        return
    if "confirmed_rules" in request:
        request["confirmed_rules"] = list(dict.fromkeys(request["confirmed_rules"]))
    widths = {unit["id"]: number_of(unit["width"]) for unit in request["units"]}
    counts = {unit["id"]: unit.get("count", 1) for unit in request["units"]}
    for place in request["places"]:
        if "length" in place:
            _placed_agree(place, number_of(place["length"]), widths, counts)
        for wall in place.get("walls", ()):
            side = place["width" if wall["side"] == "back" else "depth"]
            _placed_agree(wall, number_of(side), widths, counts)


def _placed_agree(
    wall: Body, length: float, widths: Mapping[str, float], counts: Mapping[str, int]
) -> None:
    kept: list[Body] = []
    for index, placed in enumerate(wall.get("placed") or []):
        if placed["unit"] not in widths:
            placed["unit"] = list(widths)[index % len(widths)]
        room = length - widths[placed["unit"]]
        more = sum(one["unit"] == placed["unit"] for one in kept) < counts[placed["unit"]]
        if room >= 0.0 and more:
            _put(placed, "left", min(max(number_of(placed["left"]), 0.0), room))
            kept.append(placed)
    if "placed" in wall:
        wall["placed"] = kept


WALL_RULES: tuple[Callable[[Json, Body], None], ...] = (
    lengths_are_some,
    units_agree,
    places_agree,
    garages_agree,
    placed_units_agree,
)
