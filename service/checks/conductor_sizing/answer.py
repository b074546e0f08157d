"""What the conductor-sizing check answers."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Struct

from service.findings import Answer, Finding, Verdict
from service.quantities.fields import out, said

MaterialName = Literal["copper", "aluminum"]


class RacewayPart(Struct, kw_only=True, forbid_unknown_fields=True):
    """The raceway of one part of the run."""

    place: Annotated[str, said("Where the part lies.", example="outside_wall")]
    way: Annotated[str, said("Raceway or type of cable.", example="pvc40")]
    length_ft: Annotated[float, out("ft", "Its length.", example=150.0, decimals=1)]
    trade_size: Annotated[
        str | None, said("Smallest trade size [in]; null: a cable, or none fits.", example="1")
    ]
    filled_percent: Annotated[
        float | None, out("%", "Part of it that is filled.", example=32.8, decimals=1)
    ] = None
    allowed_percent: Annotated[
        float | None, out("%", "Part of it that may be filled.", example=40.0, decimals=1)
    ] = None
    next_percent: Annotated[
        float | None,
        out("%", "Part filled in the next larger trade size.", example=19.0, decimals=1),
    ] = None
    may_jam: Annotated[
        bool, said("Whether three equal conductors may jam in its bends.", example=False)
    ] = False
    jams_in: Annotated[
        str | None,
        said(
            "Smaller trade size that holds them, but where they may jam; null: none.", example="1"
        ),
    ] = None


class Reach(Struct, kw_only=True, forbid_unknown_fields=True):
    """How far a size reaches."""

    size: Annotated[str, said("Size, AWG or kcmil.", example="6")]
    up_to_ft: Annotated[
        float, out("ft", "Longest run, one way, rounded down.", example=101.0, decimals=0)
    ]


class Pull(Struct, kw_only=True, forbid_unknown_fields=True):
    """Conductors to bring to the job."""

    use: Annotated[
        Literal["phase", "neutral", "ground"], said("What it is pulled for.", example="phase")
    ]
    size: Annotated[str, said("Size, AWG or kcmil.", example="4")]
    feet: Annotated[
        float, out("ft", "Of all of them together, with slack.", example=346.0, decimals=0)
    ]


class MaterialSizing(Struct, kw_only=True, forbid_unknown_fields=True):
    """The circuit in one material."""

    material: Annotated[MaterialName, said("Of the phases.", example="copper")]
    verdict: Annotated[Verdict, said("How it stands.", example="conditional")]
    phase: Annotated[
        str | None, said("Size of the phases, AWG or kcmil; null: none fits.", example="4")
    ]
    neutral: Annotated[
        str | None, said("Size of the neutral; null: none is pulled, or none fits.", example="10")
    ]
    ground: Annotated[
        str | None, said("Size of the copper equipment ground; null: none.", example="6")
    ]
    ground_but_for_rounding: Annotated[
        str | None,
        said(
            "Size that misses the rule by the rounding of the printed areas alone; null: none.",
            example="8",
        ),
    ]
    breaker_a: Annotated[
        float | None, out("A", "Rating of the breaker; null: none is so large.", example=60.0)
    ]
    ampacity_a: Annotated[
        float | None,
        out(
            "A",
            "Of the size, the lower of terminals and conditions of use.",
            example=85.0,
            decimals=1,
            rounding="down",
        ),
    ]
    drop_v: Annotated[
        float | None, out("V", "Drop, or rise at a source.", example=4.46, decimals=2)
    ]
    drop_percent: Annotated[
        float | None,
        out("%", "The same.", example=1.86, decimals=2),
    ]
    leg_drop_percent: Annotated[
        float | None,
        out(
            "%",
            "Drop of the heavier leg from hot to neutral, at the largest unbalance of the neutral; "
            "null: no neutral that carries any.",
            example=1.9,
            decimals=2,
            rounding="up",
        ),
    ] = None
    loss_w: Annotated[
        float | None, out("W", "Heat in the run at full load.", example=214.0, decimals=0)
    ]
    loss_kwh_a_year: Annotated[
        float | None, out("kWh", "The same in a year.", example=214.0, decimals=0)
    ]
    governing: Annotated[str, said("Rule that asks for this size.", example="voltage-drop")]
    relax: Annotated[str, said("What would let a smaller size do.", example="A shorter run would.")]
    raceways: Annotated[list[RacewayPart], said("Raceway of every part.", example=[])]
    reach: Annotated[list[Reach], said("How far each size reaches.", example=[])]
    pull: Annotated[list[Pull], said("What to bring.", example=[])]
    findings: Annotated[list[Finding], said("Every rule with its own size.", example=[])]


class ConductorSizingAnswer(Answer, kw_only=True, forbid_unknown_fields=True):
    """The wire, conduit, ground and breaker of a circuit, and what the distance does to them."""

    amps: Annotated[float, out("A", "Amps the circuit carries.", example=48.0, decimals=2)]
    raised_a: Annotated[
        float,
        out("A", "The same, its continuous part raised by a quarter.", example=60.0, decimals=2),
    ]
    length_ft: Annotated[float, out("ft", "One way.", example=150.0, decimals=1)]
    materials: Annotated[
        list[MaterialSizing], said("The circuit in copper and in aluminum.", example=[])
    ]
