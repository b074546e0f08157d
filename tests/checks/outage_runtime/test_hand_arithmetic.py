"""Hours and energies that a pencil gives: one case a line, its arithmetic beside it.

The base is 10 kWh, lossless, full, 5 kW, from 18:00 in winter; every case says what differs.
A-numbers: analytic cases of outage arithmetic, closed form (derived). Defaults and appliance rows:
common practice, no source, except where a case names one.
"""

import math
from typing import Any

import pytest

from tests.checks.outage_runtime.asking import (
    Body,
    answered,
    appliance,
    known,
    load,
    reading,
    window,
    without,
)

#: One way of a round trip of 0.90.
ED = math.sqrt(0.9)
LOSSES_90 = {"kind": "round_trip", "efficiency": 0.9, "idle_watts": 0}
LOSSES_90_30W = LOSSES_90 | {"idle_watts": 30}
IDLE_40W = {"kind": "round_trip", "efficiency": 1, "idle_watts": 40}
ONE_WAY = {"kind": "one_way", "charge_efficiency": 0.5, "discharge_efficiency": 0.96}
ONE_WAY_IDLE = ONE_WAY | {"idle_watts": 0}
CURVE = {
    "kind": "part_load",
    "rated_kw": 5,
    "efficiency_at_10_percent": 0.92,
    "efficiency_at_rated": 0.94,
    "cell_efficiency": 0.98,
}
#: Schmid curve through those points: p0 = (10/.92 - 1/.94 - 9)/99, k = 1/.94 - p0 - 1.
P0 = (10 / 0.92 - 1 / 0.94 - 9) / 99
K = 1 / 0.94 - P0 - 1


def kwh(number: float) -> Body:
    return {"kind": "usable", "kwh": number}


def nominal(number: float, depth: float) -> Body:
    return {"kind": "nominal", "kwh": number, "depth_of_discharge": depth}


def unit(kilowatt_hours: float = 10, **more: Any) -> Body:
    return {"energy": kwh(kilowatt_hours)} | more


IDLES = unit(losses={"kind": "round_trip", "efficiency": 1, "idle_watts": 2000})
ONE_KW = [load(1000)]
HALF_KW = [load(500)]
NEW, NEW_FULL = "typical/now/start", "typical/now/full"
AGED, AGED_FULL = "typical/end_of_warranty/start", "typical/end_of_warranty/full"
HIGH, LOW = "high/now/start", "low/now/start"
EVENING = {"hours_per_day": 6, "windows": window(17, 23)}
NIGHT = {"hours_per_day": 8, "windows": window(22, 6)}

HOURS: list[tuple[str, Body, str, float]] = [
    # what, request, reading, hours
    ("A01 constant load", known(ONE_KW, unit(12, losses=LOSSES_90)), NEW, 12 * ED / 1),
    ("A02 idle", known(ONE_KW, unit(12, losses=LOSSES_90_30W)), NEW, 12 / (1 / ED + 0.03)),
    ("A03 floor", known(ONE_KW, unit(12, losses=LOSSES_90, floor_percent=20)), NEW, 0.8 * 12 * ED),
    (
        # 41 degF = 5 degC, halfway between 0.85 at 0 degC and 0.95 at 10 degC.
        "A04 derated",
        known(
            [load(750)],
            {
                "energy": nominal(10, 0.95),
                "end_of_warranty_retention": 0.8,
                "ambient": 41,
                "losses": LOSSES_90,
            },
        ),
        AGED,
        10 * 0.95 * 0.80 * 0.90 * ED / 0.75,
    ),
    ("reserve is the start", known(HALF_KW, unit(reserve_percent=60)), NEW, 6 / 0.5),
    ("from full beside it", known(HALF_KW, unit(reserve_percent=60)), NEW_FULL, 10 / 0.5),
    ("reserve of nothing", known(HALF_KW, unit(reserve_percent=0)), NEW, 0),
    ("start stated", known(HALF_KW, unit(start_charge_percent=30)), NEW, 3 / 0.5),
    ("reserve assumed", without(known(HALF_KW), "reserve_percent"), NEW, 10 * 0.20 / 0.5),
    ("floor from the reserve", known(HALF_KW, unit(reserve_percent=60, floor_percent=10)), NEW, 10),
    ("floor above the reserve", known(HALF_KW, unit(reserve_percent=5, floor_percent=10)), NEW, 0),
    ("end of warranty", known(HALF_KW), AGED, 10 * 0.8 / 0.5),
    ("promise assumed", without(known(HALF_KW), "end_of_warranty_retention"), AGED, 7 / 0.5),
    ("full and aged", known(HALF_KW, unit(reserve_percent=50)), AGED_FULL, 10 * 0.8 / 0.5),
    ("half its warranty old", known(HALF_KW, unit(age_years=5)), NEW, 10 * 0.9 / 0.5),
    ("warranty just over", known(HALF_KW, unit(age_years=10)), NEW, 10 * 0.8 / 0.5),
    ("past its warranty", known(HALF_KW, unit(age_years=25)), NEW, 10 * 0.8 / 0.5),
    ("longer warranty", known(HALF_KW, unit(age_years=5, warranty_years=20)), NEW, 9.5 / 0.5),
    ("age leaves the end alone", known(HALF_KW, unit(age_years=5)), AGED, 10 * 0.8 / 0.5),
    ("depth of discharge", known(HALF_KW, {"energy": nominal(10, 0.9)}), NEW, 9 / 0.5),
    ("three units", known(HALF_KW, unit(count=3)), NEW, 30 / 0.5),
    ("idle of three units", known(ONE_KW, unit(count=3, losses=IDLE_40W)), NEW, 30 / 1.12),
    ("idle assumed", without(known(ONE_KW), "losses"), NEW, 10 / (1 / math.sqrt(0.85) + 0.04)),
    ("one way out", known(ONE_KW, unit(losses=ONE_WAY_IDLE)), NEW, 10 * 0.96),
    ("one way, idle assumed", known(ONE_KW, unit(losses=ONE_WAY)), NEW, 10 / (1 / 0.96 + 0.04)),
    # Energy against temperature (from memory, not verified): .70 .85 .95 1 at -10, 0, 10, 25 degC.
    ("14 degF", known(HALF_KW, unit(ambient=14)), NEW, 10 * 0.70 / 0.5),
    ("23 degF", known(HALF_KW, unit(ambient=23)), NEW, 10 * (0.70 + 0.85) / 2 / 0.5),
    ("32 degF", known(HALF_KW, unit(ambient=32)), NEW, 10 * 0.85 / 0.5),
    ("50 degF", known(HALF_KW, unit(ambient=50)), NEW, 10 * 0.95 / 0.5),
    ("131 degF", known(HALF_KW, unit(ambient=131)), NEW, 10 / 0.5),
    # Part load: at a tenth and at all of the rated power the two stated efficiencies come back.
    ("part load, a tenth", known(HALF_KW, unit(losses=CURVE)), NEW, 10 * 0.98 * 0.92 / 0.5),
    ("part load, rated", known([load(5000)], unit(losses=CURVE)), NEW, 10 * 0.98 * 0.94 / 5),
    (
        # Two units share the load: p = 2 / 10.
        "part load, two units",
        known([load(2000)], unit(losses=CURVE, count=2)),
        NEW,
        20 * 0.98 / (10 * (0.2 + P0 + K * 0.2**2)),
    ),
    # Mean power inside a window: watts x duty x hours / length of the window.
    ("duty", known([load(2000, duty=0.25)]), NEW, 10 / 0.5),
    ("pieces", known([load(100, quantity=5)]), NEW, 10 / 0.5),
    # A17: 600 W x 25 % and 50 W beside it: 200 W in the mean, 6 kWh.
    ("A17", known([load(600, duty=0.25), load(50)], unit(6)), NEW, 6 / 0.2),
    # 18 to 23 h takes 5 kWh; the other 5 kWh last from 17 to 22 h of the next day.
    ("evening window", known([load(1000, **EVENING)]), NEW, 28),
    # The same 6 kWh a day as 0.5 kW from 11 to 23 h: 20 hours of it end at 14 h two days on.
    ("half in use", known([load(1000, hours_per_day=6, windows=window(11, 23))]), NEW, 44),
    # 22 to 6 h takes 8 kWh, from 4 h after the start; 2 kWh last until midnight of the next day.
    ("window past midnight", known([load(1000, **NIGHT)]), NEW, 30),
    # 6.25 kWh until 6 h; the other 3.75 kWh begin at 22 h, 22.25 h after the start.
    ("start inside it", known([load(1000, **NIGHT)], start_hour=23.75), NEW, 22.25 + 3.75),
    # Two windows: 18-19 and 21-24 h take 4 kWh each evening; 2 kWh left at 21 h of the third.
    (
        "two windows",
        known([load(1000, hours_per_day=4, windows=window(18, 19) + window(21, 24))]),
        NEW,
        48 + 3 + 1,
    ),
    # Windows that overlap count once: 18-21 h at 1 kW.
    (
        "overlapping windows",
        known([load(1000, hours_per_day=3, windows=window(18, 20) + window(19, 21))]),
        NEW,
        24 * 3 + 1,
    ),
    ("low use", known([load(500, watts_low=250, watts_high=1000)]), LOW, 10 / 0.25),
    ("high use", known([load(500, watts_low=250, watts_high=1000)]), HIGH, 10 / 1.0),
    ("tier shed does not run", known([load(500), load(5000, tier="shed")]), NEW, 10 / 0.5),
    ("out of season", known([load(500), load(5000, season="summer")]), NEW, 10 / 0.5),
    # A11: 8 kW on 5 kW, in proportion: 5 kW is what is served.
    ("A11 proportional", known([load(8000)], power_limit_rule="proportional"), NEW, 10 / 5),
    ("overload trips", known([load(8000)]), NEW, 0),
    # 100 kWh / 0.4 kW, however much more is asked for.
    (
        "proportional, far over the limit",
        known(
            [load(10_000)],
            unit(100, continuous_kw=0.4),
            power_limit_rule="proportional",
            target_hours=336,
        ),
        NEW,
        250,
    ),
    # Heat: half the power at 131 degF, so that 3 kW is too much for 5 kW.
    ("heat trips", known([load(3000)], unit(ambient=131)), NEW, 0),
    # Refrigerator of the catalogue, typical: 150 W x 0.33; US DOE: a third of the time plugged in.
    ("refrigerator", known([appliance("refrigerator")], unit(4.95)), NEW, 4.95 / 0.0495),
    # Idle alone empties the cells in 10 / 2 h, long before the window: the circuits are dark then.
    ("idle", known([load(100, hours_per_day=1, windows=window(17, 18))], IDLES), NEW, 10 / 2),
    ("idle without load", known([load(0)], IDLES), NEW, 10 / 2),
]


@pytest.mark.parametrize("what, body, name, hours", HOURS, ids=[case[0] for case in HOURS])
def test_hours_to_dark(what: str, body: Body, name: str, hours: float) -> None:
    assert reading(answered(body), name).hours_to_dark == pytest.approx(hours, abs=1e-9), what
