"""Every default that entered, by the pointer of the field that was absent."""

from __future__ import annotations

from collections.abc import Iterator

from service.checks.outage_runtime.arguments import SEASONS
from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.load_rows import DAY_PROFILE_FACTORS, DEFAULT_HOME_CLASS, Use
from service.checks.outage_runtime.request import DayProfileUse, IntervalProfileUse, MonthlyUse
from service.checks.outage_runtime.year_assumptions import year_assumptions
from service.facts import Battery, NominalEnergy, OneWayLosses, RoundTripLosses
from service.findings import Assumption
from service.published import Source, load
from service.published.outage_defaults import outage_defaults


def _default(pointer: str, name: str, scale: float = 1.0) -> Assumption:
    entry = outage_defaults()[name]
    return Assumption(
        pointer=pointer,
        value=entry.value * scale,
        range=[entry.low * scale, entry.high * scale],
        reason=f"{entry.reason} Standing: {entry.standing.replace('_', ' ')}.",
        source=f"outage_defaults/{name}/value",
    )


def _chosen(pointer: str, value: float | int | str, reason: str) -> Assumption:
    return Assumption(pointer=pointer, value=value, reason=reason)


def _of_losses(battery: Battery) -> Iterator[Assumption]:
    if battery.losses is None:
        yield _chosen(
            "/battery/losses/kind", "round_trip", "A fixed round trip with an idle draw beside it."
        )
    if battery.losses is None or (
        isinstance(battery.losses, RoundTripLosses) and battery.losses.efficiency is None
    ):
        yield _default("/battery/losses/efficiency", "round_trip_efficiency")
    if battery.losses is None or (
        isinstance(battery.losses, (RoundTripLosses, OneWayLosses))
        and battery.losses.idle_watts is None
    ):
        yield _default("/battery/losses/idle_watts", "idle_w")


def _of_battery(battery: Battery) -> Iterator[Assumption]:
    if battery.count is None:
        yield _chosen("/battery/count", 1, "One unit, since no number was stated.")
    if isinstance(battery.energy, NominalEnergy) and battery.energy.depth_of_discharge is None:
        yield _default("/battery/energy/depth_of_discharge", "depth_of_discharge")
    yield from _of_losses(battery)
    if battery.reserve_percent is None and battery.start_charge_percent is None:
        yield _default("/battery/reserve_percent", "reserve_percent")
    if battery.floor_percent is None:
        yield _default("/battery/floor_percent", "floor_percent")
    if battery.ambient is None:
        yield _default("/battery/ambient", "ambient_degf")
    if battery.age_years is None:
        yield _chosen("/battery/age_years", 0.0, "A new unit, since no age was stated.")
    elif battery.age_years > 0 and battery.warranty_years is None:
        yield _default("/battery/warranty_years", "warranty_years")
    if battery.end_of_warranty_retention is None:
        yield _default("/battery/end_of_warranty_retention", "end_of_warranty_retention")


def _of_use(use: Use) -> Iterator[Assumption]:
    spread = "Spread of one home's days; common practice, no source."
    if isinstance(use, (DayProfileUse, IntervalProfileUse)):
        if use.low_factor is None:
            yield _chosen("/use/low_factor", DAY_PROFILE_FACTORS[0], spread)
        if use.high_factor is None:
            yield _chosen("/use/high_factor", DAY_PROFILE_FACTORS[1], spread)
    if isinstance(use, IntervalProfileUse) and use.share_percent is None:
        yield _chosen("/use/share_percent", 100.0, "All that the meter shows is backed up.")
    if isinstance(use, MonthlyUse):
        if use.home_class is None:
            yield _chosen(
                "/use/home_class",
                DEFAULT_HOME_CLASS,
                "An inland one-family home; the class gives the shape of the day only.",
            )
        if use.share_percent is None:
            yield _chosen("/use/share_percent", 100.0, "All that the bill shows is backed up.")


def _of_outage(case: Judgement) -> Iterator[Assumption]:
    request = case.request
    if request.target_tier is None and request.target_hours is not None:
        yield _chosen("/target_tier", "critical", "The target is held for critical loads.")
    if request.start_hour is None:
        entry = outage_defaults()["start_hour"]
        yield Assumption(
            pointer="/start_hour",
            value=entry.value,
            reason=entry.reason,
            source="outage_defaults/start_hour/value",
        )
    if request.season is None:
        yield Assumption(
            pointer="/season",
            value=SEASONS[int(case.of("season"))],
            range=list(SEASONS),
            reason="The season that is worse for this request.",
        )
    if request.power_limit_rule is None:
        yield _chosen(
            "/power_limit_rule",
            "shed_tiers",
            "The cautious rule: above its power the inverter drops tiers by load control or trips.",
        )


def _of_rows(case: Judgement) -> Iterator[Assumption]:
    for index, row in enumerate(case.rows):
        if row.volts_assumed and case.by_loads:
            yield Assumption(
                pointer=f"/use/rows/{index}/volts",
                value=240,
                range=[120, 240],
                reason="A well pump is taken as 240 V until said otherwise.",
                source=f"appliances/{row.appliance}/volts",
            )


def assumptions(case: Judgement) -> list[Assumption]:
    """Return every default that entered the case."""
    return [
        *_of_battery(case.request.battery),
        *_of_use(case.request.use),
        *_of_rows(case),
        *_of_outage(case),
        *year_assumptions(case.request, case.year),
    ]


def sources_of(found: list[Assumption]) -> list[Source]:
    """Return the table cells behind the assumptions."""
    return [
        load(assumption.source.split("/")[0]).cite(*assumption.source.split("/")[1:])
        for assumption in found
        if assumption.source is not None
    ]
