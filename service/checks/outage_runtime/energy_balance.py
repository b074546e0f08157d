"""Where the stored energy of every reading went; it closes to the last digit shown."""

from __future__ import annotations

from service.checks.outage_runtime import answer as an
from service.checks.outage_runtime.judgement import Judgement
from service.checks.outage_runtime.lanes import LAYOUT
from service.checks.outage_runtime.readings import readings

_KWH = 3.6e6


def energy_balance(case: Judgement) -> list[an.EnergyBalance]:
    """Return the balance of every reading that a trip does not end.

    Where the outage is a matter of the date, the year's own outage holds the balance instead.
    """
    found: list[an.EnergyBalance] = []
    if case.year is not None:
        return found
    for lane, reading in zip(LAYOUT.readings.values(), readings(case), strict=True):
        if reading.ended_by == "power":
            continue
        found.append(
            an.EnergyBalance(
                reading=f"{reading.use}/{reading.capacity}/{reading.start}",
                start_kwh=float(case.of("start_energy")[lane]) / _KWH,
                served_kwh=float(case.of("served")[lane]) / _KWH,
                lost_kwh=float(case.of("loss")[lane]) / _KWH,
                end_kwh=float(case.of("end_energy")[lane]) / _KWH,
            )
        )
    return found
