"""Invented leads that leave this or that open, for properties that hold for every site."""

from __future__ import annotations

from tests.assessment.sites import BATTERY, FRIDGE, HOME, PLAIN_BATTERY, Json, known_site, lead, put

_AIR = {"kind": "catalogue", "appliance": "ac_room_10k", "tier": "critical"}
_FURNACE = {"kind": "catalogue", "appliance": "gas_furnace_fan"}
_TWO = [
    {"id": "small", "battery": PLAIN_BATTERY},
    {"id": "large", "battery": {**PLAIN_BATTERY, "count": 3}},
]
#: One candidate ends sooner in summer by energy, the other in winter by power.
_SEASONS_APART = known_site(
    wishes={
        "target_hours": 12,
        "loads": [
            {
                "kind": "own",
                "name": "Heater in the evening",
                "watts": 3000,
                "hours_per_day": 2,
                "windows": [{"start_hour": 18, "end_hour": 20}],
                "season": "winter",
            },
            {"kind": "own", "name": "Cooling", "watts": 900, "season": "summer"},
        ],
    },
    candidates=[
        {"id": "weak", "battery": {**BATTERY, "energy": {"kind": "usable", "kwh": 40}}},
        {"id": "small", "battery": {**BATTERY, "energy": {"kind": "usable", "kwh": 8}}},
    ],
)
_SEASONS_APART["candidates"][0]["battery"]["continuous_kw"] = 2


def _edge(target_hours: float) -> Json:
    """Return a lead whose verdict hangs on the battery's assumed parameters."""
    return lead(
        wishes={"loads": [{**FRIDGE, "watts": 150, "duty": 0.33}], "target_hours": target_hours},
        home=HOME,
        candidates=[{"id": "one", "battery": {**PLAIN_BATTERY, "reserve_percent": 80}}],
    )


LEADS: dict[str, Json] = {
    "nothing stated": {
        "place": {"state": "CA"},
        "wishes": {},
        "candidates": [{"id": "one", "battery": PLAIN_BATTERY}],
    },
    "a refrigerator": lead(wishes={"loads": [FRIDGE], "target_hours": 24}),
    "a refrigerator in summer": lead(),
    "a usual set": lead(wishes={"essential_set": "bare", "target_hours": 12, "season": "winter"}),
    "the home is known": lead(home=HOME),
    "the home is known, large battery": lead(
        home=HOME, candidates=[{"id": "one", "battery": {**PLAIN_BATTERY, "count": 4}}]
    ),
    "no target": lead(home=HOME, wishes={"loads": [{"kind": "catalogue", "appliance": "tv"}]}),
    "no continuous power": lead(
        home=HOME, candidates=[{"id": "one", "battery": {"energy": {"kind": "usable", "kwh": 9}}}]
    ),
    "nominal energy, aged": lead(
        home=HOME,
        candidates=[
            {
                "id": "one",
                "battery": {
                    "energy": {"kind": "nominal", "kwh": 13},
                    "continuous_kw": 5,
                    "age_years": 4,
                    "losses": {"kind": "round_trip"},
                },
            }
        ],
    ),
    "one-way losses": lead(
        home=HOME,
        candidates=[
            {
                "id": "one",
                "battery": {
                    **PLAIN_BATTERY,
                    "start_charge_percent": 90,
                    "losses": {
                        "kind": "one_way",
                        "charge_efficiency": 0.95,
                        "discharge_efficiency": 0.95,
                    },
                },
            }
        ],
    ),
    "brought by the home": lead(
        home={**HOME, "well_pump": "v240", "sump_pump": "one", "internet": "keep_running"}
    ),
    "medical": lead(home={**HOME, "medical_equipment": "cpap"}),
    "ranges": lead(
        home={**HOME, "well_pump": {"as": "one_of", "values": ["v120", "v240"]}, "internet": None},
        equipment={"reserve_percent": {"as": "range", "low": 30, "likely": 60, "high": 90}},
    ),
    "coarse answers": lead(
        home={**HOME, "type": {"as": "unknown"}},
        equipment={"reserve_percent": {"as": "coarse", "answer": "mostly_full"}},
    ),
    "the bill alone": lead(
        wishes={"target_hours": 12, "season": "winter"},
        home={**HOME, "monthly_kwh": {"as": "coarse", "answer": "small"}},
    ),
    "load control": lead(
        wishes={
            "loads": [_AIR, _FURNACE, {"kind": "catalogue", "appliance": "tv"}],
            "target_hours": 8,
            "season": "summer",
        },
        home=HOME,
        equipment={
            "load_control": {
                "comfort_shed_percent": 50,
                "normal_shed_percent": 25,
                "hysteresis_percent": 10,
            }
        },
    ),
    "two candidates": lead(
        wishes={"loads": [_AIR, _FURNACE], "target_hours": 6}, home=HOME, candidates=_TWO
    ),
    "candidates apart by season": _SEASONS_APART,
    "on the edge of a pass": _edge(42),
    "on the edge of a failure": _edge(120),
    "almost within reach": _edge(130),
    "on the edge of a well pump": put(
        known_site(),
        ("/home/well_pump", None),
        ("/candidates/0/battery/energy/kwh", 26),
    ),
    "another state": lead(place={"state": "TX"}, home=HOME),
    "a flat": lead(home={**HOME, "type": "multi_family_unit"}),
    "everything known": known_site(),
}
