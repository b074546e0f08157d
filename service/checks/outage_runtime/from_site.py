"""The check's request worked out of what a site assessment knows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.check import FromSite
from service.checks.outage_runtime.request import (
    IntervalProfileUse,
    LoadsUse,
    MonthlyUse,
    OutageRuntimeRequest,
)
from service.facts import (
    Candidate,
    Equipment,
    Home,
    Site,
    chosen_loads,
    heat_derating_of,
    site_climate,
    with_energy,
    with_reserve,
)


def _use(
    site: Site,
) -> tuple[LoadsUse | MonthlyUse | IntervalProfileUse, dict[str, str]]:
    wishes, home = site.wishes, site.home or Home()
    if not wishes.loads and not wishes.essential_set and home.interval_watts is not None:
        metered = IntervalProfileUse(
            watts=home.interval_watts,
            share_percent=home.interval_share_percent,
            life_support=home.medical_equipment not in (None, "none"),
        )
        return metered, {"/use/share_percent": "/home/interval_share_percent"}
    if not wishes.loads and not wishes.essential_set and isinstance(home.monthly_kwh, float):
        use = MonthlyUse(
            monthly_kwh=home.monthly_kwh,
            home_class=home.home_class,
            share_percent=100.0,
            life_support=home.medical_equipment not in (None, "none"),
        )
        return use, {"/use/home_class": "/home/home_class"}
    rows, pointers = chosen_loads(site)
    return LoadsUse(rows=rows), pointers


def from_site(site: Site, candidate: Candidate | None, answers: Mapping[str, Any]) -> FromSite:
    """Return the request for one candidate, or the facts that are missing for it."""
    use, pointers = _use(site)
    if candidate is None:
        return FromSite(None, ("/candidates",), pointers)
    equipment = site.equipment or Equipment()
    reserve = equipment.reserve_percent
    battery = with_reserve(candidate.battery, reserve if isinstance(reserve, float) else None)
    pointers |= {
        "/battery/reserve_percent": "/equipment/reserve_percent",
        "/battery": "/candidates/*/battery",
        "/load_control": "/equipment/load_control",
        "/power_limit_rule": "/equipment/power_limit_rule",
        "/medical_plan": "/home/medical_plan",
        "/use/kind": "/wishes/loads",
    }
    pointers |= {
        f"/{name}": f"/wishes/{name}"
        for name in (
            "target_hours",
            "target_tier",
            "start_hour",
            "season",
            "starts_carried_percent",
            "dark_allowed",
        )
    }
    pointers |= {f"/{name}": f"/equipment/{name}" for name in ("solar", "restart", "generator")} | {
        "/conditioning": "/home/conditioning",
        "/outdoor_offset": "/place/outdoor_offset",
    }
    climate, places = site_climate(site)
    pointers |= places
    request = OutageRuntimeRequest(
        use=use,
        battery=battery,
        target_hours=site.wishes.target_hours,
        target_tier=site.wishes.target_tier,
        start_hour=site.wishes.start_hour,
        season=site.wishes.season,
        load_control=equipment.load_control,
        power_limit_rule=equipment.power_limit_rule,
        medical_plan=(site.home or Home()).medical_plan,
        climate=climate,
        solar=equipment.solar,
        restart=equipment.restart,
        generator=equipment.generator,
        conditioning=(site.home or Home()).conditioning,
        outdoor_offset=site.place.outdoor_offset,
        starts_carried_percent=site.wishes.starts_carried_percent,
        dark_allowed=site.wishes.dark_allowed,
        heat_derating=with_energy(heat_derating_of(answers)),
    )
    return FromSite(request, (), pointers)
