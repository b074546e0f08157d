"""One outage at one hour of a year, in plain numbers: loads, sun, battery, generator, restarts.

The independent reference of the outage-runtime check through a typical year. The sun is pvlib's;
loads are added up hour by hour; the battery is followed from one event to the next, one outage at
a time, in kWh, kW and hours. No code of the service is used.

Source: the balances of the AC bus and of the cells, derived here; sun on a plane after Hay and
Davies as pvlib has it; cells 25 K above the air at 800 W/m2, linear in temperature: common
practice, no source.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np
import pandas as pd
import pvlib

HOURS = 8760
MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
MONTH_OF_DAY = [month for month, days in enumerate(MONTH_DAYS) for _ in range(days)]
#: May to October.
SUMMER = range(4, 10)
#: Steps an hour of what is followed.
QUARTERS = 4
TINY = 1e-9
#: Efficiency of a solar inverter or charge controller, and of storing DC energy: common practice.
INVERTER, STORING = 0.96, 0.97
#: Time a solar inverter waits on a new bus [h]: from memory, not verified.
RECONNECT = 300 / 3600

Year = Sequence[float]


@dataclass
class Place:
    """A year of weather: W/m2, degrees Celsius, by hour of local standard time."""

    ghi: Year
    dni: Year
    dhi: Year
    air: Year
    latitude: float
    longitude: float
    utc_offset: float


def light_on(place: Place, tilt: float, azimuth: float) -> Any:
    """Return the irradiance on a plane in the middle of each hour [W/m2]."""
    middles = pd.date_range("2023-01-01 00:30", periods=HOURS, freq="h")
    universal = (middles - pd.Timedelta(hours=place.utc_offset)).tz_localize("UTC")
    sun = pvlib.solarposition.get_solarposition(universal, place.latitude, place.longitude)
    found = pvlib.irradiance.get_total_irradiance(
        tilt,
        azimuth,
        sun["zenith"].to_numpy(),
        sun["azimuth"].to_numpy(),
        # A sun below the horizon in the middle of the hour gives no beam: a choice, not pvlib's.
        np.where(sun["zenith"].to_numpy() <= 90, np.asarray(place.dni), 0.0),
        np.asarray(place.ghi),
        np.asarray(place.dhi),
        dni_extra=pvlib.irradiance.get_extra_radiation(np.repeat(np.arange(365) + 1, 24)),
        albedo=0.2,
        model="haydavies",
    )
    return np.nan_to_num(np.asarray(found["poa_global"]))


def sun_of_year(solar: dict[str, Any], place: Place) -> tuple[list[float], list[float]]:
    """Return the sun on the AC bus and on the cells' side by hour [kW]; everything is stated."""
    bus, cells = [0.0] * HOURS, [0.0] * HOURS
    for array in solar["arrays"]:
        shade = array["shading_percent"]
        light = light_on(place, array["tilt"], array["azimuth"])
        into = bus if array["coupling"] == "ac" else cells
        for hour in range(HOURS):
            month = MONTH_OF_DAY[hour // 24]
            shaded = shade[month] if isinstance(shade, list) else shade
            seen = light[hour] * solar.get("yield_factor", 1) * (1 - shaded / 100)
            warm = place.air[hour] + 25 * seen / 800 - 25
            power = array["dc_kw"] * seen / 1000 * (1 - solar["system_losses_percent"] / 100)
            power *= 1 - solar["temperature_coefficient"] / 100 * warm
            into[hour] += min(max(power, 0) * INVERTER, array["inverter_kw"])
    return bus, cells


#: Capacity over the need at design by use level: common practice, no source.
OVERSIZE = {"low": 1.25, "typical": 1.1, "high": 1.0}


def conditioning_of_year(unit: dict[str, Any], air: Year, level: str) -> list[float]:
    """Return the power of a heating or cooling unit by hour [kW]; size in kW, all stated.

    Degree-hour method; cooling begins 5 K under the set-point, heating ends 3 K under it; power
    rises by 1.1 % a kelvin above 35 degrees, and is 0.8 of the rated at least: common practice.
    """
    cools = unit["kind"] == "cooling"
    balance = (unit["indoor"] - 32) / 1.8 - (5 if cools else 3)
    design = (unit["design"] - 32) / 1.8
    found = []
    for outdoor in air:
        runs = (outdoor - balance) / (design - balance) / OVERSIZE[level]
        power = unit["size"]["kw"] * min(max(runs, 0), 1)
        found.append(power * max(1 + 0.011 * (outdoor - 35), 0.8) if cools else power)
    return found


@dataclass
class Unit:
    """Battery and what hangs on it: kWh, kW; powers by class, the first is never shed."""

    capacity: float
    start: float
    floor: float
    idle: float
    discharge: float
    charge: float
    limit: float
    charge_limit: float
    tiers: list[tuple[float, float]] = field(default_factory=list)
    restart: str = "none"
    restart_wait: float = 300 / 3600
    restart_least: float = 0.0
    restart_energy: float = math.inf
    dark_allowed: float = 0.0
    engine: dict[str, Any] | None = None


@dataclass
class Step:
    """What stays the same for a while: hours, kW by class, sun on bus and cells, engine allowed."""

    span: float
    loads: tuple[float, ...]
    bus: float
    cells: float
    allowed: bool = True


class Outage:
    """One outage on its way; times in hours from its start, energies in kWh."""

    def __init__(self, unit: Unit) -> None:
        self.unit, self.time, self.energy = unit, 0.0, unit.start
        self.up = unit.start > unit.floor
        self.on = [True] + [unit.start > shed for shed, _ in unit.tiers]
        self.running, self.waited, self.dark = False, 0.0, 0.0
        engine = unit.engine or {}
        self.fuel, self.refills = engine.get("tank", math.inf), engine.get("refills", 0)
        self.lost = self.over = self.first_dark = math.inf
        self.off = [math.inf] * len(unit.tiers)
        self.served = self.unserved = self.made = self.run_time = self.burnt = 0.0
        self.starts = self.used_refills = self.restarts = 0

    @property
    def held(self) -> float:
        """Return when the critical loads were lost: more in the dark than allowed, or too much."""
        return min(self.lost, self.over)

    def _engine_turns(self, step: Step) -> None:
        engine = self.unit.engine
        if engine is None:
            return
        if self.fuel <= 0 and self.running and self.refills > 0:
            self.fuel, self.refills = engine["tank"], self.refills - 1
            self.used_refills += 1
        able = step.allowed and (self.fuel > 0 or (self.refills > 0 and engine["tank"] > 0))
        self.able = able
        if self.running and (not able or self.energy >= engine["stop"] - TINY):
            self.running = False
        if self.running or not able:
            return
        asked = sum(load for load, on in zip(step.loads, self.on, strict=True) if on)
        wakes = not self.up and engine["power"] >= asked
        if wakes or (self.up and self.energy <= engine["start"] + TINY):
            self.running, self.up = True, True
            self.starts += 1
            self.restarts += wakes
            if self.fuel <= 0:
                self.fuel, self.refills = engine["tank"], self.refills - 1
                self.used_refills += 1

    def _flows(self, step: Step) -> tuple[float, float, float]:
        """Return what the cells gain, what is served, and what the engine gives [kW]."""
        unit, engine = self.unit, self.unit.engine
        if not self.up:
            gain = min(step.cells * STORING, unit.charge_limit) if unit.restart == "dc" else 0.0
            return gain, 0.0, 0.0
        asked = sum(load for load, on in zip(step.loads, self.on, strict=True) if on)
        supply = engine["power"] if self.running and engine else step.bus
        out = max(asked - supply, 0.0)
        if out > unit.limit + TINY:
            self.over = min(self.over, self.time)
        gain = step.cells - unit.idle - out / unit.discharge
        if gain > 0:
            gain = min(gain * STORING, unit.charge_limit)
        room = unit.charge_limit - max(gain, 0.0)
        if self.running and engine:
            room = min(room, engine["charge"])
        into = min(max(supply - asked, 0.0), room)
        gain += unit.charge * into
        if gain > 0 and self.energy >= unit.capacity - TINY:
            into, gain = into - gain / unit.charge, 0.0
        made = asked - out + max(into, 0.0) if self.running else 0.0
        return gain, asked, made

    def _next(self, step: Step, gain: float, made: float, left: float) -> tuple[float, str]:
        """Return how long until something happens [h], and what."""
        unit, engine = self.unit, self.unit.engine
        found = [(left, "end")]
        if self.up and gain < 0:
            levels = [(unit.floor, "lose")]
            levels += [
                (level, f"shed {tier}")
                for tier, (level, _) in enumerate(unit.tiers)
                if self.on[tier + 1]
            ]
            if engine and self.able and not self.running:
                levels.append((engine["start"], "engine"))
            found += [((self.energy - at) / -gain, what) for at, what in levels]
        if gain > 0:
            rises = [(unit.capacity, "full")]
            if not self.up:
                rises = [(unit.restart_energy, "wake")]
            elif self.running and engine:
                rises.append((engine["stop"], "engine"))
            rises += self._returns()
            found += [((at - self.energy) / gain, what) for at, what in rises]
        if self.up and gain == 0 and self.energy >= unit.capacity - TINY:
            found += [(0.0, what) for at, what in self._returns() if at <= self.energy + TINY]
        if self.running and engine:
            rate = engine["fixed"] + engine["linear"] * made
            if rate > 0 and math.isfinite(self.fuel):
                found.append((self.fuel / rate, "dry"))
        if not self.up and unit.restart == "bus" and self._covered(step):
            found.append((max(unit.restart_wait - self.waited, 0.0), "wake"))
        hours, what = min(found, key=lambda one: (max(one[0], 0.0), one[1] == "lose"))
        return max(hours, 0.0), what

    def _returns(self) -> list[tuple[float, str]]:
        return [
            (min(back, self.unit.capacity), f"back {tier}")
            for tier, (_, back) in enumerate(self.unit.tiers)
            if self.up and not self.on[tier + 1]
        ]

    def _covered(self, step: Step) -> bool:
        """Whether the sun on the bus is enough for a black start now."""
        unit = self.unit
        asked = sum(load for load, on in zip(step.loads, self.on, strict=True) if on)
        spare = min(step.bus - asked, unit.charge_limit)
        return self._sunny(step) and unit.charge * spare >= unit.idle

    def _sunny(self, step: Step) -> bool:
        return step.bus > 0 and step.bus >= self.unit.restart_least

    def take(self, step: Step) -> None:
        """Go through one step, event by event."""
        left = step.span
        while left > TINY:
            self._engine_turns(step)
            gain, served, made = self._flows(step)
            hours, what = self._next(step, gain, made, left)
            self._pass(step, gain, served, made, hours)
            self._happen(what)
            left -= hours

    def _pass(self, step: Step, gain: float, served: float, made: float, hours: float) -> None:
        engine = self.unit.engine
        self.served += served * hours
        self.unserved += (sum(step.loads) - served) * hours
        if self.running and engine:
            burnt = (engine["fixed"] + engine["linear"] * made) * hours
            self.burnt += burnt
            self.fuel -= burnt
            self.made += made * hours
            self.run_time += hours
        if hours > 0:
            for tier in range(len(self.unit.tiers)):
                if step.loads[tier + 1] > 0 and not (self.up and self.on[tier + 1]):
                    self.off[tier] = min(self.off[tier], self.time)
        if not self.up:
            allowed = self.unit.dark_allowed
            if self.dark <= allowed < self.dark + hours - TINY:
                self.lost = min(self.lost, self.time + allowed - self.dark)
            self.first_dark = min(self.first_dark, self.time)
            self.dark += hours
            self.waited = self.waited + hours if self._sunny(step) else 0.0
        self.energy = min(self.energy + gain * hours, self.unit.capacity)
        self.time += hours

    def _happen(self, what: str) -> None:
        if what == "lose":
            self.up = self.running = False
            self.energy, self.waited = self.unit.floor, 0.0
        elif what.startswith("shed"):
            self.on[int(what[5:]) + 1] = False
        elif what.startswith("back"):
            self.on[int(what[5:]) + 1] = True
        elif what == "wake":
            self.up = True
            self.restarts += 1
        elif what == "dry":
            self.fuel = 0.0


def year_steps(
    loads: Sequence[Sequence[float]],
    bus: Year,
    cells: Year,
    quiet: Sequence[tuple[float, float]] = (),
) -> list[Step]:
    """Return a year in quarter hours; ``loads`` are kW by class and quarter of the year."""
    found = []
    for at, powers in enumerate(zip(*loads, strict=True)):
        hour, of_day = at // QUARTERS, (at + 0.5) / QUARTERS % 24
        allowed = not any(_inside(of_day, *window) for window in quiet)
        found.append(Step(1 / QUARTERS, tuple(powers), bus[hour], cells[hour], allowed))
    return found


def _inside(hour: float, start: float, end: float) -> bool:
    """Whether a window of the day holds an hour; one that ends before it starts passes midnight."""
    return start <= hour < end if end > start else hour >= start or hour < end


def follow(year: Sequence[Step], start: float, hours: float, unit: Unit, lit: bool) -> Outage:
    """Return the outage that starts at an hour of the year [h], followed until it is lost.

    Where solar stands on the AC bus, ``lit``, the first five minutes have no sun from there.
    """
    outage, first = Outage(unit), round(start * QUARTERS)
    for quarter in range(first, first + math.ceil(hours * QUARTERS - TINY)):
        step = year[quarter % len(year)]
        if quarter == first and lit:
            outage.take(replace(step, span=RECONNECT, bus=0.0))
            step = replace(step, span=step.span - RECONNECT)
        outage.take(step)
        if outage.held < outage.time:
            break
    return outage
