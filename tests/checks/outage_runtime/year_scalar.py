"""A request with everything stated, as the scalar reference of a year takes it.

Source: derived; the reference is tests/oracles/outage_year_reference.py.
"""

import math
from functools import cache
from typing import Any

import numpy as np

from service.climate import climate_sites, typical_year
from tests.checks.outage_runtime.asking import Body
from tests.checks.outage_runtime.quarters import covered
from tests.oracles import outage_year_reference as reference

LEVELS = ("low", "typical", "high")
TIERS = ("critical", "normal", "comfort")
_WATTS = {"low": "watts_low", "high": "watts_high"}


@cache
def place_of_site(name: str) -> reference.Place:
    """Return the published hours of a climate site: data, not a calculation of the service."""
    site, year = climate_sites()[name], typical_year(name)
    ghi, dni, dhi = (np.asarray(one).tolist() for one in (year.ghi, year.dni, year.dhi))
    return reference.Place(
        ghi,
        dni,
        dhi,
        air=(np.asarray(year.dry_bulb) - 273.15).tolist(),
        latitude=site.latitude_deg,
        longitude=site.longitude_deg,
        utc_offset=site.utc_offset_h,
    )


def place(body: Body) -> reference.Place | None:
    climate = body.get("climate")
    if climate is None:
        return None
    if climate["kind"] == "site":
        return place_of_site(climate["site"])
    return reference.Place(
        climate["ghi_w_m2"],
        climate["dni_w_m2"],
        climate["dhi_w_m2"],
        climate["dry_bulb_degc"],
        climate["latitude"],
        climate["longitude"],
        climate["utc_offset_hours"],
    )


def _row_days(row: Body, level: str) -> tuple[list[float], list[float]]:
    """Return the kW of a row by quarter hour of a summer and of a winter day."""
    watts = row.get(_WATTS.get(level, "watts"), row["watts"]) * row.get("quantity", 1)
    windows = [(w["start_hour"], w["end_hour"]) for w in row.get("windows", [])] or [(0.0, 24.0)]
    slots = covered(windows)
    mean = watts * row.get("duty", 1) * row.get("hours_per_day", 24) / (sum(slots) / 4) / 1e3
    day = [mean if inside else 0.0 for inside in slots]
    nothing, season = [0.0] * 96, row.get("season", "all")
    return (nothing if season == "winter" else day, nothing if season == "summer" else day)


def _hour_means(year: list[float]) -> list[float]:
    means = [sum(year[at : at + 4]) / 4 for at in range(0, len(year), 4)]
    return [mean for mean in means for _ in range(4)]


def by_charge(body: Body) -> bool:
    """Whether the answer says that it is followed through means of the hour."""
    return bool(body.get("load_control") or body.get("generator") or body.get("dark_allowed"))


def loads(body: Body, level: str) -> list[list[float]]:
    """Return the load by tier and quarter hour of the year [kW]."""
    quarters = reference.HOURS * 4
    found = [[0.0] * quarters for _ in TIERS]
    use = body["use"]
    if use["kind"] == "interval_profile":
        factor = {"low": use["low_factor"], "high": use["high_factor"]}.get(level, 1.0)
        factor *= use["share_percent"] / 100 / 1e3
        repeat = quarters // len(use["watts"])
        found[0] = [factor * watts for watts in use["watts"] for _ in range(repeat)]
    else:
        for row in use["rows"]:
            summer, winter = _row_days(row, level)
            tier = found[TIERS.index(row["tier"])]
            for quarter in range(quarters):
                month = reference.MONTH_OF_DAY[quarter // 96]
                tier[quarter] += (summer if month in reference.SUMMER else winter)[quarter % 96]
    weather = place(body)
    for unit in body.get("conditioning", []):
        assert weather is not None
        power = reference.conditioning_of_year(unit, weather.air, level)
        tier = found[TIERS.index(unit.get("tier", "critical"))]
        for quarter in range(quarters):
            tier[quarter] += power[quarter // 4]
    return [_hour_means(tier) for tier in found] if by_charge(body) else found


def sun(body: Body) -> tuple[list[float], list[float]]:
    weather = place(body)
    if weather is None or not body.get("solar"):
        return [0.0] * reference.HOURS, [0.0] * reference.HOURS
    return reference.sun_of_year(body["solar"], weather)


def on_bus(body: Body) -> bool:
    return any(
        array["coupling"] == "ac" and array["dc_kw"] > 0
        for array in body.get("solar", {}).get("arrays", [])
    )


def steps(body: Body, level: str, sunlight: tuple[list[float], list[float]]) -> Any:
    """Return the year as the reference walks it, everything critical without load control."""
    classes = loads(body, level)
    if "load_control" not in body:
        classes = [[sum(powers) for powers in zip(*classes, strict=True)]]
    quiet = [
        (window["start_hour"], window["end_hour"])
        for window in body.get("generator", {}).get("quiet_hours", [])
    ]
    return reference.year_steps(classes, *sunlight, quiet)


def _engine(body: Body, full: float) -> dict[str, Any] | None:
    found = body.get("generator")
    if found is None:
        return None
    fuel = found["fuel"]
    unit = "gal" if fuel["kind"] == "liquid" else "ft3"
    most, half = fuel[f"full_load_{unit}_per_hour"], fuel[f"half_load_{unit}_per_hour"]
    fixed = max(2 * half - most, 0)
    return {
        "power": found["rated_kw"] * found["usable_part"],
        "start": found["start_percent"] / 100 * full,
        "stop": found["stop_percent"] / 100 * full,
        "charge": found.get("charge_kw", math.inf),
        "tank": fuel.get("tank", math.inf),
        "refills": fuel.get("refills", 0),
        "fixed": fixed,
        "linear": (most - fixed) / found["rated_kw"],
    }


def may_come_back(body: Body) -> bool:
    """Whether anything brings the bus back: time in the dark is put up with only then."""
    return "generator" in body or body.get("restart", {"mode": "none"})["mode"] != "none"


def unit_of(body: Body, capacity: str, start: str) -> reference.Unit:
    """Return the battery: "now" or "end_of_warranty", from "start" or from "full"."""
    unit, count = body["battery"], body["battery"].get("count", 1)
    left = unit["end_of_warranty_retention"] if capacity == "end_of_warranty" else 1.0
    full = unit["energy"]["kwh"] * count * left
    control, restart = body.get("load_control"), body.get("restart", {"mode": "none"})
    tiers = []
    for tier in ("normal", "comfort") if control is not None else ():
        assert control is not None
        low = max(control[f"{tier}_shed_percent"] / 100, unit["floor_percent"] / 100) * full
        tiers.append((low, low + control["hysteresis_percent"] / 100 * full))
    one_way = math.sqrt(unit["losses"]["efficiency"])
    return reference.Unit(
        capacity=full,
        start=full if start == "full" else full * unit["reserve_percent"] / 100,
        floor=full * unit["floor_percent"] / 100,
        idle=unit["losses"]["idle_watts"] * count / 1e3,
        discharge=one_way,
        charge=one_way,
        limit=unit["continuous_kw"] * count,
        charge_limit=unit["charge_kw"] * count,
        tiers=tiers,
        restart={"none": "none", "pv_black_start": "bus", "dc_restart": "dc"}[restart["mode"]],
        restart_wait=restart.get("wait", 5) / 60,
        restart_least=restart.get("least_kw", 0),
        restart_energy=restart.get("restart_charge_percent", 15) / 100 * full,
        dark_allowed=body.get("dark_allowed", 0) if may_come_back(body) else 0.0,
        engine=_engine(body, full),
    )
