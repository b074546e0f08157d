"""Loads and sun of one home through one year, and what a device does with them, step by step."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.day_profile import DAY, DayProfile
from service.checks.outage_runtime.weather_units import units_year
from service.checks.outage_runtime.year_devices import Devices
from service.checks.outage_runtime.year_facts import Answering, YearFacts
from service.checks.outage_runtime.year_power import (
    DAYS,
    is_summer,
    load_year,
    metered_year,
    steps_a_day,
    sun_year,
)
from service.physics.outage_power_limit import POWER_TOLERANCE
from service.published.outage_defaults import outage_defaults

Floats = NDArray[np.float64]


@dataclass(slots=True)
class YearCourse:
    """One home's year in steps of equal length.

    Attributes
    ----------
    steps : int
        Steps a day.
    load : ndarray, shape (6 or 18, 3, 365 * steps)
        Power by variant and tier [W]; where the outdoor temperature has a range the variants stand
        there three times: as it is, at the worse end, at the better end.
    by_clock : ndarray, shape (6, 3, 365 * steps)
        The part that follows the clock alone [W].
    fine : YearCourse or None
        The same year in finer steps where this one holds means: what overloads inside an hour.
    """

    facts: YearFacts
    climate: Answering | None
    steps: int
    load: Floats
    by_clock: Floats
    fine: YearCourse | None = None
    _suns: dict[tuple[float, ...], Floats] = field(default_factory=dict)

    @property
    def step(self) -> float:
        """Return the length of a step [s]."""
        return DAY / self.steps

    @property
    def size(self) -> int:
        """Return the number of steps."""
        return DAYS * self.steps

    def sun(self, parts: Floats) -> Floats:
        """Return the sun under losses, shade and yield, shape (2, T) [W]: AC bus, DC side."""
        sun, climate = self.facts.sun, self.climate
        if sun is None or climate is None:
            return np.zeros((2, self.size))
        key = tuple(parts.tolist())
        if key not in self._suns:
            self._suns[key] = sun_year(sun, climate.weather, key, self.steps)
        return self._suns[key]

    def loads(self, devices: Devices) -> Floats:
        """Return the load of every kept tier together, shape (N, T) [W]."""
        kept = 3 - devices.tiers_off
        pairs, which = np.unique(np.stack([devices.use, kept]), axis=1, return_inverse=True)
        totals = np.array([self.load[use, :tiers].sum(axis=0) for use, tiers in pairs.T.tolist()])
        return np.asarray(totals[which.reshape(-1)])

    def suns(self, devices: Devices) -> tuple[Floats, Floats]:
        """Return the sun on the AC bus and on the DC side, shape (N, T) each [W]."""
        parts, which = np.unique(devices.sun, axis=0, return_inverse=True)
        found = np.array([self.sun(row) for row in parts])[which.reshape(-1)]
        return found[:, 0], found[:, 1]


def course_of(
    facts: YearFacts,
    climate: Answering | None,
    profile: DayProfile,
    extra: Floats,
) -> YearCourse:
    """Return the course of a home's year.

    Parameters
    ----------
    facts : YearFacts
    climate : Answering or None
        Whose weather it is.
    profile : DayProfile
        Loads that follow the clock [s, W].
    extra : ndarray
        Further times of day at which something changes [s].

    Notes
    -----
    Load and sun come from the same hours, so a hot day has both its sun and its cooling. Source:
    derived, own arrangement.
    """
    steps = _steps(facts, profile, extra)
    if facts.metered is not None:
        load = metered_year(facts.metered, steps)
    else:
        load = load_year(profile, steps)
    found = _weathered(YearCourse(facts, climate, steps, load, load), None)
    unsteady = replace(facts, hourly=False)
    if facts.hourly and _steps(unsteady, profile, extra) > steps:
        return replace(found, fine=course_of(unsteady, climate, profile, extra))
    return found


def _steps(facts: YearFacts, profile: DayProfile, extra: Floats) -> int:
    """Return the steps a day that a year is followed in."""
    if facts.hourly:
        return 24
    quiet = [edge for window in _quiet(facts) for edge in window]
    steps = steps_a_day(np.concatenate([profile.edges, extra, quiet]))
    own = 24 if facts.metered is None else facts.metered.watts.size // DAYS
    return max(steps, own)


def units_apart(course: YearCourse, air: Floats) -> YearCourse:
    """Return the course with heating and cooling in other air [K], shape (8760,).

    Notes
    -----
    The sun stays that of the year. Source: derived.
    """
    return _weathered(course, air)


def _weathered(course: YearCourse, air: Floats | None) -> YearCourse:
    climate, units = course.climate, course.facts.units
    if climate is None or not units:
        return course
    own = climate.weather.dry_bulb
    outdoor = (own if air is None else air) + course.facts.hotter
    ends = dict.fromkeys(course.facts.outdoor)
    loads = [
        course.by_clock + units_year(units, own, outdoor, course.steps, end)
        for end in (course.facts.outdoor if len(ends) > 1 else ends)
    ]
    return replace(course, load=np.concatenate(loads))


def _quiet(facts: YearFacts) -> tuple[tuple[float, float], ...]:
    return () if facts.generator is None else facts.generator.quiet


def daily_energy(course: YearCourse) -> Floats:
    """Return the mean energy of a day by level of use and season, shape (3, 2) [J].

    Notes
    -----
    Source: derived; summer is May to October.
    """
    by_day = course.load[:3].sum(axis=1).reshape(3, DAYS, course.steps).mean(axis=2) * DAY
    summer = is_summer()
    return np.stack([by_day[:, summer].mean(axis=1), by_day[:, ~summer].mean(axis=1)], axis=1)


def cells_balance(
    devices: Devices, load: Floats, on_bus: Floats, direct: Floats
) -> tuple[Floats, NDArray[np.bool_]]:
    """Return what the cells take in less what they give, and where the inverter is overloaded.

    Parameters
    ----------
    devices : Devices
        N devices.
    load, on_bus, direct : ndarray, shape (N, T)
        Load, sun on the AC bus and sun on the DC side [W].

    Returns
    -------
    balance : ndarray, shape (N, T)
        [W].
    over : ndarray of bool, shape (N, T)

    Notes
    -----
    Sun on the bus serves the load first; the rest charges up to the charge limit. DC-coupled sun
    meets the cells' draw first, then fills what is left of the charge limit. What the inverter does
    not carry is not drawn. Source: the step
    rule of the outage engine; storing of DC energy: table outage_defaults.
    """

    def each(values: Floats) -> Floats:
        return values[:, None]

    net = load - on_bus
    limit = each(devices.limit)
    over = net > limit + POWER_TOLERANCE
    out = np.clip(net, 0.0, limit)
    balance = each(devices.linear) * out
    if devices.square.any():
        balance += each(devices.square) * out * out
    balance += each(devices.fixed)
    np.negative(balance, out=balance)
    if on_bus.any():
        taken = np.minimum(np.maximum(-net, 0.0), each(devices.charge))
        balance += each(devices.efficiency) * taken
    if direct.any():
        met = np.minimum(direct, np.maximum(-balance, 0.0))
        room = np.maximum(each(devices.charge) - np.maximum(balance, 0.0), 0.0)
        stored = outage_defaults()["dc_charge_efficiency"].value * (direct - met)
        balance += met + np.minimum(stored, room)
    return balance, over


def reconnect(course: YearCourse) -> float:
    """Return how long an outage begins without sun on the bus [s]. Source: outage_defaults."""
    sun = course.facts.sun
    return outage_defaults()["sun_reconnect_s"].value if sun is not None and sun.on_bus else 0.0
