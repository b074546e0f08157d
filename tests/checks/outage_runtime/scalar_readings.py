"""The readings of a request worked out anew: own slots, own battery, the scalar event reference.

Nothing of the check is used but its tables of numbers. Windows lie on quarter hours, so that a day
is 96 slots of constant mean power; the outage is followed slot by slot.

Source: derived; the step rule is that of tests/oracles/outage_event_reference.py. The defaults are
those of table outage_defaults: common practice, no source.
"""

import math
from collections.abc import Sequence
from itertools import groupby, pairwise
from typing import Any, NamedTuple

from service.published import load as table
from service.published.appliances import parse_windows
from tests.checks.outage_runtime.asking import Body
from tests.checks.outage_runtime.quarters import SLOTS, covered, hours_covered
from tests.checks.outage_runtime.reruns import tier_of
from tests.oracles.outage_event_reference import Course, Home, Interval, follow

TIERS = ("critical", "normal", "comfort", "shed")
WEEK = 168.0
MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
#: Part of its energy that a cell gives, by degrees Celsius; from memory, not verified.
COLD = ((-10.0, 0.70), (0.0, 0.85), (10.0, 0.95), (25.0, 1.0))
#: Kilowatts of a tier in each slot of a day.
Day = list[float]


class Found(NamedTuple):
    """Hours of one reading; a tier's are None where it has no row."""

    dark: float
    at_least: bool
    normal: float
    comfort: float
    ended_by: str


def _spread(kilowatt_hours: float, windows: Sequence[tuple[float, float]]) -> Day:
    slots = covered(windows)
    return [4 * kilowatt_hours / sum(slots) if inside else 0.0 for inside in slots]


def _own_day(row: Body, level: str, season: str) -> Day:
    watts = row.get({"low": "watts_low", "high": "watts_high"}.get(level, "watts"), row["watts"])
    windows = [(w["start_hour"], w["end_hour"]) for w in row.get("windows", [])] or [(0.0, 24.0)]
    energy = watts * row.get("quantity", 1) * row.get("duty", 1) * row.get("hours_per_day", 24)
    return _spread(energy / 1e3 * (row.get("season", "all") in ("all", season)), windows)


def _catalogue_day(row: Body, level: str, season: str) -> Day:
    cells = table("appliances").row(row["appliance"])
    column = {"low": "low", "typical": "typ", "high": "high"}[level]
    watts = row.get("watts", float(cells[f"run_w_{column}"]))
    duty = row.get("duty", float(cells[f"duty_{column}"]))
    hours = row.get("hours_per_day", float(cells["hours_per_day"]))
    windows = [(w["start_hour"], w["end_hour"]) for w in row.get("windows", [])]
    if windows:
        hours = min(hours, hours_covered(windows))
    else:
        usual = list(parse_windows(cells["window_local"]))
        windows = usual if hours <= hours_covered(usual) else [(0.0, 24.0)]
    if season == "winter":
        hours = min(hours * float(cells["season_factor_winter"]), hours_covered(windows))
    runs = cells["season"] in ("all", season)
    return _spread(watts * duty * hours * row.get("quantity", 1) / 1e3 * runs, windows)


def _hourly(watts: Sequence[float], factor: float) -> Day:
    return [watts[slot // 4] * factor / 1e3 for slot in range(SLOTS)]


def _bill_day(use: Body, level: str, season: str) -> Day:
    """Scale the shape of the season's heaviest month to what the bill says of that month."""
    name = use.get("home_class", "inland_single_family")
    shapes = [table("class_day_shapes").row(f"{name}/{month}") for month in range(1, 13)]
    hourly = [[float(row[f"h{hour:02d}"]) for hour in range(24)] for row in shapes]
    bill = use["monthly_kwh"]
    if not isinstance(bill, list):
        of_class = [days * sum(day) for days, day in zip(MONTH_DAYS, hourly, strict=True)]
        bill = [12 * bill * part / sum(of_class) for part in of_class]
    months = range(4, 10) if season == "summer" else (0, 1, 2, 3, 10, 11)
    heaviest = max(months, key=lambda month: bill[month] / MONTH_DAYS[month])
    daily = bill[heaviest] / MONTH_DAYS[heaviest] * use.get("share_percent", 100) / 100
    watts = [1e3 * daily * part / sum(hourly[heaviest]) for part in hourly[heaviest]]
    return _hourly(watts, {"low": 0.6, "typical": 1.0, "high": 1.6}[level])


def _tier_days(body: Body, level: str, season: str) -> list[Day]:
    use = body["use"]
    days: list[Day] = [[0.0] * SLOTS for _ in TIERS]
    if use["kind"] == "monthly_kwh":
        days[0] = _bill_day(use, level, season)
    elif use["kind"] == "day_profile":
        factor = {"low": use.get("low_factor", 0.8), "high": use.get("high_factor", 1.2)}
        for tier, name in enumerate(TIERS[:3]):
            days[tier] = _hourly(use.get(name) or [0.0] * 24, factor.get(level, 1.0))
    else:
        for row in use["rows"]:
            day = (_own_day if row["kind"] == "own" else _catalogue_day)(row, level, season)
            at = TIERS.index(tier_of(row))
            days[at] = [a + b for a, b in zip(days[at], day, strict=True)]
    return days[:3]


def intervals(body: Body, level: str, season: str, hours: float) -> list[Interval]:
    """Return the outage in intervals of constant power, quarter hours that are alike put together.

    Without load control everything hangs on the bus like a critical load.
    """
    days = _tier_days(body, level, season)
    by_slot = list(zip(*days, strict=True))
    if "load_control" not in body:
        by_slot = [(sum(powers), 0.0, 0.0) for powers in by_slot]
    first = round(body.get("start_hour", 18) * 4)
    walked = [by_slot[(first + step) % SLOTS] for step in range(math.ceil(hours * 4))]
    spans: list[Interval] = [
        (len(list(same)) / 4, list(powers), 0, 0) for powers, same in groupby(walked)
    ]
    spans[-1] = (spans[-1][0] - (len(walked) / 4 - hours), *spans[-1][1:])
    return spans


def _cold_factor(celsius: float) -> float:
    if celsius <= COLD[0][0]:
        return COLD[0][1]
    for (cold, less), (warm, more) in pairwise(COLD):
        if celsius <= warm:
            return less + (more - less) * (celsius - cold) / (warm - cold)
    return 1.0


def _draw(losses: Body, count: int) -> dict[str, Any]:
    """Return the draw on the cells: fixed [kW], linear [1] and square [1/kW] in AC power."""
    if losses["kind"] == "part_load":
        rated, cells = losses["rated_kw"] * count, losses["cell_efficiency"]
        low, full = 1 / losses["efficiency_at_10_percent"], 1 / losses["efficiency_at_rated"]
        constant = (10 * low - full - 9) / 99
        bend = (full - constant - 1) / rated
        return {"fixed": constant * rated / cells, "linear": 1 / cells, "square": bend / cells}
    idle = losses.get("idle_watts", 40) * count / 1e3
    if losses["kind"] == "one_way":
        return {"fixed": idle, "linear": 1 / losses["discharge_efficiency"]}
    return {"fixed": idle, "linear": 1 / math.sqrt(losses.get("efficiency", 0.85))}


def home(body: Body, capacity: str, start: str) -> Home:
    """Return the battery of a reading: "now" or "end_of_warranty", "start" or "full"."""
    unit = body["battery"]
    energy, count = unit["energy"], unit.get("count", 1)
    retention = unit.get("end_of_warranty_retention", 0.7)
    worn = min(unit.get("age_years", 0) / unit.get("warranty_years", 10), 1)
    left = retention if capacity == "end_of_warranty" else 1 - worn * (1 - retention)
    celsius = (unit.get("ambient", 77) - 32) / 1.8
    depth = energy.get("depth_of_discharge", 0.95) if energy["kind"] == "nominal" else 1
    full = energy["kwh"] * depth * count * left * _cold_factor(celsius)
    charge = unit.get("start_charge_percent", unit.get("reserve_percent", 20)) / 100
    limit = unit.get("continuous_kw")
    heat = 1 - min(max(celsius - 45, 0), 10) / 20
    control = body.get("load_control", {})
    tiers = []
    for tier in TIERS[1:3]:
        at = control.get(f"{tier}_shed_percent", 0) / 100
        low = max(at * full, unit.get("floor_percent", 0) / 100 * full)
        tiers.append((low, low + control.get("hysteresis_percent", 100) / 100 * full))
    return Home(
        capacity=full,
        start=full if start == "full" else full * charge,
        floor=full * unit.get("floor_percent", 0) / 100,
        discharge_limit=None if limit is None else limit * count * heat,
        tiers=tiers,
        proportional=body.get("power_limit_rule") == "proportional",
        **_draw(unit.get("losses", {"kind": "round_trip"}), count),
    )


def _trip(spans: list[Interval], battery: Home) -> float:
    """Return when critical load alone passes the continuous power, so that the inverter trips."""
    limit, time = battery.discharge_limit, 0.0
    if limit is None or battery.proportional:
        return math.inf
    for hours, powers, *_ in spans:
        if powers[0] > limit * (1 + 1e-12):
            return time
        time += hours
    return math.inf


def _first(*times: Any) -> float:
    return min((float(time) for time in times if time is not None), default=math.inf)


def found(body: Body, name: str, season: str) -> Found:
    """Return the hours of the reading of a name like "typical/now/full"."""
    level, capacity, start = name.split("/")
    horizon = max(WEEK, body.get("target_hours", 0))
    battery = home(body, capacity, start)
    spans = intervals(body, level, season, horizon)
    course: Course = follow(spans, battery)
    lost, tripped = _first(course.first_loss), _trip(spans, battery)
    dark = min(lost, tripped, horizon)
    normal, comfort = (
        min(_first(course.first_off_energy[k], course.first_off_power[k]), dark) for k in (0, 1)
    )
    ended = "nothing" if min(lost, tripped) >= horizon else "energy" if lost <= tripped else "power"
    return Found(dark, ended == "nothing", normal, comfort, ended)
