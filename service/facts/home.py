"""What is known of the home and its household."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import Meta, Struct

from service.facts.conditioning import Conditioning
from service.facts.fact import FactCoarse, FactOneOf, FactRange, FactUnknown, fact
from service.facts.hung_place import AirRise, GaragePlace, OutdoorPlace
from service.facts.interval_profile import IntervalWatts
from service.facts.loads import HomeClass
from service.facts.motor import Motor
from service.facts.run import CoarseDistance, RunSegment
from service.facts.siting_readings import Anchorage, ExistingStorage, SitingReadings
from service.facts.siting_spots import SitingPlace
from service.published.coarse_distances import coarse_distances
from service.quantities.fields import choice, quantity

HomeType = Literal["house", "townhouse", "accessory_unit", "multi_family_unit"]
MedicalEquipment = Literal["none", "cpap", "oxygen", "other"]
WellPump = Literal["none", "v120", "v240"]
SumpPump = Literal["none", "one"]
Internet = Literal["keep_running", "leave_off"]

#: Coarse answers on the bill of a month [kWh]. Standing: common practice, no source.
BILL_SIZES = {"small": (250.0, 500.0), "medium": (500.0, 1000.0), "large": (1000.0, 2500.0)}

_Kwh = Annotated[
    float, quantity("kWh", "Energy billed in a month.", ge=1, le=20_000, example=700.0)
]
#: Coarse answers on the distance to the panel [ft]. Standing: common practice, no source; see table
#: coarse_distances.
DISTANCES = coarse_distances()
_Feet = Annotated[
    float,
    quantity("ft", "One way, along the route of the wires.", ge=0, le=5280, example=60.0),
]
_Watts = Annotated[float, quantity("W", "Running watts.", ge=50, le=10_000, example=1000.0)]


class MedicalPlan(Struct, forbid_unknown_fields=True, kw_only=True):
    """What stands behind the battery where somebody depends on powered equipment."""

    utility_programme: Annotated[
        bool | None,
        Meta(
            description="Whether the home is on the utility's program for medical need.",
            examples=[True],
        ),
    ] = None
    second_plan: Annotated[
        bool | None,
        Meta(
            description="Whether there is a second plan: spare battery, bottled oxygen, a place.",
            examples=[True],
        ),
    ] = None


class Home(Struct, forbid_unknown_fields=True, kw_only=True):
    """What is known of the home and its household."""

    type: Annotated[
        HomeType | FactOneOf[HomeType] | FactUnknown | None,
        fact(
            "Kind of home: it decides which code applies.",
            ask_by="telephone",
            question="Is it a house, townhouse, accessory dwelling unit (ADU) or apartment?",
            who="owner",
            example="house",
        ),
    ] = None
    monthly_kwh: Annotated[
        _Kwh
        | FactRange[_Kwh]
        | FactOneOf[_Kwh]
        | FactCoarse[Literal["small", "medium", "large"]]
        | FactUnknown
        | None,
        fact(
            "Energy of an average month.",
            ask_by="record",
            question="How many kilowatt-hours does an average month's bill show?",
            who="owner",
            example=700.0,
            coarse=BILL_SIZES,
            photo="the page of the bill that shows twelve months of use",
        ),
    ] = None
    home_class: Annotated[
        HomeClass | None,
        choice(
            "Class of home whose day shape is scaled to the bill.", example="inland_single_family"
        ),
    ] = None
    interval_watts: IntervalWatts | None = None
    interval_share_percent: (
        Annotated[
            float,
            quantity(
                "%",
                "Part of the metered use that the backed-up circuits take; absent: all of it.",
                ge=1,
                le=100,
                example=35.0,
            ),
        ]
        | None
    ) = None
    conditioning: (
        Annotated[
            list[Conditioning],
            Meta(
                description="Heating and cooling units that are to run in an outage, by weather.",
                min_length=1,
                max_length=4,
                examples=[[{"kind": "cooling", "size": {"kind": "tons", "tons": 3.0}}]],
            ),
        ]
        | None
    ) = None
    motors: (
        Annotated[
            list[Motor],
            Meta(
                description="Every large motor that is to start in an outage, by its nameplate; "
                "absent: those among the loads named, as far as their rows say.",
                max_length=6,
                examples=[[{"id": "condenser", "kind": "compressor_scroll", "locked_rotor_a": 77}]],
            ),
        ]
        | None
    ) = None
    battery_run: (
        Annotated[
            list[RunSegment],
            Meta(
                description="The run of the wires from the battery to the panel by its parts; "
                "absent: no more than `battery_distance` is known of it.",
                min_length=1,
                max_length=20,
                examples=[[{"length": 60, "place": "outside_wall", "way": "pvc40"}]],
            ),
        ]
        | None
    ) = None
    battery_place: Annotated[
        OutdoorPlace | GaragePlace | None,
        Meta(
            description="Where the battery is to hang: outdoors on one of some walls, or in a "
            "garage; absent: either.",
            examples=[{"kind": "outdoors", "walls": [{"id": "north", "facing": 0}]}],
        ),
    ] = None
    battery_air_rise: AirRise | None = None
    battery_spots: Annotated[
        list[SitingPlace],
        Meta(
            description="Places where the battery may hang or stand, measured, or as told by "
            "telephone; empty: not asked yet.",
            max_length=6,
            examples=[[{"kind": "by_telephone", "id": "side", "where": "side_yard"}]],
        ),
    ] = []
    existing_storage: Annotated[
        list[ExistingStorage],
        Meta(
            description="Storage that the property has already.",
            max_length=24,
            examples=[[{"where": "attached_garage", "energy": 13}]],
        ),
    ] = []
    siting_readings: Annotated[
        SitingReadings | None,
        Meta(
            description="Readings of the authority on where storage may hang; absent: the usual.",
            examples=[{"opening_distance": "any_height"}],
        ),
    ] = None
    anchorage: Annotated[
        Anchorage | None,
        Meta(description="Earthquake figures; absent: not known.", examples=[{"sds": 1.5}]),
    ] = None
    medical_equipment: Annotated[
        MedicalEquipment | FactOneOf[MedicalEquipment] | FactUnknown | None,
        fact(
            "Powered medical equipment somebody depends on.",
            ask_by="telephone",
            question="Does anybody in the home depend on powered medical equipment, and on which?",
            who="owner",
            example="none",
        ),
    ] = None
    medical_plan: Annotated[
        MedicalPlan | None,
        Meta(
            description="Plan behind the battery where somebody depends on it.",
            examples=[{"utility_programme": True, "second_plan": True}],
        ),
    ] = None
    well_pump: Annotated[
        WellPump | FactOneOf[WellPump] | FactUnknown | None,
        fact(
            "Well pump, by the voltage of its breaker; 240 V until said otherwise.",
            ask_by="telephone",
            question="Is there a well pump, and is its breaker a double (240 V) or a single one?",
            who="owner",
            example="none",
            photo="the well pump's breaker and its control box nameplate, covers on",
        ),
    ] = None
    well_pump_watts: Annotated[
        _Watts | FactRange[_Watts] | FactOneOf[_Watts] | FactUnknown | None,
        fact(
            "Running watts of the well pump, where there is one.",
            ask_by="photo",
            question="Which horsepower or watts do the well pump's label or control box state?",
            who="owner",
            example=1000.0,
            photo="the label of the well pump's control box, its cover on",
        ),
    ] = None
    sump_pump: Annotated[
        SumpPump | FactOneOf[SumpPump] | FactUnknown | None,
        fact(
            "Sump pump that keeps the basement or crawl space dry.",
            ask_by="telephone",
            question="Is there a sump pump?",
            who="owner",
            example="none",
        ),
    ] = None
    battery_distance: Annotated[
        _Feet
        | FactRange[_Feet]
        | FactOneOf[_Feet]
        | FactCoarse[CoarseDistance]
        | FactUnknown
        | None,
        fact(
            "Distance from the battery to the panel, along the route of the wires.",
            ask_by="telephone",
            question="How many feet is it from where the battery may hang to the main panel, along "
            "the walls, up and down counted?",
            who="owner",
            example=60.0,
            coarse=DISTANCES,
            photo="the main panel with its wall, and the wall where the battery may hang",
        ),
    ] = None
    internet: Annotated[
        Internet | FactOneOf[Internet] | FactUnknown | None,
        fact(
            "Whether modem and router must run.",
            ask_by="telephone",
            question="Must the internet, that is modem and router, stay up in an outage?",
            who="owner",
            example="keep_running",
        ),
    ] = None
