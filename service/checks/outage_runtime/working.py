"""The calculation line by line, for someone who checks it with a pencil."""

from __future__ import annotations

from service.checks.outage_runtime.battery_parameters import (
    ranged_parameters,
    temperature_rows,
)
from service.checks.outage_runtime.judgement import HOUR, Judgement
from service.checks.outage_runtime.lanes import END_OF_WARRANTY, LAYOUT, PARAMETERS
from service.checks.outage_runtime.load_rows import Row
from service.findings import WorkingLine
from service.quantities.units import si

_KWH = 3.6e6


def working(case: Judgement) -> list[WorkingLine]:
    """Return the lines of the two bounding capacities and of the typical and strict runtimes."""
    battery = case.request.battery
    values = ranged_parameters(battery, lambda degf: si(degf, "degF"))
    by_name = dict(zip(PARAMETERS, values[:, 0].tolist(), strict=True))
    count = battery.count or 1
    typical = LAYOUT.triples["base"].typical
    strict = LAYOUT.readings[2, END_OF_WARRANTY, 0]
    lines = [
        _line(
            "Energy of all units, new",
            f"{count} x {battery.energy.kwh:g} kWh x {by_name['depth_of_discharge']:g}",
            count * battery.energy.kwh * by_name["depth_of_discharge"],
            "kWh",
        )
    ]
    for lane, words in ((typical, "now"), (strict, "end of warranty")):
        capacity = float(case.of("capacity")[lane]) / _KWH
        lines.append(
            _line(
                f"Energy of all units, {words}",
                "energy new x part left x temperature factor",
                capacity,
                "kWh",
                f"temperature_capacity/{temperature_rows(battery.ambient)[0]}",
            )
        )
        start = float(case.of("start_energy")[lane]) / _KWH
        lines.append(
            _line(
                f"Energy at the start, {words}",
                f"{capacity:.3f} kWh x {start / capacity:.3f}" if capacity else "0",
                start,
                "kWh",
            )
        )
    lines.append(
        _line(
            "Cells' draw at no load",
            f"{count} x {by_name['idle_w']:g} W, or the constant loss of the part-load curve",
            float(case.of("fixed")[typical]),
            "W",
        )
    )
    lines.append(
        _line(
            "Cells' draw for one watt of load",
            "1 / square root of the round trip, or 1 / efficiency of the cells",
            float(case.of("linear")[typical]),
            "1",
        )
    )
    season = int(case.of("season"))
    lines += [_row_line(row, season) for row in case.rows if row.tier < 3 and not row.by_weather]
    for level, name in enumerate(("low", "typical", "high")):
        lines.append(
            _line(
                f"Energy of a day, {name} use",
                "sum of the loads' watts x duty x hours x number"
                if case.year is None
                else "mean of the season's days: loads by the clock, by meter and by weather",
                float(case.of("daily_energy")[level]) / _KWH,
                "kWh",
                None,
            )
        )
    for lane, words in ((typical, "typical use, now"), (strict, "high use, end of warranty")):
        lines.append(
            _line(
                f"Hours to dark, {words}",
                "stored energy run down interval by interval"
                if case.year is None
                else "stored energy followed hour by hour from the deciding day of the year",
                float(case.of("dark")[lane]) / HOUR,
                "h",
            )
        )
    return lines


def _row_line(row: Row, season: int) -> WorkingLine:
    """Return the typical energy of a day of one load."""
    factor = row.season[season]
    times = f" x {factor:g} for the season" if factor != 1 else ""
    return _line(
        f"Energy of a day, typical use: {row.name}",
        f"{row.watts[1]:g} W x {row.duty[1]:g} x {row.hours:g} h x {row.pieces}{times}",
        row.watts[1] * row.duty[1] * row.hours * row.pieces * factor / 1000,
        "kWh",
        f"appliances/{row.appliance}" if row.appliance else None,
    )


def _line(
    quantity: str, expression: str, value: float, unit: str, source: str | None = None
) -> WorkingLine:
    return WorkingLine(
        quantity=quantity, expression=expression, value=value, unit=unit, source=source
    )
