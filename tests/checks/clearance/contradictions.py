"""A clean request, and what turns it into one that cannot be and back."""

from __future__ import annotations

import json
from typing import Any

Body = dict[str, Any]

DOOR = {"kind": "opening", "what": "door", "left": 10, "width": 36, "height": 80}
OUT = {"swing": "out", "hinge": "right", "opens_degrees": 180}
WINDOW = {"kind": "opening", "what": "window", "left": 100, "width": 36, "bottom": 36, "height": 40}
PANEL = {"kind": "equipment", "what": "panel", "left": 60, "width": 16, "bottom": 40, "height": 30}
CONDENSER = {"kind": "condenser", "left": 150, "width": 32, "out": 12, "depth": 32}
VENT = {"kind": "gas_vent", "left": 200, "out": 4, "height": 30}
CORNER = {"kind": "corner_opening", "end": "left", "out": 20, "width": 30}
POOL = {"kind": "pool", "left": -60, "width": 400, "out": 120}

#: A clean body: a wall, a garage, a room and a place told by telephone, measured by tape: 1/4 in.
CLEAN: Body = {
    "units": [
        {"id": "a", "width": 26, "height": 40, "depth": 10, "handle": 40, "mass": 265},
        {"id": "b", "width": 30, "height": 60, "depth": 14, "conduit_entry": "top"},
    ],
    "places": [
        {
            "kind": "wall",
            "id": "west",
            "length": 240,
            "height": 108,
            "eave": 96,
            "measured_by": "tape",
            "right_end": "open",
            "objects": [DOOR, WINDOW, PANEL, CONDENSER, VENT, CORNER, POOL],
            "way": [
                {"left": 0, "length": 120, "clear": 60},
                {"left": 120, "length": 120, "clear": 48, "clear_right": 36},
            ],
            "placed": [{"unit": "a", "left": 60}],
            "way_in": {"narrowest": 36},
            "to_panel": {"beyond": 40, "trench": 30},
        },
        {
            "kind": "garage",
            "id": "garage",
            "width": 240,
            "depth": 250,
            "height": 96,
            "measured_by": "tape",
            "vehicle_length": 190,
            "vehicle_opening": {"left": 24, "width": 192, "height": 84},
            "walls": [
                {"side": "back", "objects": [DOOR], "placed": [{"unit": "b", "left": 100}]},
                {
                    "side": "left",
                    "barriers": [{"what": "bollards", "from_wall": 24, "left": 20, "width": 60}],
                },
            ],
        },
        {"kind": "room", "id": "room", "use": "laundry", "length": 96, "objects": [DOOR]},
        {"kind": "by_telephone", "id": "side", "where": "side_yard", "narrowest": 48},
    ],
    "confirmed_rules": ["walkway", "unit-spacing"],
}

W, G, R = "/places/0", "/places/1", "/places/2"
ON, B = f"{W}/objects", f"{G}/walls/1/barriers/0"
Change = dict[str, Any]


def far(value: float, within: float = 0.25) -> Body:
    return {"value": value, "within": within}


#: What is set where, the pointer of the refusal, and what is set then to remedy it.
REFUSED: list[tuple[Change, str, Change]] = [
    # ids
    ({"/units/1/id": "a", f"{G}/walls/0/placed": []}, "/units/1/id", {"/units/1/id": "c"}),
    ({f"{R}/id": "west"}, f"{R}/id", {f"{R}/id": "w"}),
    ({"/confirmed_rules": ["walkway"] * 2}, "/confirmed_rules/1", {"/confirmed_rules": []}),
    # kinds of units
    ({"/units/0/handle": 40.1}, "/units/0/handle", {"/units/0/handle": 40}),
    ({"/units/0/conduit_room": 4}, "/units/0/conduit_room", {"/units/0/conduit_entry": "left"}),
    ({"/units/0/heaviest_piece": 266}, "/units/0/heaviest_piece", {"/units/0/mass": 266}),
    # lengths that are none
    ({f"{W}/eave": -1}, f"{W}/eave", {f"{W}/eave": None}),
    ({f"{W}/property_line": far(-1)}, f"{W}/property_line/value", {f"{W}/property_line": 0}),
    ({f"{W}/way_in/narrowest": 0}, f"{W}/way_in/narrowest", {f"{W}/way_in/narrowest": 30}),
    ({f"{W}/way/1/length": 0}, f"{W}/way/1/length", {f"{W}/way/1/length": 1}),
    ({f"{W}/way/0/clear": far(-1)}, f"{W}/way/0/clear/value", {f"{W}/way/0/clear": 0}),
    ({f"{ON}/0/width": 0}, f"{ON}/0/width", {f"{ON}/0/width": 36}),
    ({f"{ON}/0/width": far(-3)}, f"{ON}/0/width/value", {f"{ON}/0/width": far(3)}),
    ({f"{ON}/0/height": 0}, f"{ON}/0/height", {f"{ON}/0/height": None}),
    ({f"{ON}/2/width": 0}, f"{ON}/2/width", {f"{ON}/2/width": 1}),
    ({f"{ON}/2/depth": far(-1)}, f"{ON}/2/depth/value", {f"{ON}/2/depth": 0}),
    ({f"{ON}/3/depth": 0}, f"{ON}/3/depth", {f"{ON}/3/depth": 32}),
    ({f"{ON}/3/out": far(-2)}, f"{ON}/3/out/value", {f"{ON}/3/out": far(2)}),
    ({f"{ON}/4/out": far(-2)}, f"{ON}/4/out/value", {f"{ON}/4/out": 0}),
    ({f"{ON}/5/width": 0}, f"{ON}/5/width", {f"{ON}/5/width": 30}),
    ({f"{ON}/6/width": 0}, f"{ON}/6/width", {f"{ON}/6/width": 30}),
    ({f"{G}/height": 0, f"{G}/vehicle_opening/height": None, f"{G}/walls/0/objects": []},
     f"{G}/height", {f"{G}/height": 90}),
    ({f"{G}/vehicle_opening/left": far(-2)}, f"{G}/vehicle_opening/left/value",
     {f"{G}/vehicle_opening/left": 2}),
    ({f"{B}/width": 0}, f"{B}/width", {f"{B}/width": 60}),
    ({f"{B}/from_wall": far(-2)}, f"{B}/from_wall/value", {f"{B}/from_wall": 0}),
    ({"/places/3/narrowest": far(-1)}, "/places/3/narrowest/value", {"/places/3/narrowest": 0}),
    # beyond the wall, by more than the errors: 1/4 in each of left, width and wall
    ({f"{ON}/0/left": -0.3}, f"{ON}/0/left", {f"{ON}/0/left": -0.2}),
    ({f"{ON}/0/left": far(-5, 4)}, f"{ON}/0/left/value", {f"{ON}/0/left": far(-5, 5)}),
    ({f"{ON}/1/left": 205}, f"{ON}/1/width", {f"{ON}/1/left": 204.7}),
    ({f"{ON}/1/left": 300}, f"{ON}/1/left", {f"{W}/length": 400}),
    ({f"{ON}/2/left": 230}, f"{ON}/2/width", {f"{ON}/2/width": 10}),
    ({f"{R}/objects/0/left": 120}, f"{R}/objects/0/width", {f"{R}/objects/0/left": 90}),
    ({f"{G}/walls/0/objects/0/left": 205}, f"{G}/walls/0/objects/0/width",
     {f"{G}/walls/0/objects/0/left": 204}),
    ({f"{W}/way/1/length": 121}, f"{W}/way/1/length", {f"{W}/way/1/length": 120}),
    ({f"{W}/way/0/left": -1}, f"{W}/way/0/left", {f"{W}/way/0/left": 0}),
    ({f"{W}/placed/0/left": 215}, f"{W}/placed/0/left", {f"{W}/placed/0/left": 214}),
    ({f"{W}/placed/0/left": far(-1)}, f"{W}/placed/0/left/value", {f"{W}/placed/0/left": 0}),
    ({f"{B}/left": 200}, f"{B}/width", {f"{B}/width": 50}),
    # over the top
    ({f"{W}/eave": 109}, f"{W}/eave", {f"{W}/height": 109}),
    ({f"{ON}/1/height": 74}, f"{ON}/1/height", {f"{ON}/1/height": 72}),
    ({f"{ON}/1/bottom": 109, f"{ON}/1/height": None}, f"{ON}/1/bottom", {f"{ON}/1/bottom": 36}),
    ({f"{G}/walls/0/objects/0/height": 97}, f"{G}/walls/0/objects/0/height", {f"{G}/height": 97}),
    # in each other's place: the second is named
    ({f"{ON}/1/left": 45, f"{ON}/1/bottom": 0}, f"{ON}/1/left", {f"{ON}/1/left": 46}),
    ({f"{ON}/1/left": 20}, f"{ON}/1/left", {f"{ON}/1/bottom": 80, f"{ON}/1/height": 20}),
    ({f"{ON}/2/left": 90}, f"{ON}/2/left", {f"{ON}/2/bottom": 76}),
    ({f"{ON}/2/left": 40}, f"{ON}/2/left", {f"{ON}/2/left": 46}),
    ({f"{W}/way/1": {"left": 110, "length": 60, "clear": 9}}, f"{W}/way/1/left",
     {f"{W}/way/1/left": 120}),
    ({f"{ON}/0": DOOR | OUT, f"{ON}/1": DOOR | OUT | {"left": 101, "hinge": "left"}},
     f"{ON}/1/opens_degrees", {f"{ON}/1/opens_degrees": 90}),
    ({f"{ON}/0": DOOR | OUT, f"{ON}/1": DOOR | OUT | {"left": 77}},
     f"{ON}/1/opens_degrees", {f"{ON}/1/hinge": None}),
    # what is stated contradicts
    ({f"{ON}/5/end": "right"}, f"{ON}/5/end", {f"{W}/right_end": "wall"}),
    ({f"{ON}/1/escape": True, f"{ON}/1/operable": False}, f"{ON}/1/escape",
     {f"{ON}/1/operable": True}),
    ({f"{ON}/1/escape": True, f"{W}/escape_way": False}, f"{W}/escape_way",
     {f"{W}/escape_way": True}),
    # 40 ft and 20 ft of wall
    ({f"{W}/to_panel/trench": 61}, f"{W}/to_panel/trench", {f"{W}/to_panel/trench": 60}),
    ({f"{W}/placed/0/unit": "c"}, f"{W}/placed/0/unit", {f"{W}/placed/0/unit": "b"}),
    # a garage
    ({f"{G}/walls/1/side": "back"}, f"{G}/walls/1/side", {f"{G}/walls/1/side": "right"}),
    ({f"{G}/vehicle_opening/left": 49}, f"{G}/vehicle_opening/width", {f"{G}/width": 241}),
    ({f"{G}/vehicle_opening/height": 97}, f"{G}/vehicle_opening/height", {f"{G}/height": 97}),
    ({f"{G}/vehicle_length": 251}, f"{G}/vehicle_length", {f"{G}/depth": 251}),
    ({f"{B}/from_wall": 241}, f"{B}/from_wall", {f"{B}/from_wall": 239}),
]  # fmt: skip


def changed(body: Body, change: Change) -> Body:
    made: Any = json.loads(json.dumps(body))
    for pointer, value in change.items():
        *path, last = pointer.split("/")[1:]
        inner = made
        for step in path:
            inner = inner[int(step)] if isinstance(inner, list) else inner[step]
        inner[int(last) if isinstance(inner, list) else last] = value
    return dict(made)
