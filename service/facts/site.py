"""The site: where it is, what its owner wishes, what is known of the home and its equipment."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Literal

from msgspec import Meta, Struct

from service.facts.battery import Battery
from service.facts.fact import FactCoarse, FactOneOf, FactRange, FactUnknown, fact
from service.facts.loads import HomeClass, Load, Season
from service.published.essential_sets import essential_sets
from service.quantities.fields import SAFE_REFERENCE, choice, number, quantity, text

if TYPE_CHECKING:
    EssentialSetId = str
else:
    EssentialSetId = Literal[tuple(essential_sets())]

HomeType = Literal["house", "townhouse", "accessory_unit", "multi_family_unit"]
MedicalEquipment = Literal["none", "cpap", "oxygen", "other"]
WellPump = Literal["none", "v120", "v240"]
SumpPump = Literal["none", "one"]
Internet = Literal["keep_running", "leave_off"]


class LoadControl(Struct, forbid_unknown_fields=True, kw_only=True):
    """Listed load control that sheds tiers by itself, by state of charge."""

    comfort_shed_percent: Annotated[
        float,
        quantity("%", "Charge at or below which comfort loads go.", ge=0, le=100, example=50.0),
    ]
    normal_shed_percent: Annotated[
        float,
        quantity("%", "Charge at or below which normal loads go.", ge=0, le=100, example=25.0),
    ]
    hysteresis_percent: Annotated[
        float,
        quantity("%", "Charge above that at which they come back.", ge=1, le=50, example=10.0),
    ]


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


#: A day of the 365-day year.
_DAY = (
    "^20[0-9]{2}-((0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])"
    "|(0[469]|11)-(0[1-9]|[12][0-9]|30)|02-(0[1-9]|1[0-9]|2[0-8]))\\Z"
)


class Place(Struct, forbid_unknown_fields=True, kw_only=True):
    """Where the home is; no street address is wanted."""

    state: Annotated[
        str,
        text(
            "Two letters of the state.",
            example="CA",
            min_length=2,
            max_length=2,
            pattern="^[A-Z]{2}\\Z",
        ),
    ]
    county: Annotated[str, text("County.", example="Riverside", max_length=60)] | None = None
    city: Annotated[str, text("City.", example="Temecula", max_length=60)] | None = None


class Wishes(Struct, forbid_unknown_fields=True, kw_only=True):
    """What the owner wants to run, and for how long."""

    loads: (
        Annotated[
            list[Load],
            Meta(
                description="Loads that are to run in an outage.",
                min_length=1,
                max_length=60,
                examples=[[{"kind": "catalogue", "appliance": "refrigerator"}]],
            ),
        ]
        | None
    ) = None
    essential_set: Annotated[
        EssentialSetId | None,
        choice("A usual set of essential loads, instead of single ones.", example="standard"),
    ] = None
    target_hours: (
        Annotated[float, quantity("h", "Hours the loads must run.", ge=0.25, le=336, example=24.0)]
        | None
    ) = None
    target_tier: Annotated[
        Literal["critical", "normal", "comfort"] | None,
        choice("Lowest tier that must still run at the target.", example="critical"),
    ] = None
    start_hour: (
        Annotated[
            float,
            number(
                "Local hour at which the outage starts.", ge=0, le=23.75, example=18.0, unit="h"
            ),
        ]
        | None
    ) = None
    season: Annotated[
        Season | None, choice("Season of the outage; absent: the worse one.", example="summer")
    ] = None


#: Coarse answers on the bill of a month [kWh]. Standing: common practice, no source.
BILL_SIZES = {"small": (250.0, 500.0), "medium": (500.0, 1000.0), "large": (1000.0, 2500.0)}
#: Coarse answers on the charge kept [%]. Standing: common practice, no source.
CHARGES = {"mostly_empty": (0.0, 25.0), "about_half": (35.0, 65.0), "mostly_full": (75.0, 100.0)}

_Kwh = Annotated[
    float, quantity("kWh", "Energy billed in a month.", ge=1, le=20_000, example=700.0)
]
_Watts = Annotated[float, quantity("W", "Running watts.", ge=50, le=10_000, example=1000.0)]
_Percent = Annotated[
    float, quantity("%", "Percent of the usable energy.", ge=0, le=100, example=60.0)
]


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


class Equipment(Struct, forbid_unknown_fields=True, kw_only=True):
    """What is planned beside the battery, and how it is set."""

    reserve_percent: Annotated[
        _Percent
        | FactRange[_Percent]
        | FactOneOf[_Percent]
        | FactCoarse[Literal["mostly_empty", "about_half", "mostly_full"]]
        | FactUnknown
        | None,
        fact(
            "Charge always kept for outages, for every candidate that states none of its own.",
            ask_by="telephone",
            question="Which charge is the battery to keep for outages, in percent?",
            who="owner",
            example=60.0,
            coarse=CHARGES,
        ),
    ] = None
    load_control: Annotated[
        LoadControl | None,
        Meta(
            description="Listed load control, if planned; absent: nothing is shed by itself.",
            examples=[
                {
                    "comfort_shed_percent": 50.0,
                    "normal_shed_percent": 25.0,
                    "hysteresis_percent": 10.0,
                }
            ],
        ),
    ] = None
    power_limit_rule: Annotated[
        Literal["shed_tiers", "proportional"] | None,
        choice(
            "What happens above the inverter's continuous power: whole tiers are shed, or the "
            "excess alone goes unserved.",
            example="shed_tiers",
        ),
    ] = None


class Candidate(Struct, forbid_unknown_fields=True, kw_only=True):
    """One battery that might be offered, in the caller's own numbers."""

    id: Annotated[
        str,
        text(
            "The caller's own id of the candidate.",
            example="two-units",
            max_length=64,
            pattern=SAFE_REFERENCE,
        ),
    ]
    battery: Annotated[
        Battery,
        Meta(
            description="The battery units.",
            examples=[{"energy": {"kind": "usable", "kwh": 12.0}, "continuous_kw": 5.0}],
        ),
    ]


class Site(Struct, forbid_unknown_fields=True, kw_only=True):
    """Everything known of a site; a check reads it with its facts resolved to plain values."""

    place: Annotated[Place, Meta(description="Where the home is.", examples=[{"state": "CA"}])]
    wishes: Annotated[
        Wishes,
        Meta(
            description="What the owner wants to run; an empty object: not asked yet.",
            examples=[{"essential_set": "standard", "target_hours": 24}],
        ),
    ]
    home: Annotated[
        Home | None, Meta(description="What is known of the home.", examples=[{"type": "house"}])
    ] = None
    equipment: Annotated[
        Equipment | None,
        Meta(description="What is planned beside the battery.", examples=[{"reserve_percent": 60}]),
    ] = None
    permit_date: (
        Annotated[
            str,
            text(
                "Day of the permit application, YYYY-MM-DD; absent: the release's default.",
                example="2026-11-01",
                min_length=10,
                max_length=10,
                pattern=_DAY,
            ),
        ]
        | None
    ) = None
