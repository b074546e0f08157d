"""Invented sites, the assessment that answers them, and their fields by JSON Pointer."""

from __future__ import annotations

import copy
import json
from collections.abc import Iterable, Sequence
from functools import cache
from typing import Any

from service.assessment import site_assessment
from service.assessment.request import SiteAssessmentRequest
from service.check import Check
from service.checks.outage_runtime import CHECK
from service.findings import Verdict, rank
from service.http.answering import Answering

Json = dict[str, Any]

#: A home of which every fact is known.
HOME: Json = {
    "type": "house",
    "medical_equipment": "none",
    "well_pump": "none",
    "sump_pump": "none",
    "internet": "leave_off",
}
FRIDGE: Json = {"kind": "catalogue", "appliance": "refrigerator"}
#: A battery that leaves nothing to be assumed.
BATTERY: Json = {
    "energy": {"kind": "nominal", "kwh": 14, "depth_of_discharge": 0.95},
    "count": 1,
    "continuous_kw": 5,
    "split_phase": True,
    "charge_kw": 5,
    "losses": {"kind": "round_trip", "efficiency": 0.9, "idle_watts": 30},
    "reserve_percent": 80,
    "floor_percent": 0,
    "ambient": 77,
    "age_years": 0,
    "warranty_years": 10,
    "end_of_warranty_retention": 0.7,
}
#: A battery of which no more than energy and power is known.
PLAIN_BATTERY: Json = {"energy": {"kind": "usable", "kwh": 12}, "continuous_kw": 5}


def known_site(**changed: Any) -> Json:
    """Return a site of which everything is known, and which passes, with parts exchanged."""
    site = {
        "place": {"state": "CA"},
        "permit_date": "2026-11-01",
        "wishes": {
            "loads": [{**FRIDGE, "watts": 150, "duty": 0.33}],
            "target_hours": 48,
            "target_tier": "critical",
            "start_hour": 18,
            "season": "summer",
        },
        "home": HOME,
        "equipment": {"power_limit_rule": "shed_tiers"},
        "candidates": [{"id": "one", "battery": BATTERY}],
    }
    return copy.deepcopy({**site, **changed})


def lead(**changed: Any) -> Json:
    """Return a lead of which little is known: a refrigerator, a day, one battery."""
    site = {
        "place": {"state": "CA"},
        "wishes": {"loads": [FRIDGE], "target_hours": 24, "season": "summer"},
        "candidates": [{"id": "one", "battery": PLAIN_BATTERY}],
    }
    return copy.deepcopy({**site, **changed})


def assessment(checks: Sequence[Check] = (CHECK,)) -> Answering:
    """Return an assessment made of the checks, from bytes to bytes."""
    return Answering(site_assessment(checks))


_OWN = assessment()


def request_of(site: Json) -> SiteAssessmentRequest:
    """Return the site as the service reads it, decoded strictly."""
    request, _ = _OWN.take(json.dumps(site).encode())
    assert isinstance(request, SiteAssessmentRequest)
    return request


@cache
def _answer(body: bytes, answering: Answering) -> bytes:
    """Return the answer to a body, worked out once: many tests ask for the same site."""
    request, _ = answering.take(body)
    return answering.answer(request, frozenset()).body


def assess(site: Json, answering: Answering = _OWN) -> Json:
    """Return the answer to a site as a caller reads it."""
    answer: Json = json.loads(_answer(json.dumps(site).encode(), answering))
    return answer


def steps_of(pointer: str) -> list[str]:
    """Return the steps of a JSON Pointer (RFC 6901)."""
    return [step.replace("~1", "/").replace("~0", "~") for step in pointer.split("/")[1:]]


def put(site: Json, *values: tuple[str, Any]) -> Json:
    """Return the site with fields set by pointer, absent objects on the way made."""
    changed = copy.deepcopy(site)
    for pointer, value in values:
        here: Any = changed
        *way, last = steps_of(pointer)
        for step in way:
            here = here[int(step)] if isinstance(here, list) else here.setdefault(step, {})
        here[int(last) if isinstance(here, list) else last] = value
    return changed


def without(site: Json, pointer: str) -> Json:
    """Return the site without a field that it has."""
    changed = copy.deepcopy(site)
    here: Any = changed
    *way, last = steps_of(pointer)
    for step in way:
        here = here[int(step)] if isinstance(here, list) else here[step]
    del here[last]
    return changed


def assumed(answer: Json) -> list[tuple[str, Any]]:
    """Return what an answer assumed, as fields to set."""
    return [(item["pointer"], item["value"]) for item in answer["assumptions"]]


def answered(site: Json, answer: Json, pointer: str, value: Any) -> Json:
    """Return the site with one question answered, beside the assumed kind of its object."""
    kind = pointer.rsplit("/", 1)[0] + "/kind"
    return put(site, *[item for item in assumed(answer) if item[0] == kind], (pointer, value))


def asked(answer: Json) -> dict[str, Json]:
    """Return the questions by pointer."""
    return {question["pointer"]: question for question in answer["questions"]}


def ranked(verdict: str) -> int:
    """Return 0 for fail, 3 for pass."""
    return rank(Verdict(verdict))


def worst_of(verdicts: Iterable[str]) -> str:
    """Return the worst of the verdicts."""
    return min(verdicts, key=ranked)


def best_of(verdicts: Iterable[str]) -> str:
    """Return the best of the verdicts, undetermined where there is none."""
    return max(verdicts, key=ranked, default="undetermined")


def hours(candidate: Json) -> dict[str, float]:
    """Return the figures of a candidate's checks by their id."""
    return {f["id"]: f["value"] for check in candidate["checks"] for f in check["figures"]}
