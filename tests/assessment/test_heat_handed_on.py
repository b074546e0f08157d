"""What the heat check has worked out is handed on to runtime and starts, never silently."""

from __future__ import annotations

from typing import Any

import pytest

from service.assessment.order import in_order, in_run_order
from service.checks.heat_exposure import CHECK as HEAT
from service.checks.outage_runtime import CHECK as OUTAGE
from service.checks.surge_feasibility import CHECK as SURGE
from tests.assessment.sites import Json, assess, assessment, known_site

_ALL = assessment([OUTAGE, SURGE, HEAT])
_UNIT = {"width": 38, "height": 28, "depth": 14, "absorptance": 0.45, "lag_hours": 3}
_ORDER = ["fail", "undetermined", "conditional", "pass"]


def site(least: float | None, **candidate: Any) -> Json:
    """Return a known site whose curve falls to some percent at 100 degF; None: no curve."""
    found = known_site(wishes={**known_site()["wishes"], "target_hours": 6})
    found["wishes"]["loads"].append({"kind": "own", "name": "Pump", "watts": 2400})
    found["place"] |= {"climate_site": "riverside", "extreme_rise": 0}
    found["home"] = found["home"] | {
        "battery_place": {"kind": "garage", "door_faces": "other"},
        "battery_air_rise": 15,
        "motors": [],
    }
    found["candidates"][0] |= {"unit": _UNIT, "limits": {"highest": 160, "lowest": -4}}
    found["candidates"][0]["battery"]["energy"]["kwh"] = 40
    if least is not None:
        found["candidates"][0]["derating"] = [
            {"temperature": 80, "percent": 100},
            {"temperature": 100, "percent": least},
            {"temperature": 160, "percent": least},
        ]
    found["candidates"][0] |= candidate
    return found


def checks(some: Json) -> dict[str, Json]:
    """Return the checks of the candidate by their ids."""
    (candidate,) = assess(some, _ALL)["candidates"]
    return {check["check"]: check for check in candidate["checks"]}


def in_heat(check: Json) -> list[Json]:
    """Return a check's findings on the hottest days."""
    return [one for one in check["findings"] if one["rule"] == "power-in-the-heat"]


@pytest.mark.parametrize("name", ["outage-runtime", "surge-feasibility"])
def test_without_a_curve_nothing_is_handed_on(name: str) -> None:
    assert in_heat(checks(site(None))[name]) == []


# By hand: the pump and the refrigerator take 2.55 kW of 5 kW, that is 51 %.
@pytest.mark.parametrize("least, verdict", [(100, "pass"), (60, "pass"), (20, "fail")])
def test_the_runtime_stands_as_what_heat_leaves(least: float, verdict: str) -> None:
    found = checks(site(least))
    (finding,) = in_heat(found["outage-runtime"])
    assert finding["verdict"] == verdict
    assert f"{least} % of the power is left" in finding["statement"]
    shown = {one["id"] for one in found["outage-runtime"]["alternatives"]}
    assert "in-the-heat" in shown


def test_the_starts_know_what_heat_leaves() -> None:
    cool, hot = (in_heat(checks(site(least))["surge-feasibility"]) for least in (100, 20))
    assert cool[0]["verdict"] == "pass"
    assert hot[0]["verdict"] == "fail"


def test_hotter_never_stands_better() -> None:
    found = [assess(site(least), _ALL)["verdict"] for least in (100, 60, 40, 20, 0)]
    places = [_ORDER.index(verdict) for verdict in found]
    assert places == sorted(places, reverse=True)
    assert found[-1] == "fail"


def test_the_hours_shown_are_those_of_all_the_power() -> None:
    def hours(some: Json) -> list[float]:
        return [figure["value"] for figure in checks(some)["outage-runtime"]["figures"]]

    assert hours(site(20)) == hours(site(None))


def test_the_runtime_stands_first_though_it_runs_last() -> None:
    given = [OUTAGE, SURGE, HEAT]
    assert in_order(given) == given
    assert in_run_order(given) == [HEAT, OUTAGE, SURGE]
    assert in_run_order([OUTAGE, SURGE]) == [OUTAGE, SURGE]
    assert list(checks(site(60))) == ["outage-runtime", "surge-feasibility", "heat-exposure"]


def test_an_answer_on_the_unit_moves_the_checks_that_run_on_it() -> None:
    """A colour nobody knows decides on a wall how much power is left, and so the runtime."""
    some = site(20)
    some["home"]["battery_air_rise"] = 0
    some["home"]["battery_place"] = {
        "kind": "outdoors",
        "walls": [{"id": "west", "facing": 270, "full_shade": False, "ground": "ordinary"}],
    }
    some["candidates"][0]["derating"] = [
        {"temperature": 112, "percent": 100},
        {"temperature": 113, "percent": 20},
        {"temperature": 160, "percent": 20},
    ]
    some["candidates"][0]["unit"] = {"width": 38, "height": 28, "depth": 14, "lag_hours": 3}
    verdicts = []
    for colour in ("white", "dark"):
        some["candidates"][0]["unit"]["colour"] = colour
        verdicts.append(checks(some)["outage-runtime"]["verdict"])
    assert _ORDER.index(verdicts[1]) < _ORDER.index(verdicts[0])
    del some["candidates"][0]["unit"]["colour"]
    asked = {one["pointer"]: one for one in assess(some, _ALL)["questions"]}
    assert asked["/candidates/0/unit/colour"]["can_change_verdict"]
