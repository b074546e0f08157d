"""The rows of the lists of conductors and raceways as the wire shows them."""

from __future__ import annotations

from typing import Annotated

from msgspec import Struct

from service.quantities.fields import out, said


class ConductorRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One size of conductor in copper or aluminum: its area, resistance, ampacities and room."""

    id: Annotated[str, said("Id of the row: material and size.", example="copper/4")]
    material: Annotated[str, said("copper or aluminum.", example="copper")]
    size: Annotated[str, said("Size, as requests and answers name it.", example="4")]
    unit: Annotated[str, said("What the size is counted in: AWG or kcmil.", example="AWG")]
    area_cmil: Annotated[
        float, out("cmil", "Area of the metal as printed.", example=41740.0, decimals=0)
    ]
    area_mm2: Annotated[float, out("mm2", "The same.", example=21.15)]
    ampacity_60_a: Annotated[
        float, out("A", "Ampacity in the column of 60 degC.", example=70.0, decimals=0)
    ]
    ampacity_75_a: Annotated[
        float, out("A", "Ampacity in the column of 75 degC.", example=85.0, decimals=0)
    ]
    ampacity_90_a: Annotated[
        float, out("A", "Ampacity in the column of 90 degC.", example=95.0, decimals=0)
    ]
    dc_ohm_per_kft: Annotated[
        float,
        out(
            "ohm/kft",
            "Resistance to direct current at 75 degC, stranded.",
            example=0.308,
            decimals=5,
        ),
    ]
    ac_pvc_ohm_per_kft: Annotated[
        float | None,
        out(
            "ohm/kft",
            "Resistance at 60 Hz and 75 degC in PVC conduit; null: not in the table.",
            example=0.31,
            decimals=3,
        ),
    ]
    ac_aluminum_ohm_per_kft: Annotated[
        float | None, out("ohm/kft", "The same in aluminum conduit.", example=0.31, decimals=3)
    ]
    ac_steel_ohm_per_kft: Annotated[
        float | None, out("ohm/kft", "The same in steel conduit.", example=0.31, decimals=3)
    ]
    reactance_ohm_per_kft: Annotated[
        float | None,
        out(
            "ohm/kft",
            "Reactance at 60 Hz in PVC and aluminum conduit; null: not in the table.",
            example=0.048,
            decimals=3,
        ),
    ]
    reactance_steel_ohm_per_kft: Annotated[
        float | None, out("ohm/kft", "The same in steel conduit.", example=0.06, decimals=3)
    ]
    diameter_thhn_in: Annotated[
        float | None,
        out(
            "in",
            "Diameter over THHN, THWN or THWN-2, concentric strand; null: not in the table.",
            example=0.324,
            decimals=3,
        ),
    ]
    diameter_xhhw_in: Annotated[
        float | None, out("in", "The same over XHHW or XHHW-2.", example=0.322, decimals=3)
    ]
    room_thhn_in2: Annotated[
        float | None,
        out(
            "in2",
            "Room in a raceway with THHN, THWN or THWN-2; null: not in the table.",
            example=0.0824,
            decimals=4,
        ),
    ]
    room_xhhw_in2: Annotated[
        float | None, out("in2", "The same with XHHW or XHHW-2.", example=0.0814, decimals=4)
    ]
    standing: Annotated[str, said("Weakest standing of its numbers.", example="published")]
    sources: Annotated[
        list[str], said("Ids of its sources.", example=["ampacity/copper/4", "ac_impedance/4"])
    ]


class RacewayRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One trade size of a kind of raceway: its inside, and how much of it may be filled."""

    id: Annotated[str, said("Id of the row: kind and trade size.", example="pvc40/1")]
    way: Annotated[str, said("Id to send as `way` of a segment.", example="pvc40")]
    name: Annotated[str, said("What it is.", example="rigid PVC conduit, Schedule 40")]
    trade_size: Annotated[str, said("Trade size [in].", example="1")]
    taken: Annotated[
        bool, said("Whether an answer takes it; below 1/2 in it does not.", example=True)
    ]
    inside_diameter_in: Annotated[float, out("in", "Inside diameter.", example=1.029, decimals=3)]
    inside_area_in2: Annotated[
        float, out("in2", "The whole area inside.", example=0.832, decimals=3)
    ]
    one_in2: Annotated[
        float,
        out(
            "in2",
            "Room for one conductor or cable.",
            example=0.4409,
            decimals=4,
            rounding="down",
        ),
    ]
    two_in2: Annotated[
        float,
        out("in2", "Room for two together.", example=0.2579, decimals=4, rounding="down"),
    ]
    more_in2: Annotated[
        float,
        out(
            "in2",
            "Room for three and more together.",
            example=0.3328,
            decimals=4,
            rounding="down",
        ),
    ]
    nipple_in2: Annotated[
        float,
        out(
            "in2",
            "Room for any number where it is no longer than 24 in.",
            example=0.4992,
            decimals=4,
            rounding="down",
        ),
    ]
    standing: Annotated[str, said("Weakest standing of its numbers.", example="secondary")]
    sources: Annotated[
        list[str],
        said("Ids of its sources.", example=["raceway_sizes/pvc40/1", "conductor_fill/two"]),
    ]
