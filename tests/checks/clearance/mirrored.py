"""Requests with every wall mirrored, and shifted."""

from copy import deepcopy

from tests.checks.clearance.requests import Body

OTHER = {"left": "right", "right": "left"}


def mirrored(made: Body) -> Body:
    """Return a request seen in a mirror: left is right, on walls, units and in garages."""
    turned = deepcopy(made)
    for kind in turned["units"]:
        room = kind.get("clearances")
        if room:
            kind["clearances"] = {OTHER.get(side, side): inches for side, inches in room.items()}
    turned["places"] = [_place(place) for place in turned["places"]]
    return turned


def _place(place: Body) -> Body:
    if place["kind"] == "garage":
        opening = place.get("vehicle_opening")
        if opening:
            opening["left"] = place["width"] - opening["left"] - opening["width"]
        for on in place["walls"]:
            along = place["width"] if on["side"] == "back" else place["depth"]
            on["side"] = OTHER.get(on["side"], on["side"])
            on["objects"] = [_thing(thing, along) for thing in on["objects"]]
        return place
    long = place["length"]
    ends = {f"{OTHER[side]}_end": place.pop(f"{side}_end", None) for side in OTHER}
    place |= {name: meets for name, meets in ends.items() if meets is not None}
    place["objects"] = [_thing(thing, long) for thing in place.get("objects", [])]
    place["way"] = [
        part | {"left": long - part["left"] - part["length"]} for part in place["way"][::-1]
    ]
    return place


def _thing(thing: Body, long: float) -> Body:
    made = dict(thing)
    if "left" in thing:
        made["left"] = long - thing["left"] - thing.get("width", 0)
    for name in ("hinge", "service_side", "end"):
        if name in thing:
            made[name] = OTHER.get(thing[name], thing[name])
    return made


def shifted(place: Body, by: float) -> Body:
    """Return a wall that begins farther left, what is new of it taken as by another wall."""
    made = deepcopy(place)
    made["length"] += by
    for thing in made["objects"]:
        if "left" in thing:
            thing["left"] += by
    made["objects"].append(
        {"kind": "equipment", "what": "other", "left": 0, "width": by, "bottom": 0, "depth": 90}
    )
    made["way"] = [{"left": 0, "length": by, "clear": 0}] + [
        part | {"left": part["left"] + by} for part in made["way"]
    ]
    return made
