"""How every start hour of a year fares: shares carried, percentiles, the worst start."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.year_course import YearCourse
from service.checks.outage_runtime.year_devices import Devices
from service.checks.outage_runtime.year_lanes import hourly_starts
from service.checks.outage_runtime.year_run import run_devices

Floats = NDArray[np.float64]

HOUR = 3600.0
#: Durations that a share of starts is stated for [h].
SPANS = (4, 8, 12, 24, 48, 72, 168)


@dataclass(frozen=True, slots=True)
class Survey:
    """Every start hour of the year, from the start charge (row 0) and from full (row 1).

    Attributes
    ----------
    held : ndarray, shape (2, 8760)
        Time that the asked tier is held [s], the horizon where it outlasts it.
    lasts : ndarray of bool, shape (2, 8760)
        Whether it outlasts the horizon.
    horizon : float
        [s].
    """

    held: Floats
    lasts: NDArray[np.bool_]
    horizon: float

    def carried(self, hours: float) -> NDArray[np.bool_]:
        """Return which starts are carried for a time [h], shape (2, 8760)."""
        return np.asarray(self.held >= hours * HOUR - 1e-6)

    def worst(self, row: int) -> int:
        """Return the start hour of the year that is held shortest."""
        return int(self.held[row].argmin())


def survey(
    course: YearCourse, devices: Devices, horizon: float, proportional: bool, tier: int
) -> Survey:
    """Return how every start hour of the year fares.

    Parameters
    ----------
    course : YearCourse
    devices : Devices
        Two devices: from the start charge and from full [J, W].
    horizon : float
        Time that is followed [s].
    proportional : bool
        Whether the excess alone goes unserved above the inverter's power.
    tier : int
        Lowest tier that must be held.

    Notes
    -----
    Carried means without a break: time in the dark that is put up with does not count here. Start
    hours are strongly correlated: a year has some 365 independent starts, not 8,760. Source:
    derived.
    """
    unbroken = replace(course, facts=replace(course.facts, dark=0.0))
    run = run_devices(unbroken, devices, hourly_starts(course.steps, horizon), proportional)
    held = np.minimum(run.down, run.overload)
    for off in (run.normal_off, run.comfort_off)[:tier]:
        held = np.minimum(held, off)
    return Survey(np.minimum(held, horizon), held >= horizon, horizon)
