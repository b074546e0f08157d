"""A start against time, to be drawn."""

from __future__ import annotations

from service.checks.surge_feasibility import versions as tried
from service.checks.surge_feasibility.judgement import Judgement
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.findings import Series


def series(request: SurgeFeasibilityRequest, stands: Judgement) -> list[Series]:
    """Return speed, volts and amps of every start against time."""
    if stands.made is None or stands.found is None:
        return []
    lines = []
    course = stands.found.of[tried.BARE][1].nominal.course
    for lane, place in enumerate(stands.made.places):
        name = request.motors[place].id
        time = course.time[..., lane].ravel().tolist()
        for what, unit, values in (
            ("speed", "%", course.speed * 100),
            ("bus volts", "V", course.bus),
            ("motor volts", "V", course.motor_volts),
            ("source amps", "A", course.amps),
        ):
            lines.append(
                Series(
                    id=f"{place}/{what.replace(' ', '-')}",
                    label=f"{name}: {what}",
                    x_unit="s",
                    y_unit=unit,
                    x=time,
                    y=values[..., lane].ravel().tolist(),
                )
            )
    return lines
