"""Invented requests whose outage is a matter of the date, and years of weather made for tests."""

from functools import cache
from math import cos, pi, sin
from typing import Any

from tests.checks.outage_runtime.asking import UNIT, Body, known, load, window

HOURS = 8760
#: Where the invented years are said to be; local standard time is that of 120 degrees west.
NORTH: Body = {"latitude": 35.0, "longitude": -120.0, "utc_offset_hours": -8}
SOUTH: Body = {"latitude": -35.0, "longitude": -120.0, "utc_offset_hours": -8}
#: A unit that loses something both ways and in idling, all of it stated.
LOSSY: Body = UNIT | {
    "losses": {"kind": "round_trip", "efficiency": 0.81, "idle_watts": 40},
    "reserve_percent": 40,
    "charge_kw": 4,
    "split_phase": True,
}


def array(dc_kw: float = 5.0, **more: Any) -> Body:
    """Return an array without shade that faces south at 20 degrees, on the AC bus."""
    found: Body = {"dc_kw": dc_kw, "tilt": 20, "azimuth": 180, "coupling": "ac"}
    return found | {"inverter_kw": max(dc_kw / 1.2, 0.05), "shading_percent": 0} | more


def solar(*arrays: Body, **more: Any) -> Body:
    """Return solar on the backed-up side of which everything is known."""
    found: Body = {"arrays": list(arrays) or [array()], "backed_up": True}
    known_of_it: Body = {"system_losses_percent": 14, "temperature_coefficient": 0.4}
    return found | known_of_it | {"yield_factor": 1} | more


def site(name: str = "los_angeles_coast") -> Body:
    return {"kind": "site", "site": name}


def generator(**more: Any) -> Body:
    """Return a generator of 5 kW that joins, everything stated, on piped gas."""
    found: Body = {
        "rated_kw": 5,
        "usable_part": 1,
        "fuel": {
            "kind": "piped_gas",
            "full_load_ft3_per_hour": 100,
            "half_load_ft3_per_hour": 60,
        },
        "connection": "inverter_input",
        "start_percent": 20,
        "stop_percent": 80,
        "quality_class": "g2",
        "voltage_distortion_percent": 3,
    }
    return found | more


def cooling(**more: Any) -> Body:
    """Return a cooling unit of 2 kW of which everything is known."""
    found: Body = {"kind": "cooling", "size": {"kind": "rated", "kw": 2}, "indoor": 76}
    return found | {"design": 95, "extreme": 105} | more


def evening_loads() -> list[Body]:
    """Return 250 W all day, 600 W in the evening and 300 W in the morning of summer."""
    return [
        load(250),
        load(600, name="Evening", windows=window(17, 23), hours_per_day=6),
        load(300, name="Morning", windows=window(6, 10), hours_per_day=4, season="summer"),
    ]


def dated(**changes: Any) -> Body:
    """Return a request with solar of which everything is known; `changes` replace parts."""
    rest: Body = {"solar": solar(), "climate": site(), "starts_carried_percent": 100}
    rest |= {"dark_allowed": 0, "restart": {"mode": "none"}}
    unit = changes.pop("unit", {})
    rows = changes.pop("rows", None) or evening_loads()
    body = known(rows, LOSSY | unit, **(rest | {"target_hours": 24} | changes))
    return {name: value for name, value in body.items() if value is not None}


def season_open(body: Body) -> Body:
    return {name: value for name, value in body.items() if name != "season"}


@cache
def _invented(days_off: int, scale: float) -> tuple[tuple[float, ...], ...]:
    """Return sun and temperature of every hour: a smooth year with three dull days in December."""
    ghi, dni, dhi, air = [], [], [], []
    for hour in range(HOURS):
        day, of_day = divmod((hour - 24 * days_off) % HOURS, 24)
        season = cos(2 * pi * (day - 172) / 365)
        up = max(sin(pi * (of_day + 0.5 - 6) / 12), 0.0) if 6 <= of_day < 18 else 0.0
        clear = 0.1 if 340 <= day <= 342 else 0.75 + 0.25 * sin(day * 2.399)
        light = scale * up * clear * (0.7 + 0.25 * season)
        ghi.append(round(900 * light, 6))
        dni.append(round(500 * light, 6))
        dhi.append(round(300 * light, 6))
        swing = 6 * cos(2 * pi * (of_day - 15) / 24)
        air.append(round(16 + 9 * season + swing + 3 * sin(day * 1.7), 6))
    return tuple(ghi), tuple(dni), tuple(dhi), tuple(air)


def own_year(place: Body = NORTH, days_off: int = 0, scale: float = 1.0) -> Body:
    """Return an invented year of weather, rotated by whole days, its sun scaled."""
    names = ("ghi_w_m2", "dni_w_m2", "dhi_w_m2", "dry_bulb_degc")
    hours = dict(zip(names, map(list, _invented(days_off, scale)), strict=True))
    return {"kind": "own_year"} | place | hours


def metered(parts: int = 1, days_off: int = 0) -> list[float]:
    """Return an invented metered year of `parts` values an hour [W], rotated by whole days."""
    found = []
    for step in range(HOURS * parts):
        hour = (step / parts - 24 * days_off) % HOURS
        day, of_day = divmod(hour, 24)
        evening = 500 if 17 <= of_day < 22 else 0
        ripple = 90 * sin(of_day * 1.3) + 60 * cos(day * 0.9)
        found.append(round(400 + evening + ripple + 80 * (step % parts), 3))
    return found


def metered_use(parts: int = 1, days_off: int = 0, **more: Any) -> Body:
    use: Body = {"kind": "interval_profile", "watts": metered(parts, days_off)}
    return use | {"share_percent": 50, "low_factor": 0.8, "high_factor": 1.2} | more
