"""A request changed in one place, as somebody would who follows an answer."""

import json
from typing import Any

from service.findings import Alternative
from service.published import load as table
from tests.checks.outage_runtime.asking import Body

USUAL_CONTROL = {
    "comfort_shed_percent": 50,
    "normal_shed_percent": 25,
    "hysteresis_percent": 10,
}
TIERS = ("critical", "normal", "comfort", "shed")


def filled(body: Body, pointer: str, value: Any) -> Body:
    """Return the request with the field of a JSON Pointer filled in, objects made as needed.

    Losses that were not stated are a round trip, as the answer's own assumption says.
    """
    tree: Body = json.loads(json.dumps(body))
    if pointer.startswith("/battery/losses/"):
        tree["battery"].setdefault("losses", {"kind": "round_trip"})
    *path, last = pointer.removeprefix("/").split("/")
    at: Any = tree
    for name in path:
        at = at[int(name)] if isinstance(at, list) else at.setdefault(name, {})
    at[last] = value
    return tree


def tier_of(row: Body) -> str:
    usual = "normal" if row["kind"] == "own" else table("appliances").row(row["appliance"])["tier"]
    return str(row.get("tier") or usual)


def tiers_of(body: Body) -> set[str]:
    """Return the tiers that the request names."""
    use = body["use"]
    if use["kind"] == "loads":
        return {tier_of(row) for row in use["rows"]}
    return {tier for tier in TIERS if use.get(tier)} or {"critical"}


def left_out(body: Body, tiers: set[str]) -> Body:
    """Return the request without the loads of some tiers: they are not among the chosen ones."""
    use = dict(body["use"])
    if use["kind"] == "loads":
        use["rows"] = [row for row in use["rows"] if tier_of(row) not in tiers]
    else:
        use = {name: value for name, value in use.items() if name not in tiers}
    return body | {"use": use}


def rerun_of(body: Body, alternative: Alternative) -> Body:
    """Return the request that states what the alternative supposes."""
    unit = body["battery"]
    match alternative.id:
        case "one-more-unit":
            return filled(body, "/battery/count", unit.get("count", 1) + 1)
        case "comfort-left-out":
            return left_out(body, {"comfort"})
        case "critical-alone":
            return left_out(body, {"normal", "comfort"})
        case "from-full":
            return filled(body, "/battery/start_charge_percent", 100)
        case "lower-reserve":
            lower = max(unit.get("reserve_percent", 20) - 20, 0)
            return filled(body, "/battery/reserve_percent", lower)
        case "worst-start-hour":
            return filled(body, "/start_hour", int(alternative.reading[-6:-4]))
        case "no-load-control":
            return {name: value for name, value in body.items() if name != "load_control"}
        case "with-load-control":
            return body | {"load_control": USUAL_CONTROL}
        case "every-tier":
            lowest = max(tiers_of(body) - {"shed"}, key=TIERS.index)
            return body | {"target_tier": lowest}
    raise AssertionError(f"no rerun is written for {alternative.id}")
