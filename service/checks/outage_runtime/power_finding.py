"""The finding on running power, and what a conditional one asks for."""

from __future__ import annotations

from service.checks.outage_runtime.caps import SHED
from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.load_rows import Row
from service.checks.outage_runtime.running_power import ALL
from service.checks.outage_runtime.verdict import CONDITIONAL, FAIL, PASS, VERDICTS
from service.checks.outage_runtime.wording import asked_kilowatts, given_kilowatts
from service.findings import Finding, Verdict

_TYPICAL, _HIGH = 1, 2


def power(case: Judgement, name: str, level: int) -> float:
    """Return a running power of the chosen loads [W]: all_day, one, two or total, at a level."""
    return float(case.of(f"power_{name}")[ALL, level])


def largest(case: Judgement, level: int) -> list[Row]:
    """Return the rows of the two largest other loads at a level of use, fewer where few are."""
    return [case.rows[int(row)] for row in case.of("power_rows")[:, level] if row >= 0]


def spoken(row: Row) -> str:
    """Return a load's name inside a sentence; the caller's own names stay as they are."""
    name = row.name
    return name if row.appliance is None or name[:2].isupper() else name[0].lower() + name[1:]


def power_condition(case: Judgement, part: float = 1.0) -> str:
    """Return what must be so for the units to carry the loads: enough, if it is kept.

    `part`: of their power, as heat leaves it [1].
    """
    limit = (case.limit or 0.0) * part
    all_day = power(case, "all_day", _HIGH)
    if given_kilowatts(limit - all_day) == given_kilowatts(0.0) or all_day > limit:
        return (
            f"the all-day loads are confirmed to take no more than {given_kilowatts(limit)} "
            "together, and nothing else runs beside them"
        )
    one_at_a_time = "only one of the loads that are not on all day runs at a time"
    if power(case, "one", _HIGH) > limit:
        spare = given_kilowatts(limit - all_day)
        return f"each other load is confirmed to take no more than {spare}, and {one_at_a_time}"
    if power(case, "two", _HIGH) > limit:
        return one_at_a_time
    return "no more than two of the loads that are not on all day run at a time"


def power_finding(case: Judgement) -> Finding:
    """Return the finding on running power."""
    if not case.by_loads:
        return Finding(
            rule="continuous-power",
            verdict=Verdict.UNDETERMINED,
            statement="Only energy is known: a bill or an hourly profile hides the peaks, so "
            "nothing says whether the inverter carries the loads.",
        )
    total = power(case, "total", _HIGH)
    if case.limit is None:
        return Finding(
            rule="continuous-power",
            verdict=Verdict.UNDETERMINED,
            statement="The unit's continuous power is unknown; all loads at once may ask for "
            f"{asked_kilowatts(total)} at high use.",
            actual=total / 1000,
            unit="kW",
        )
    rank = case.power_rank
    return Finding(
        rule="continuous-power",
        verdict=VERDICTS[rank],
        statement=_statement(case, case.limit, rank),
        actual=(power(case, "one", _TYPICAL) if rank == FAIL else total) / 1000,
        limit=case.limit / 1000,
        unit="kW",
        sources=_sources(case, rank),
    )


def _sources(case: Judgement, rank: int) -> list[str]:
    """Return the catalogue rows whose watts are in the number."""
    season = int(case.of("season"))
    kept = [row for row in case.rows if row.tier != SHED and row.season[season] > 0]
    if rank == FAIL:
        kept = [row for row in kept if row.all_day] + largest(case, _TYPICAL)[:1]
    return list(dict.fromkeys(f"appliances/{row.appliance}" for row in kept if row.appliance))


def _statement(case: Judgement, limit: float, rank: int) -> str:
    total = asked_kilowatts(power(case, "total", _HIGH))
    units = f"the {given_kilowatts(limit)} that the units carry"
    if rank == PASS:
        return f"All loads at once take {total} at high use, within {units}."
    if rank == CONDITIONAL:
        return (
            f"All loads at once may take {total} at high use, above {units}: it holds only if "
            f"{power_condition(case)}."
        )
    one = asked_kilowatts(power(case, "one", _TYPICAL))
    rows = largest(case, _TYPICAL)
    if not rows:
        return f"The all-day loads alone take {one} at typical use, above {units}."
    return (
        f"The all-day loads with {spoken(rows[0])} alone beside them take {one} at typical use, "
        f"above {units}."
    )
