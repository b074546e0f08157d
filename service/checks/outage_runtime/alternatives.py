"""The same answer under another choice or reading: what each buys, and whether it flips."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from service.checks.outage_runtime.battery_parameters import pick
from service.checks.outage_runtime.heat_findings import counts_heat, heat_alternatives
from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.lanes import (
    LAYOUT,
    MOST_UNITS,
    RESERVE_STEP,
)
from service.checks.outage_runtime.load_rows import TIERS
from service.checks.outage_runtime.power_finding import power
from service.checks.outage_runtime.power_in_heat import parts_left
from service.checks.outage_runtime.verdict import VERDICTS, held, tier_times
from service.checks.outage_runtime.wording import hours, kwh
from service.checks.outage_runtime.year_alternatives import year_alternatives
from service.findings import Alternative


def _alternative(
    case: Judgement, name: str, identifier: str, reading: str, tail: str = ""
) -> Alternative:
    rank = case.rank(name)
    return Alternative(
        id=identifier,
        reading=reading,
        verdict=VERDICTS[rank],
        flips_verdict=rank != case.rank(),
        statement=(
            f"Typical use, now: {_typical(case, name)} instead of {_typical(case, 'base')}.{tail}"
        ),
    )


def _typical(case: Judgement, name: str) -> str:
    """Return the typical hours of a triple in words."""
    lane = LAYOUT.triples[name].typical
    return hours(float(case.times()[lane]), bool(case.of("at_least")[lane]))


def _of_size(case: Judgement) -> Iterator[Alternative]:
    yield _alternative(
        case, "one-more-unit", "one-more-unit", "With one more unit of the same kind."
    )
    if any(row.tier == 2 for row in case.rows):
        yield _alternative(
            case, "comfort-left-out", "comfort-left-out", "With the comfort loads left out."
        )
    if case.sheddable:
        yield _alternative(
            case, "critical-alone", "critical-alone", "With the critical loads alone."
        )


def _of_charge(case: Judgement) -> Iterator[Alternative]:
    battery = case.request.battery
    if 100.0 not in (battery.start_charge_percent, battery.reserve_percent):
        yield _alternative(
            case,
            "from-full",
            "from-full",
            "Had the battery been full when the outage starts.",
            " An outage does not wait for a full battery.",
        )
    reserve = pick(battery.reserve_percent, "reserve_percent").value
    if battery.start_charge_percent is None and reserve > 0:
        lowered = max(reserve - 100 * RESERVE_STEP, 0.0)
        capacity = float(case.of("capacity")[LAYOUT.triples["base"].typical])
        freed = (reserve - lowered) / 100 * capacity
        yield _alternative(
            case,
            "lower-reserve",
            "lower-reserve",
            f"With the reserve lowered from {reserve:g} % to {lowered:g} %.",
            f" It frees {kwh(freed)} a day for other use.",
        )


def _of_reading(case: Judgement) -> Iterator[Alternative]:
    hour = case.worst_hour()
    name = f"hour/{hour}"
    differs = case.rank(name) != case.rank() or _typical(case, name) != _typical(case, "base")
    # Where the outage is a matter of the date the survey of all start hours names the worst.
    if differs and case.year is None:
        yield _alternative(
            case, name, "worst-start-hour", f"With the outage starting at {hour:02d}:00."
        )
    if case.request.load_control is not None and case.sheddable:
        yield _alternative(
            case, "no-load-control", "no-load-control", "Without load control: nothing is shed."
        )
    if case.request.load_control is None and case.sheddable:
        yield _alternative(
            case,
            "with-load-control",
            "with-load-control",
            "With listed load control that sheds comfort loads at 50 % and normal loads at 25 %.",
        )
    if case.has_control and case.target:
        yield _every_tier(case)


def _every_tier(case: Judgement) -> Alternative:
    """The target read for every tier that is kept, not for the asked one alone."""
    lowest = max(row.tier for row in case.rows if row.tier < 3)
    rank = case.rank_for(case.target, lowest)
    times = tier_times(case.columns, case.row, lowest)[case.season]
    time = float(times[LAYOUT.triples["base"].typical])
    return Alternative(
        id="every-tier",
        reading=f"With the target read for {TIERS[lowest]} loads too.",
        verdict=VERDICTS[rank],
        flips_verdict=rank != case.rank(),
        statement=f"Typical use, now: {TIERS[lowest]} loads run {hours(time)}.",
    )


def alternatives(case: Judgement) -> list[Alternative]:
    """Return other choices and readings; those that flip the verdict first."""
    found = [
        *_of_size(case),
        *_of_charge(case),
        *_of_reading(case),
        *heat_alternatives(case),
        *year_alternatives(case),
    ]
    return sorted(found, key=lambda alternative: not alternative.flips_verdict)


#: Power of a unit below which no number of units is told [W]. Our choice.
_NEXT_TO_NOTHING = 1.0


def units_needed(case: Judgement) -> tuple[int | None, str]:
    """Return the units that hold the target at high use and end of warranty, and what decides."""
    if not case.target:
        return None, "No target hours were stated."
    times = case.times()
    unit_power = None
    if case.by_loads and case.limit is not None:
        unit_power = case.limit / float(case.request.battery.count or 1)
    by_power, when = 1, ""
    if unit_power is not None and counts_heat(case):
        unit_power *= (parts_left(case.request) or (1.0,) * 3)[1]
        when = " in the heat"
        if unit_power < _NEXT_TO_NOTHING:
            return None, "Next to nothing of its power is left in the heat: more units do not help."
    if unit_power is not None:
        by_power = max(1, int(np.ceil(power(case, "two", 2) / unit_power - 1e-9)))
    enough = [n + 1 for n, lane in enumerate(LAYOUT.units) if held(times[lane], case.target)]
    if not enough:
        return None, _why_never(case)
    by_energy = enough[0]
    count = max(by_energy, by_power)
    if count > MOST_UNITS:
        return None, f"Power asks for {by_power} units, more than the {MOST_UNITS} tried."
    reading = "high use, at the end of the warranty, from the start charge, as assumed"
    if unit_power is None:
        return count, f"Energy decides ({reading}); power is not known well enough to count."
    decides = "Power" if by_power > by_energy else "Energy"
    return count, (
        f"{decides} decides: energy takes {by_energy}, running power{when} {by_power} ({reading})."
    )


def _why_never(case: Judgement) -> str:
    lane, last = LAYOUT.units[0], LAYOUT.units[-1]
    stored = float(case.of("start_energy")[lane])
    idle = float(case.of("fixed")[lane]) * case.target
    if stored <= float(case.of("floor")[lane]):
        return "Not reachable: the charge at the start is not above the charge of the cut-off."
    if stored <= idle:
        return (
            f"Not reachable: one unit starts with {kwh(stored)} and idles away {kwh(idle)} until "
            "the target, so that more units do not help."
        )
    most = hours(float(case.times()[last]))
    return (
        f"Not reachable: {MOST_UNITS} units hold {most} at high use, at the end of the warranty, "
        "from the start charge, as assumed; fewer loads or a higher charge help more."
    )
