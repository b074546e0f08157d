"""Random sites inside the contract."""

from __future__ import annotations

from typing import Any

from hypothesis import strategies as st

from service.facts.equipment import CHARGES
from service.facts.home import BILL_SIZES
from service.published.appliances import APPLIANCE_IDS
from service.published.class_day_shapes import class_ids
from service.published.essential_sets import essential_sets
from tests.assessment.sites import HOME, Json

Drawn = st.SearchStrategy[Any]


def _numbers(low: float, high: float) -> st.SearchStrategy[float]:
    """Draw a number with two decimals, its ends among the likeliest."""
    inside = st.integers(round(low * 100), round(high * 100)).map(lambda value: value / 100)
    return st.one_of(inside, st.sampled_from([low, high]))


def _range(numbers: st.SearchStrategy[float]) -> Drawn:
    def told(three: list[float]) -> Json:
        low, likely, high = sorted(three)
        return {"as": "range", "low": low, "likely": likely, "high": high}

    return st.lists(numbers, min_size=3, max_size=3).map(told)


def _fact(bare: Drawn, coarse: list[str] | None = None, *, ranged: bool = False) -> Drawn:
    forms: list[Drawn] = [
        bare,
        st.lists(bare, min_size=1, max_size=3).map(
            lambda values: {"as": "one_of", "values": values}
        ),
        st.sampled_from([None, {"as": "unknown"}]),
    ]
    if coarse:
        forms.append(st.sampled_from(coarse).map(lambda told: {"as": "coarse", "answer": told}))
    if ranged:
        forms.append(_range(bare))
    return st.one_of(forms)


_TIERS = st.sampled_from(["critical", "normal", "comfort", "shed"])
_CATALOGUE = st.fixed_dictionaries(
    {"kind": st.just("catalogue"), "appliance": st.sampled_from(APPLIANCE_IDS)},
    optional={
        "quantity": st.integers(1, 3),
        "watts": _numbers(0, 8000),
        "tier": _TIERS,
        "life_support": st.booleans(),
    },
)
_OWN = st.fixed_dictionaries(
    {
        "kind": st.just("own"),
        "name": st.sampled_from(["Lamp", "Fan", "Loom"]),
        "watts": _numbers(0, 5000),
    },
    optional={
        "tier": _TIERS,
        "season": st.sampled_from(["all", "summer", "winter"]),
        "duty": _numbers(0, 1),
        "hours_per_day": _numbers(0, 24),
        "life_support": st.booleans(),
    },
)
_WISHES = st.fixed_dictionaries(
    {},
    optional={
        "loads": st.lists(st.one_of(_CATALOGUE, _OWN), min_size=1, max_size=4),
        "essential_set": st.sampled_from(sorted(essential_sets())),
        "target_hours": _numbers(0.25, 96),
        "target_tier": st.sampled_from(["critical", "normal", "comfort"]),
        "start_hour": _numbers(0, 23.75),
        "season": st.sampled_from(["summer", "winter"]),
    },
)
_HOME = st.fixed_dictionaries(
    {},
    optional={
        "type": _fact(
            st.sampled_from(["house", "house", "townhouse", "accessory_unit", "multi_family_unit"])
        ),
        "monthly_kwh": _fact(_numbers(1, 20_000), sorted(BILL_SIZES), ranged=True),
        "home_class": st.sampled_from(sorted(class_ids())),
        "medical_equipment": _fact(st.sampled_from(["none", "none", "cpap", "oxygen", "other"])),
        "medical_plan": st.sampled_from([{}, {"second_plan": True}, {"utility_programme": False}]),
        "well_pump": _fact(st.sampled_from(["none", "v120", "v240"])),
        "well_pump_watts": _fact(_numbers(50, 10_000), ranged=True),
        "sump_pump": _fact(st.sampled_from(["none", "one"])),
        "internet": _fact(st.sampled_from(["keep_running", "leave_off"])),
    },
)
_CONTROL = st.fixed_dictionaries(
    {
        "comfort_shed_percent": _numbers(0, 100),
        "normal_shed_percent": _numbers(0, 100),
        "hysteresis_percent": _numbers(1, 50),
    }
)
_EQUIPMENT = st.fixed_dictionaries(
    {},
    optional={
        "reserve_percent": _fact(_numbers(0, 100), sorted(CHARGES), ranged=True),
        "load_control": _CONTROL,
        "power_limit_rule": st.sampled_from(["shed_tiers", "proportional"]),
    },
)
_ENERGY = st.one_of(
    st.fixed_dictionaries({"kind": st.just("usable"), "kwh": _numbers(0.1, 80)}),
    st.fixed_dictionaries(
        {"kind": st.just("nominal"), "kwh": _numbers(0.1, 80)},
        optional={"depth_of_discharge": _numbers(0.1, 1)},
    ),
)
_LOSSES = st.one_of(
    st.fixed_dictionaries(
        {"kind": st.just("round_trip")},
        optional={"efficiency": _numbers(0.3, 1), "idle_watts": _numbers(0, 200)},
    ),
    st.fixed_dictionaries(
        {
            "kind": st.just("one_way"),
            "charge_efficiency": _numbers(0.3, 1),
            "discharge_efficiency": _numbers(0.3, 1),
        },
        optional={"idle_watts": _numbers(0, 200)},
    ),
    st.fixed_dictionaries(
        {
            "kind": st.just("part_load"),
            "rated_kw": _numbers(0.1, 20),
            "efficiency_at_10_percent": _numbers(0.85, 0.97),
            "efficiency_at_rated": _numbers(0.85, 0.97),
            "cell_efficiency": _numbers(0.5, 1),
        }
    ),
)
_BATTERY = st.fixed_dictionaries(
    {"energy": _ENERGY},
    optional={
        "count": st.integers(1, 20),
        "continuous_kw": _numbers(0.05, 20),
        "split_phase": st.sampled_from([None, False, True, True]),
        "charge_kw": _numbers(0.05, 20),
        "losses": _LOSSES,
        "reserve_percent": _numbers(0, 100),
        "start_charge_percent": _numbers(0, 100),
        "floor_percent": _numbers(0, 50),
        "ambient": _numbers(14, 131),
        "age_years": _numbers(0, 30),
        "warranty_years": _numbers(1, 30),
        "end_of_warranty_retention": _numbers(0.3, 1),
    },
)
_CANDIDATES = st.lists(_BATTERY, min_size=1, max_size=2).map(
    lambda found: [{"id": f"c{place}", "battery": battery} for place, battery in enumerate(found)]
)

#: A site inside the contract, any fact of it in any form.
SITES: st.SearchStrategy[Json] = st.fixed_dictionaries(
    {
        "place": st.sampled_from([{"state": "CA"}, {"state": "CA"}, {"state": "TX"}]),
        "wishes": _WISHES,
        "home": st.one_of(_HOME, _HOME.map(lambda stated: {**HOME, **stated}), st.just(HOME)),
        "candidates": st.one_of(_CANDIDATES, _CANDIDATES, st.none()),
    },
    optional={
        "equipment": _EQUIPMENT,
        "permit_date": st.sampled_from(["2026-11-01", "2019-05-05"]),
    },
)
