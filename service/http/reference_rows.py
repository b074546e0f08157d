"""The rows of the reference lists as the wire shows them."""

from __future__ import annotations

from typing import Annotated

from msgspec import Struct

from service.findings import AskBy
from service.quantities.fields import out, said


class DayWindow(Struct, kw_only=True, forbid_unknown_fields=True):
    """Hours of the day in which an appliance is in use."""

    start_hour: Annotated[float, out("h", "Local hour it starts.", example=17.0)]
    end_hour: Annotated[float, out("h", "Local hour it ends.", example=23.0)]


class ApplianceRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One appliance of the catalogue: defaults that a caller is meant to replace."""

    id: Annotated[str, said("Id to send as `appliance`.", example="refrigerator")]
    name: Annotated[str, said("What it is.", example="Refrigerator-freezer")]
    volts_v: Annotated[float, out("V", "Nominal voltage.", example=120.0)]
    run_w_low: Annotated[float, out("W", "Power while on, low end.", example=100.0)]
    run_w_typical: Annotated[float, out("W", "Power while on, typical.", example=150.0)]
    run_w_high: Annotated[float, out("W", "Power while on, high end.", example=725.0)]
    start_w: Annotated[
        float,
        out("W", "Whole power while starting; 0: no more than running.", example=1200.0),
    ]
    duty_low: Annotated[float, out("1", "Share of its hours it draws, low end.", example=0.25)]
    duty_typical: Annotated[float, out("1", "Share of its hours it draws.", example=0.33)]
    duty_high: Annotated[float, out("1", "Share of its hours it draws, high end.", example=0.5)]
    hours_per_day: Annotated[float, out("h", "Hours of use a day.", example=24.0)]
    windows: Annotated[
        list[DayWindow],
        said("Hours of the day it is in use.", example=[{"start_hour": 17.0, "end_hour": 23.0}]),
    ]
    tier: Annotated[
        str, said("Tier it starts in: critical, normal, comfort or shed.", example="critical")
    ]
    season: Annotated[str, said("Season it is in use: all, summer or winter.", example="all")]
    winter_factor: Annotated[float, out("1", "Factor on its hours of use in winter.", example=1.0)]
    has_motor: Annotated[bool, said("Whether it starts a motor.", example=True)]
    always_on: Annotated[bool, said("Whether it cycles or stays on all day.", example=True)]
    life_support: Annotated[bool, said("Whether it is a medical device.", example=False)]
    standing: Annotated[str, said("Weakest standing of its numbers.", example="common_practice")]
    source: Annotated[str, said("Id of its source.", example="appliances/refrigerator")]


class MotorRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One kind of motor: what stands in where its nameplate and its maker say nothing."""

    id: Annotated[str, said("Id to send as `kind` of a motor.", example="compressor_scroll")]
    name: Annotated[str, said("What it is.", example="scroll compressor")]
    locked_rotor_power_factor: Annotated[
        float, out("1", "Power factor at standstill.", example=0.66)
    ]
    running_power_factor: Annotated[float, out("1", "Power factor once it runs.", example=0.95)]
    locked_rotor_torque: Annotated[
        float, out("1", "Torque at standstill, by rated torque.", example=0.35)
    ]
    breakaway_torque: Annotated[
        float, out("1", "Torque of its load before it turns, by rated torque.", example=0.12)
    ]
    inertia_s: Annotated[
        float, out("s", "Inertia constant on its running input.", example=0.045, decimals=3)
    ]
    lra_over_rla_low: Annotated[
        float, out("1", "Locked-rotor by rated-load amps, low end.", example=4.5)
    ]
    lra_over_rla: Annotated[float, out("1", "Locked-rotor by rated-load amps.", example=6.0)]
    lra_over_rla_high: Annotated[
        float, out("1", "Locked-rotor by rated-load amps, high end.", example=6.5)
    ]
    soft_startable: Annotated[bool, said("Whether a soft starter may be fitted.", example=True)]
    standing: Annotated[str, said("Standing of its numbers.", example="derived")]
    source: Annotated[str, said("Id of its source.", example="motor_kinds/compressor_scroll")]


class ClimateSiteRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One place with a typical year."""

    id: Annotated[str, said("Id to send as a climate site.", example="fresno")]
    name: Annotated[str, said("Place it stands for.", example="Fresno")]
    state: Annotated[str, said("Two letters of the state.", example="CA")]
    latitude_deg: Annotated[
        float, out("deg", "Latitude, north positive.", example=36.783, decimals=3)
    ]
    longitude_deg: Annotated[
        float, out("deg", "Longitude, east positive.", example=-119.717, decimals=3)
    ]
    elevation_ft: Annotated[
        float, out("ft", "Elevation above sea level.", example=335.0, decimals=0)
    ]
    utc_offset_h: Annotated[float, out("h", "Local standard time less UTC.", example=-8.0)]
    climate_zone: Annotated[
        int | None,
        said("Building climate zone of California; null: in another state.", example=13),
    ]
    climate_zone_standing: Annotated[
        str | None,
        said(
            "How well the zone is known; from_memory: not for code compliance.",
            example="secondary",
        ),
    ]
    terrain: Annotated[
        str, said("Lie of the land about it, a class of our own.", example="central_valley")
    ]
    hot_hour_degf: Annotated[
        float,
        out("degF", "Temperature that 0.4 % of its hours pass.", example=102.0, decimals=1),
    ]
    cold_hour_degf: Annotated[
        float,
        out("degF", "Temperature that 99.6 % of its hours pass.", example=30.9, decimals=1),
    ]
    not_observed_percent: Annotated[
        float,
        out("%", "Share of its temperatures that was filled in.", example=0.0, decimals=1),
    ]
    notes: Annotated[
        str, said("What is odd in its data; empty: nothing.", example="4 h with DHI above GHI")
    ]
    standing: Annotated[str, said("Standing of its hours.", example="published")]
    source: Annotated[str, said("Id of its source.", example="climate_sites/fresno")]


class CodeEditionRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One edition of a code, and where and when it applies."""

    id: Annotated[str, said("Id of the edition.", example="ca-2025")]
    title: Annotated[
        str,
        said("What it is called.", example="2025 California Building Standards Code, Title 24"),
    ]
    jurisdiction: Annotated[
        str, said("Two letters of a state, or `model` for the model codes.", example="CA")
    ]
    county: Annotated[str, said("County; empty: all of them.", example="")]
    city: Annotated[str, said("City; empty: all of them.", example="")]
    electrical: Annotated[str, said("Electrical code it amends.", example="nec-2023")]
    residential: Annotated[str, said("Residential code it amends.", example="irc-2024")]
    fire: Annotated[str, said("Fire code it amends.", example="ifc-2024")]
    valid_from: Annotated[str, said("First permit date it governs.", example="2026-01-01")]
    valid_to: Annotated[
        str | None, said("Last permit date; null: none is known.", example="2028-12-31")
    ]
    standing: Annotated[str, said("Weakest standing of the row.", example="derived")]
    source: Annotated[str, said("Id of its source.", example="code_editions/ca-2025")]


class UnitRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One unit that a text may carry: value in SI = value x factor + offset."""

    unit: Annotated[str, said("Its name in the contract.", example="kWh")]
    dimension: Annotated[str, said("What it measures.", example="energy")]
    spellings: Annotated[
        list[str],
        said("How a text may write it; none: bare numbers only.", example=["kWh", "kwh"]),
    ]
    si_unit: Annotated[str, said("SI unit of the dimension.", example="J")]
    factor: Annotated[float, out("1", "Factor to SI.", example=3_600_000.0, decimals=12)]
    offset: Annotated[float, out("1", "Offset to SI, in the SI unit.", example=0.0, decimals=12)]


class IdRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One id that an answer can carry."""

    id: Annotated[str, said("The id.", example="no-criterion-stated")]
    kind: Annotated[str, said("rule, reason, caution, alternative or problem.", example="rule")]
    meaning: Annotated[str, said("What it says.", example="The request states no criterion.")]


class CheckRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One operation of the service."""

    id: Annotated[str, said("Its id.", example="outage-runtime")]
    title: Annotated[str, said("Its title.", example="Outage runtime")]
    path: Annotated[str, said("Path to POST to.", example="/v1/outage-runtime")]
    includes: Annotated[
        list[str], said("Values that `include` takes.", example=["working", "series"])
    ]
    composed: Annotated[bool, said("Whether the site assessment runs it.", example=True)]
    facts_read: Annotated[
        list[str], said("Site facts that can move its answer.", example=["/monthly_kwh"])
    ]
    after: Annotated[list[str], said("Checks whose answers it takes.", example=[])]


class CoarseRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One coarse answer and the range it stands for."""

    answer: Annotated[str, said("The answer to send.", example="medium")]
    low: Annotated[
        float, out("in `unit`", "Lowest value it stands for.", example=500.0, decimals=4)
    ]
    high: Annotated[
        float, out("in `unit`", "Highest value it stands for.", example=1000.0, decimals=4)
    ]


class FactRow(Struct, kw_only=True, forbid_unknown_fields=True):
    """One fact of a site: how to ask for it, and what answers it takes."""

    pointer: Annotated[
        str,
        said(
            "JSON Pointer in a site-assessment request; `*` stands for the index in a list.",
            example="/monthly_kwh",
        ),
    ]
    question: Annotated[
        str, said("The question in plain words.", example="What does the bill show a month?")
    ]
    description: Annotated[str, said("What the value is.", example="Energy bought in a month.")]
    ask_by: Annotated[AskBy, said("How the answer can be had.", example="telephone")]
    who_answers: Annotated[
        str, said("Who can answer: owner, installer, utility or maker.", example="owner")
    ]
    value: Annotated[
        str, said("number, whole_number, yes_no, choice, text or object.", example="number")
    ]
    choices: Annotated[list[str], said("Values of a choice.", example=[])]
    unit: Annotated[str | None, said("Unit of a bare number; null: none.", example="kWh")]
    minimum: Annotated[
        float | None, out("in `unit`", "Lowest number; null: none.", example=0.0, decimals=4)
    ]
    maximum: Annotated[
        float | None,
        out("in `unit`", "Highest number; null: none.", example=20_000.0, decimals=4),
    ]
    coarse_answers: Annotated[
        list[CoarseRow],
        said(
            "Coarse answers it takes.",
            example=[{"answer": "medium", "low": 500.0, "high": 1000.0}],
        ),
    ]
    photograph: Annotated[str | None, said("What to photograph; null: nothing.", example=None)]
