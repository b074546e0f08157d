"""The finding on running power, and what a conditional one asks for."""

from __future__ import annotations

from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.load_rows import Row
from service.checks.outage_runtime.running_power import ALL
from service.checks.outage_runtime.verdict import CONDITIONAL, FAIL, PASS, VERDICTS
from service.checks.outage_runtime.wording import kilowatts, listed
from service.findings import Finding, Verdict

_TYPICAL, _HIGH = 1, 2


def power(case: Judgement, name: str, level: int) -> float:
    """Return a running power of all chosen loads [W]: all-day, one or two, at a level of use."""
    return float(case.of(f"power_{name}")[ALL, level])


def largest(case: Judgement, level: int) -> list[Row]:
    """Return the rows of the two largest other loads at a level of use, fewer where few are."""
    return [case.rows[int(row)] for row in case.of("power_rows")[:, level] if row >= 0]


def _names(rows: list[Row]) -> list[str]:
    if len(rows) == 2 and rows[0] is rows[1]:
        return [rows[0].name, f"another {spoken(rows[1])}"]
    return [row.name for row in rows]


def spoken(row: Row) -> str:
    """Return a load's name inside a sentence; the caller's own names stay as they are."""
    name = row.name
    return name if row.appliance is None or name[:2].isupper() else name[0].lower() + name[1:]


def power_condition(case: Judgement) -> str:
    """Return what must be so for the units to carry the loads."""
    limit = case.limit or 0.0
    all_day = power(case, "all_day", _HIGH)
    rows = largest(case, _HIGH)
    if all_day > limit:
        alone = " and nothing runs beside them" if rows else ""
        return f"the all-day loads are confirmed to take no more than {kilowatts(limit)}{alone}"
    apart = f"{listed(_names(rows))} are not run together"
    if power(case, "one", _HIGH) > limit:
        less = f"{rows[0].name} is confirmed to take no more than {kilowatts(limit - all_day)}"
        return f"{less} and {apart}" if len(rows) > 1 else less
    return apart


def power_finding(case: Judgement) -> Finding:
    """Return the finding on running power."""
    if not case.by_loads:
        return Finding(
            rule="continuous-power",
            verdict=Verdict.UNDETERMINED,
            statement="Only energy is known: a bill or an hourly profile hides the peaks, so "
            "nothing says whether the inverter carries the loads.",
        )
    two = power(case, "two", _HIGH)
    if case.limit is None:
        return Finding(
            rule="continuous-power",
            verdict=Verdict.UNDETERMINED,
            statement="The unit's continuous power is unknown; the loads may ask for "
            f"{kilowatts(two)} at high use.",
            actual=two / 1000,
            unit="kW",
        )
    rank = case.power_rank
    level = _TYPICAL if rank == FAIL else _HIGH
    return Finding(
        rule="continuous-power",
        verdict=VERDICTS[rank],
        statement=_statement(case, case.limit, rank),
        actual=(power(case, "one", _TYPICAL) if rank == FAIL else two) / 1000,
        limit=case.limit / 1000,
        unit="kW",
        sources=list(
            dict.fromkeys(
                f"appliances/{row.appliance}" for row in largest(case, level) if row.appliance
            )
        ),
    )


def _statement(case: Judgement, limit: float, rank: int) -> str:
    two = kilowatts(power(case, "two", _HIGH))
    units = f"the {kilowatts(limit)} that the units carry"
    if rank == PASS:
        return f"All-day loads and the two largest others take {two} at high use, within {units}."
    if rank == CONDITIONAL:
        return (
            f"At high use the all-day loads and the two largest others may take {two}, above "
            f"{units}: it holds only if {power_condition(case)}."
        )
    one = kilowatts(power(case, "one", _TYPICAL))
    names = _names(largest(case, _TYPICAL))
    alone = f"{names[0]} alone beside the all-day loads" if names else "The all-day loads alone"
    return f"{alone} takes the demand to {one} at typical use, above {units}."
