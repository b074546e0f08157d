"""What the clearance check answers."""

from __future__ import annotations

from typing import Annotated

from msgspec import Struct

from service.findings import Answer, Verdict
from service.quantities.fields import out, said


class EdgeInterval(Struct, kw_only=True, forbid_unknown_fields=True):
    """Where the left edge of a unit may be: both ends are permitted."""

    from_in: Annotated[
        float,
        out(
            "in",
            "From the wall's left end; up to the next sixteenth.",
            example=62.0,
            decimals=4,
            rounding="up",
        ),
    ]
    to_in: Annotated[
        float,
        out(
            "in",
            "From the wall's left end; down to the last sixteenth.",
            example=94.0,
            decimals=4,
            rounding="down",
        ),
    ]
    from_text: Annotated[str, said("The same in feet, inches and sixteenths.", example="5 ft 2 in")]
    to_text: Annotated[str, said("The same in feet, inches and sixteenths.", example="7 ft 10 in")]


class ForbiddenStretch(Struct, kw_only=True, forbid_unknown_fields=True):
    """Where the left edge may not be, by one rule: both ends are permitted by it."""

    from_in: Annotated[
        float,
        out("in", "From the wall's left end.", example=14.0, decimals=4, rounding="down"),
    ]
    to_in: Annotated[
        float, out("in", "From the wall's left end.", example=62.0, decimals=4, rounding="up")
    ]
    rule: Annotated[
        str,
        said("The rule that forbids it, listed by /v1/reference/ids.", example="opening-distance"),
    ]
    pointer: Annotated[
        str | None,
        said(
            "JSON Pointer of what is in the way; null: the wall, the ground or the unit itself.",
            example="/places/0/objects/0",
        ),
    ]
    statement: Annotated[str, said("Why, in a few words.", example="the window is too near")]


class UnitPlaces(Struct, kw_only=True, forbid_unknown_fields=True):
    """All permitted places of one kind of unit on a wall, alone, as the lengths were stated."""

    unit: Annotated[str, said("Id of the kind.", example="unit-a")]
    permitted: Annotated[list[EdgeInterval], said("Permitted left edges.", example=[])]
    forbidden: Annotated[list[ForbiddenStretch], said("Forbidden left edges, by rule.", example=[])]
    largest_count: Annotated[
        int,
        said(
            "How many of this kind alone stand there, counted up to 24, the energy of the "
            "location kept where it is known; 0 where a rule forbids a single one too.",
            example=3,
        ),
    ]
    largest_by_room: Annotated[int, said("The same by room alone, whatever the energy.", example=4)]


class PlacedAt(Struct, kw_only=True, forbid_unknown_fields=True):
    """Where one unit stands in the arrangement that was found: the leftmost one."""

    unit: Annotated[str, said("Id of its kind.", example="unit-a")]
    left_in: Annotated[
        float,
        out("in", "Left edge from the wall's left end.", example=62.0, decimals=4, rounding="up"),
    ]
    left_text: Annotated[str, said("The same in feet, inches and sixteenths.", example="5 ft 2 in")]
    slides_from_in: Annotated[
        float,
        out("in", "First place, the others sliding too.", example=62.0, decimals=4, rounding="up"),
    ]
    slides_to_in: Annotated[
        float,
        out("in", "Last place, the others sliding too.", example=94.0, decimals=4, rounding="down"),
    ]
    bottom_in: Annotated[float, out("in", "Lower edge above the ground.", example=18.0, decimals=4)]


class Barriers(Struct, kw_only=True, forbid_unknown_fields=True):
    """What would protect the arrangement from vehicles: bollards, or wheel barriers instead."""

    bollards_at_in: Annotated[
        list[float],
        out(
            "in",
            "Centres of bollards along the wall, from its left end.",
            example=[62.0, 88.0],
            decimals=2,
        ),
    ]
    bollards_from_wall_in: Annotated[
        float,
        out(
            "in",
            "Least distance of their near side from the wall.",
            example=17.0,
            decimals=4,
            rounding="up",
        ),
    ]
    depth_left_in: Annotated[
        float | None,
        out(
            "in",
            "Depth of the garage that bollards leave to park in; null: on a side wall.",
            example=219.5,
            decimals=4,
            rounding="down",
        ),
    ]
    wheel_barriers_at_in: Annotated[
        list[float],
        out(
            "in",
            "Left ends of wheel barriers along the wall, instead of bollards; empty: on a side "
            "wall, where wheels do not come head on.",
            example=[40.0],
            decimals=2,
        ),
    ]
    depth_left_wheel_in: Annotated[
        float | None,
        out(
            "in",
            "Depth behind which a vehicle's wheels stop; null: on a side wall.",
            example=170.0,
            decimals=4,
            rounding="down",
        ),
    ]


class PlaceAnswer(Struct, kw_only=True, forbid_unknown_fields=True):
    """How the units stand at one place."""

    id: Annotated[str, said("As the request names it, with the wall.", example="west side")]
    pointer: Annotated[str, said("JSON Pointer of it.", example="/places/0")]
    verdict: Annotated[Verdict, said("How it stands.", example="conditional")]
    wanted: Annotated[int, said("Units wanted.", example=3)]
    placed: Annotated[int, said("Units that stand there together.", example=3)]
    arrangement: Annotated[list[PlacedAt], said("Where each of them stands.", example=[])]
    units: Annotated[list[UnitPlaces], said("Permitted places of each kind alone.", example=[])]
    way_before_in: Annotated[
        float | None,
        out(
            "in",
            "Narrowest way before the wall, and past what stands there, without units; null: not "
            "known, or none.",
            example=60.0,
            decimals=4,
            rounding="down",
        ),
    ]
    way_left_in: Annotated[
        float | None,
        out("in", "The same with the units.", example=49.0, decimals=4, rounding="down"),
    ]
    to_panel_low_ft: Annotated[
        float | None,
        out(
            "ft",
            "Shortest way from a unit to the panel; null: not known.",
            example=42.0,
            decimals=1,
            rounding="down",
        ),
    ]
    to_panel_high_ft: Annotated[
        float | None,
        out("ft", "Longest way from a unit to the panel.", example=58.0, decimals=1, rounding="up"),
    ]
    barriers: Annotated[
        Barriers | None,
        said("What protects them from vehicles; null: nothing is asked, or known.", example=None),
    ]
    fails_by: Annotated[
        list[str], said("Rules that it fails, worst first.", example=["clear-positions"])
    ]


class Fix(Struct, kw_only=True, forbid_unknown_fields=True):
    """Something that makes room, verified by placing the units again."""

    id: Annotated[str, said("What kind of fix.", example="move-object")]
    place: Annotated[str, said("Place that it helps.", example="west side")]
    effort: Annotated[
        int,
        said(
            "1 move or hang otherwise, 2 choose another unit, 3 owner's trades, 4 licensed "
            "contractor, 5 utility.",
            example=1,
        ),
    ]
    statement: Annotated[str, said("What to do.", example="Relocate the hose bib.")]
    verdict: Annotated[Verdict, said("How the place stands then.", example="conditional")]
    placed: Annotated[int, said("Units that stand there then.", example=3)]


class Measure(Struct, kw_only=True, forbid_unknown_fields=True):
    """Something to measure or to photograph at a place of which little is known."""

    place: Annotated[str, said("The place.", example="side")]
    how: Annotated[str, said("tape or photo.", example="tape")]
    what: Annotated[
        str,
        said(
            "What to measure or photograph.",
            example="The narrowest place between the wall and the fence.",
        ),
    ]


class ClearanceAnswer(Answer, kw_only=True, forbid_unknown_fields=True):
    """Where the units may hang or stand, and what would make room where they may not."""

    place: Annotated[
        str | None,
        said("Place that stands for the answer; null: no wall is known.", example="west side"),
    ]
    way_to_panel_ft: Annotated[
        float | None,
        out(
            "ft",
            "Longest way of the wires from a unit of that place to the panel, which conductor "
            "sizing takes where no distance is stated; null: not known.",
            example=58.0,
            decimals=1,
            rounding="up",
        ),
    ]
    places: Annotated[list[PlaceAnswer], said("Every wall of the request.", example=[])]
    fixes: Annotated[list[Fix], said("What would make room, least effort first.", example=[])]
    measure: Annotated[
        list[Measure],
        said("What to measure and photograph where no wall is known.", example=[]),
    ]
