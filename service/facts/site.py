"""The site: where it is, what its owner wishes, what is known of home and equipment."""

from __future__ import annotations

from typing import Annotated, get_args

from msgspec import Meta, Struct

from service.facts.battery import Battery
from service.facts.equipment import Equipment
from service.facts.home import Home
from service.facts.hung_unit import DeratingCurve, HungUnit, OperatingLimits
from service.facts.inverter import Inverter
from service.facts.permit_date import PermitDate
from service.facts.place import Place
from service.facts.siting_unit import SitingSheet
from service.facts.transfer import ElectricalRuleId, SiteConfirmedRules, SitingRuleId
from service.facts.wishes import Wishes
from service.quantities.fields import SAFE_REFERENCE, text


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
    inverter: Annotated[
        Inverter | None,
        Meta(
            description="Its inverter by data sheet, for motor starts; absent: the battery's "
            "continuous power, and no surge rating.",
            examples=[{"continuous_a": 25, "surge": [{"seconds": 10, "amps": 37.5}]}],
        ),
    ] = None
    unit: Annotated[
        HungUnit | None,
        Meta(
            description="Size, colour and weight of one unit, for the heat; absent: not known.",
            examples=[{"width": 30, "height": 40, "depth": 8, "colour": "white"}],
        ),
    ] = None
    limits: Annotated[
        OperatingLimits | None,
        Meta(
            description="Temperatures that its data sheet allows; absent: not known.",
            examples=[{"highest": 122, "lowest": -4}],
        ),
    ] = None
    derating: DeratingCurve | None = None
    siting: Annotated[
        SitingSheet | None,
        Meta(
            description="What its data sheet, listing and instructions say of where it may hang; "
            "absent: not known.",
            examples=[{"listed": True, "energy": 13}],
        ),
    ] = None


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
    permit_date: PermitDate | None = None
    confirmed_rules: SiteConfirmedRules = []


def electrical_rules(site: Site) -> list[ElectricalRuleId]:
    """Return the confirmed rules of the electrical checks."""
    known: tuple[ElectricalRuleId, ...] = get_args(ElectricalRuleId)
    return [rule for rule in known if rule in site.confirmed_rules]


def siting_rules(site: Site) -> list[SitingRuleId]:
    """Return the confirmed rules on where storage may hang."""
    known: tuple[SitingRuleId, ...] = get_args(SitingRuleId)
    return [rule for rule in known if rule in site.confirmed_rules]
