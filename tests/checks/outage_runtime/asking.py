"""A request as a caller writes it, and what comes back."""

import json
from typing import Any

from service.checks.outage_runtime import CHECK
from service.checks.outage_runtime.answer import OutageRuntimeAnswer, Reading
from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.http.answering import Answering

Body = dict[str, Any]

_ANSWERING = Answering(CHECK)

#: An invented unit of which everything is known: 10 kWh, no losses, 5 kW, full at the start.
UNIT: Body = {
    "energy": {"kind": "usable", "kwh": 10},
    "count": 1,
    "continuous_kw": 5,
    "losses": {"kind": "round_trip", "efficiency": 1, "idle_watts": 0},
    "reserve_percent": 100,
    "floor_percent": 0,
    "ambient": 77,
    "age_years": 0,
    "warranty_years": 10,
    "end_of_warranty_retention": 0.8,
}


def load(watts: float, **more: Any) -> Body:
    """Return a row of the caller's own: critical and on all day unless changed."""
    return {"kind": "own", "name": "Load", "watts": watts, "tier": "critical"} | more


def window(start_hour: float, end_hour: float) -> list[Body]:
    return [{"start_hour": start_hour, "end_hour": end_hour}]


def appliance(name: str, **more: Any) -> Body:
    return {"kind": "catalogue", "appliance": name} | more


def known(rows: list[Body], unit: Body | None = None, **changes: Any) -> Body:
    """Return a request that leaves nothing open; `unit` and `changes` replace what is given."""
    body: Body = {
        "use": {"kind": "loads", "rows": rows},
        "battery": UNIT | (unit or {}),
        "season": "winter",
        "start_hour": 18,
        "target_tier": "critical",
        "power_limit_rule": "shed_tiers",
    }
    return body | changes


def without(body: Body, *names: str) -> Body:
    """Return the request with fields of it or of its battery taken out."""
    kept = {name: value for name, value in body.items() if name not in names}
    kept["battery"] = {k: v for k, v in body["battery"].items() if k not in names}
    return kept


def taken(body: Body) -> OutageRuntimeRequest:
    """Return the request as the service reads it; what it refuses raises."""
    request, _ = _ANSWERING.take(json.dumps(body).encode())
    assert isinstance(request, OutageRuntimeRequest)
    return request


def answered(body: Body, *includes: str) -> OutageRuntimeAnswer:
    """Return the answer with its numbers not yet rounded."""
    answer = CHECK.run(taken(body), frozenset(includes))
    assert isinstance(answer, OutageRuntimeAnswer)
    return answer


def sent(body: Body, *includes: str) -> bytes:
    """Return the bytes of the answer."""
    return _ANSWERING.answer(taken(body), frozenset(includes)).body


def reading(answer: OutageRuntimeAnswer, name: str) -> Reading:
    """Return the reading of a name like "typical/now/full"; "start" is what is not full."""
    use, capacity, start = name.split("/")
    (found,) = [
        one
        for one in answer.readings
        if (one.use, one.capacity, one.start == "full") == (use, capacity, start == "full")
    ]
    return found
