"""Pseudo-random requests inside the contract, drawn as a caller might write them."""

import random
from typing import Any

from service.published import load as table
from tests.checks.outage_runtime.asking import Body
from tests.checks.outage_runtime.quarters import hours_covered

APPLIANCES = tuple(table("appliances").rows)
TIERS = ("critical", "normal", "comfort")
CLASSES = tuple(dict.fromkeys(key.split("/")[0] for key in table("class_day_shapes").rows))


def _maybe(draw: random.Random, share: float, **fields: Any) -> Body:
    return fields if draw.random() < share else {}


def _windows(draw: random.Random) -> list[Body]:
    return [
        {"start_hour": draw.randrange(96) / 4, "end_hour": draw.randrange(1, 97) / 4}
        for _ in range(draw.randint(1, 2))
    ]


def _use_hours(draw: random.Random, windows: list[Body]) -> float:
    fits = hours_covered((w["start_hour"], w["end_hour"]) for w in windows)
    return draw.choice([fits, fits / 2, fits / 5])


def _own(draw: random.Random, number: int) -> Body:
    watts = draw.choice([0, 5, 60, 300, 1000, 2500]) * draw.uniform(0.5, 1.5)
    row: Body = {"kind": "own", "name": f"Load {number}", "watts": watts}
    row |= {"tier": draw.choice([*TIERS, *TIERS, "shed"])} | _maybe(draw, 0.2, volts=120)
    row |= _maybe(draw, 0.1, volts=240)
    row |= {"season": draw.choice(["all", "all", "summer", "winter"])}
    row |= {"duty": draw.choice([1, 1, 0.3]), "quantity": draw.choice([1, 1, 3])}
    row |= _maybe(draw, 0.4, watts_low=watts * 0.6) | _maybe(draw, 0.5, watts_high=watts * 1.7)
    row |= _maybe(draw, 0.2, starting_watts=watts * 4)
    if draw.random() < 0.6:
        windows = _windows(draw)
        row |= {"windows": windows, "hours_per_day": _use_hours(draw, windows)}
    return row


def _catalogue(draw: random.Random) -> Body:
    row: Body = {"kind": "catalogue", "appliance": draw.choice(APPLIANCES)}
    row |= _maybe(draw, 0.2, quantity=draw.randint(1, 3))
    row |= _maybe(draw, 0.3, watts=draw.uniform(10, 2000)) | _maybe(draw, 0.2, duty=draw.random())
    row |= _maybe(draw, 0.3, tier=draw.choice([*TIERS, "shed"]))
    row |= _maybe(draw, 0.1, volts=draw.choice([120, 240]))
    row |= {"life_support": draw.random() < 0.04}
    if draw.random() < 0.25:
        row["windows"] = _windows(draw)
        row |= _maybe(draw, 0.5, hours_per_day=_use_hours(draw, row["windows"]))
    return row | _maybe(draw, 0.0 if "windows" in row else 0.2, hours_per_day=draw.uniform(0, 24))


def loads(draw: random.Random) -> Body:
    """Return chosen loads; the first is critical and on all day, so that darkness is missed."""
    always: Body = {"kind": "own", "name": "Always", "watts": draw.uniform(20, 800)}
    rows = [always | {"tier": "critical"}]
    for number in range(draw.randint(0, 7)):
        rows.append(_own(draw, number) if draw.random() < 0.5 else _catalogue(draw))
    return {"kind": "loads", "rows": rows}


def _profile(draw: random.Random) -> Body:
    def day(most: float) -> list[float]:
        return [draw.uniform(20, most) for _ in range(24)]

    use: Body = {"kind": "day_profile", "critical": day(900)}
    use |= _maybe(draw, 0.5, normal=day(900)) | _maybe(draw, 0.5, comfort=day(2000))
    return use | _maybe(draw, 0.5, low_factor=0.5, high_factor=2)


def _bill(draw: random.Random) -> Body:
    months = [draw.uniform(100, 1500) for _ in range(12)]
    use: Body = {"kind": "monthly_kwh", "monthly_kwh": draw.choice([months, months[0]])}
    use |= _maybe(draw, 0.5, home_class=draw.choice(CLASSES))
    return use | _maybe(draw, 0.5, share_percent=draw.uniform(5, 100))


def _losses(draw: random.Random) -> Body:
    idle = _maybe(draw, 0.5, idle_watts=draw.uniform(0, 100))
    round_trip: Body = {"kind": "round_trip"} | idle
    round_trip |= _maybe(draw, 0.5, efficiency=draw.uniform(0.7, 1))
    one_way = {"kind": "one_way", "charge_efficiency": 0.95, "discharge_efficiency": 0.93} | idle
    curve = {"kind": "part_load", "rated_kw": draw.uniform(2, 10), "cell_efficiency": 0.97}
    curve |= {"efficiency_at_10_percent": draw.uniform(0.86, 0.96), "efficiency_at_rated": 0.94}
    return draw.choice([round_trip, round_trip, one_way, curve])


def battery(draw: random.Random) -> Body:
    kwh = draw.uniform(1, 60)
    nominal: Body = {"kind": "nominal", "kwh": kwh}
    nominal |= _maybe(draw, 0.5, depth_of_discharge=0.9)
    unit: Body = {"energy": draw.choice([nominal, {"kind": "usable", "kwh": kwh}])}
    unit |= _maybe(draw, 0.5, count=draw.randint(1, 4)) | _maybe(draw, 0.7, losses=_losses(draw))
    unit |= _maybe(draw, 0.8, continuous_kw=draw.choice([0.5, 2, 5, 12]) * draw.uniform(0.5, 1.5))
    unit |= _maybe(draw, 0.7, reserve_percent=draw.uniform(0, 100))
    unit |= _maybe(draw, 0.2, start_charge_percent=draw.uniform(0, 100))
    unit |= _maybe(draw, 0.5, floor_percent=draw.uniform(0, 20))
    unit |= _maybe(draw, 0.5, ambient=draw.uniform(14, 131))
    unit |= _maybe(draw, 0.5, age_years=draw.uniform(0, 11))
    unit |= _maybe(draw, 0.7, split_phase=draw.random() < 0.8)
    unit |= _maybe(draw, 0.5, warranty_years=draw.uniform(5, 15))
    return unit | _maybe(draw, 0.5, end_of_warranty_retention=draw.uniform(0.5, 0.9))


def request(
    draw: random.Random, load_control: bool | None = None, only_loads: bool = False
) -> Body:
    """Return one request; `load_control` states or leaves it out, None draws that too."""
    kinds = [loads, loads, loads, _profile, _bill]
    use = loads(draw) if only_loads else draw.choice(kinds)(draw)
    body: Body = {"use": use, "battery": battery(draw)}
    if load_control or (load_control is None and draw.random() < 0.4):
        shed = {f"{tier}_shed_percent": draw.uniform(0, 90) for tier in ("comfort", "normal")}
        body["load_control"] = shed | {"hysteresis_percent": draw.uniform(5, 30)}
    hours = draw.choice([draw.uniform(0.25, 12), draw.uniform(1, 72), draw.uniform(24, 336)])
    body |= _maybe(draw, 0.85, target_hours=round(hours * 4) / 4 + 0.25 if hours < 335 else hours)
    body |= _maybe(draw, 0.3, target_tier=draw.choice(["critical", "normal", "comfort"]))
    body |= _maybe(draw, 0.7, start_hour=draw.randrange(96) / 4)
    body |= _maybe(draw, 0.5, season=draw.choice(["summer", "winter"]))
    return body | _maybe(
        draw, 0.5, power_limit_rule=draw.choice(["shed_tiers", "proportional", "proportional"])
    )
