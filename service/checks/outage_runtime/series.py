"""Stored energy against time, for the drawings: the three readings that bound the answer."""

from __future__ import annotations

from service.checks.outage_runtime.arguments import arguments
from service.checks.outage_runtime.columns import traced
from service.checks.outage_runtime.judgement import HOUR, Judgement
from service.checks.outage_runtime.lanes import END_OF_WARRANTY, LAYOUT, NOW
from service.checks.outage_runtime.year_columns import YearColumn
from service.checks.outage_runtime.year_followed import followed_run
from service.findings import Series

_KWH = 3.6e6


def _of_year(case: Judgement, column: YearColumn) -> list[Series]:
    """Return the stored energy of the three readings from the worst day of typical use."""
    day = column.worst_day(int(case.of("season")))
    found = []
    for name, (lane, words) in _lines().items():
        device = column.device(lane)
        trace = followed_run(case, column, device, day).trace
        found.append(
            Series(
                id=f"stored-energy/{name}",
                label=f"Stored energy, {words}, from the worst day of typical use",
                x_unit="h",
                y_unit="kWh",
                x=[time / HOUR for time, _ in trace],
                y=[energy / _KWH for _, energy in trace],
            )
        )
    return found


def _lines() -> dict[str, tuple[int, str]]:
    return {
        "low": (LAYOUT.readings[2, END_OF_WARRANTY, 0], "high use, end of warranty"),
        "typical": (LAYOUT.triples["base"].typical, "typical use, now"),
        "high": (LAYOUT.readings[0, NOW, 1], "low use, now, from full"),
    }


def series(case: Judgement) -> list[Series]:
    """Return the stored energy of the lowest, the typical and the highest reading."""
    if case.year is not None:
        return _of_year(case, case.year)
    lines = _lines()
    numbers = [lane for lane, _ in lines.values()]
    run = traced(arguments([case.request]), int(case.of("season")), numbers)
    found = []
    for place, (name, (lane, words)) in enumerate(lines.items()):
        x: list[float] = []
        y: list[float] = []
        dark = float(case.of("dark")[lane])
        for time, energy in zip(run.trace_time, run.trace_energy, strict=True):
            point = (float(time[place]) / HOUR, float(energy[place]) / _KWH)
            if point[0] > dark / HOUR:
                break
            if not x or point != (x[-1], y[-1]):
                x.append(point[0])
                y.append(point[1])
        found.append(
            Series(
                id=f"stored-energy/{name}",
                label=f"Stored energy, {words}",
                x_unit="h",
                y_unit="kWh",
                x=x,
                y=y,
            )
        )
    return found
