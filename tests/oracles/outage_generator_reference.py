"""Course of an outage with a generator or DC-coupled sun, one scenario at a time.

The independent reference of the outage stepper: plain numbers, one event after the other, in kWh,
kW and hours. Where two things fall due at one instant, it takes the first of its list.

Source: derived here from the balances of the AC bus and of the cells; the rules at the thresholds
are those that the stepper states in its notes.
"""

import math
from dataclasses import dataclass, field

Interval = tuple[float, list[float], float, float, bool]
"""Hours, kW by class, kW of the AC source, kW of the DC-coupled sun, whether it may run."""

TINY = 1e-9  # hours, kWh


@dataclass
class House:
    """A battery, what hangs on it, and a generator (power 0: none)."""

    capacity: float
    start: float
    floor: float = 0.0
    fixed: float = 0.0
    linear: float = 1.0
    square: float = 0.0
    charge_efficiency: float = 1.0
    dc_efficiency: float = 1.0
    discharge_limit: float = math.inf
    charge_limit: float = math.inf
    tiers: list[tuple[float, float]] = field(default_factory=list)
    proportional: bool = False
    restart_energy: float = math.inf
    power: float = 0.0
    start_at: float = -math.inf
    stop_at: float = math.inf
    run_charge_limit: float = math.inf
    tank: float = math.inf
    refills: int = 0
    burn_fixed: float = 0.0
    burn_linear: float = 0.0


@dataclass
class Powers:
    """What flows while nothing changes [kW]."""

    served: list[float]
    limited: bool
    generated: float
    used: float
    refused: float
    passed: float
    loss: float
    rate: float
    held: bool = False


class Walk:
    """One scenario on its way; times in hours, energies in kWh."""

    def __init__(self, house: House, classes: int) -> None:
        self.house, self.time, self.energy = house, 0.0, house.start
        self.up = house.start > house.floor
        self.kept = [True] + [house.start > shed for shed, _ in house.tiers]
        self.running, self.tank, self.refills_left = False, house.tank, house.refills
        self.starts = self.restarts = self.refills_used = 0
        self.fuel = self.run_time = self.dark = 0.0
        self.served, self.unserved = [0.0] * classes, [0.0] * classes
        self.generated = self.used = self.refused = self.passed = self.loss = 0.0
        self.first_loss = self.first_limit = math.nan
        self.first_off = [math.nan] * (classes - 1)
        self.least = house.start

    def powers(self, step: Interval) -> Powers:
        """Apply the step rule to what is on."""
        house, (_, loads, source, dc, _) = self.house, step
        if not self.up:
            return self._dark_powers(loads, source, dc)
        supply = house.power if self.running else source
        served = [load if on else 0.0 for load, on in zip(loads, self.kept, strict=True)]
        limited = sum(served) - supply > house.discharge_limit + TINY
        if limited and not house.proportional:
            for k in range(len(served) - 1, 0, -1):
                if sum(served) - supply > house.discharge_limit + TINY:
                    served[k] = 0.0
        if sum(served) - supply > house.discharge_limit + TINY:
            share = (house.discharge_limit + supply) / sum(served)
            served = [power * share for power in served]
        out = max(sum(served) - supply, 0.0)
        spare = max(supply - sum(served), 0.0)
        limit = house.charge_limit
        if self.running:
            limit = min(limit, house.run_charge_limit)
        charge = min(spare, limit)
        inner = house.fixed + house.linear * out + house.square * out**2
        balance = house.charge_efficiency * charge - inner
        direct = min(dc, max(-balance, 0.0))
        stored = min((dc - direct) * house.dc_efficiency, house.charge_limit - max(balance, 0.0))
        rate = balance + direct + stored
        held = self.energy >= house.capacity - TINY and rate > 0.0
        if held:
            back = min(stored, rate)
            stored -= back
            charge -= (rate - back) / house.charge_efficiency
            rate = 0.0
        sun = direct + (stored / house.dc_efficiency if house.dc_efficiency > 0.0 else 0.0)
        from_source = 0.0 if self.running else source - (spare - charge)
        loss = inner - out + (1.0 - house.charge_efficiency) * charge + sun - direct - stored
        return Powers(
            served=served,
            limited=limited,
            generated=sum(served) - out + charge if self.running else 0.0,
            used=from_source + sun,
            refused=(0.0 if self.running else source - from_source) + dc - sun,
            passed=source if self.running else 0.0,
            loss=loss,
            rate=rate,
            held=held,
        )

    def _dark_powers(self, loads: list[float], source: float, dc: float) -> Powers:
        house, nothing = self.house, [0.0] * len(loads)
        if math.isinf(house.restart_energy):
            return Powers(nothing, False, 0.0, 0.0, 0.0, source + dc, 0.0, 0.0)
        stored = min(dc * house.dc_efficiency, house.charge_limit)
        taken = stored / house.dc_efficiency if house.dc_efficiency > 0.0 else 0.0
        return Powers(nothing, False, 0.0, taken, dc - taken, source, taken - stored, stored)

    def switch(self, step: Interval) -> None:
        """Start or stop the generator, if this is the moment."""
        house, (_, loads, _, _, allowed) = self.house, step
        able = allowed and house.power > 0.0 and self.tank > 0.0
        if self.running and (not able or self.energy >= house.stop_at):
            self.running = False
        if self.running or not able:
            return
        if not self.up:
            asked = sum(load for load, on in zip(loads, self.kept, strict=True) if on)
            limit = min(house.charge_limit, house.run_charge_limit)
            spare = min(house.power - asked, limit)
            if spare * house.charge_efficiency >= house.fixed:
                self._revive()
                self._start()
        elif self.energy <= house.start_at:
            self._start()

    def _start(self) -> None:
        self.running = True
        self.starts += 1

    def _revive(self) -> None:
        self.up = True
        self.restarts += 1

    def burn(self, powers: Powers) -> float:
        """Fuel burnt in an hour."""
        if not self.running:
            return 0.0
        return self.house.burn_fixed + self.house.burn_linear * powers.generated

    def ahead(self, powers: Powers, left: float) -> list[tuple[float, str, int]]:
        """What may come next: hours until then, its name, and the tier it happens to."""
        house, rate = self.house, powers.rate
        found = [(left, "end", 0)]
        if rate < 0.0:
            fall = [(house.floor, "lose", 0)]
            if house.power > 0.0 and not self.running and self.able:
                fall.insert(0, (house.start_at, "look", 0))
            for k in range(len(house.tiers), 0, -1):
                if self.kept[k]:
                    fall.insert(-1, (house.tiers[k - 1][0], "shed", k))
            found += [(max(self.energy - e, 0.0) / -rate, what, k) for e, what, k in fall]
        if powers.held:
            found += [(0.0, "restore", k) for e, k in self._restores() if e <= self.energy + TINY]
        if rate > 0.0:
            rise = [(house.capacity, "full", 0)]
            if self.running and house.stop_at < house.capacity:
                rise.insert(0, (house.stop_at, "look", 0))
            if not self.up:
                rise = [(min(house.restart_energy, house.capacity), "revive", 0)]
            rise = [(e, "restore", k) for e, k in self._restores()] + rise
            found += [(max(e - self.energy, 0.0) / rate, what, k) for e, what, k in rise]
        burn = self.burn(powers)
        if burn > 0.0 and math.isfinite(self.tank):
            found.append((self.tank / burn, "dry", 0))
        return found

    def _restores(self) -> list[tuple[float, int]]:
        """Levels at which tiers come back, the highest priority first."""
        top = self.house.capacity
        levels = [(min(back, top), shed) for shed, back in self.house.tiers]
        return [
            (back, k + 1)
            for k, (back, shed) in enumerate(levels)
            if self.up and not self.kept[k + 1] and back > shed + TINY
        ]

    def walk(self, steps: list[Interval]) -> None:
        """Go through all steps."""
        for step in steps:
            left = step[0]
            self.able = step[4] and self.tank > 0.0
            while left > 0.0:
                self.switch(step)
                powers = self.powers(step)
                hours, what, k = min(self.ahead(powers, left), key=lambda one: one[0])
                self._pass(step, powers, hours)
                left = 0.0 if what == "end" else left - hours
                self._happen(what, k)
                self.able = step[4] and self.tank > 0.0

    def _pass(self, step: Interval, powers: Powers, hours: float) -> None:
        loads = step[1]
        if hours > 0.0:
            self._first(loads, powers)
        for k, load in enumerate(loads):
            self.served[k] += powers.served[k] * hours
            self.unserved[k] += (load - powers.served[k]) * hours
        self.generated += powers.generated * hours
        self.used += powers.used * hours
        self.refused += powers.refused * hours
        self.passed += powers.passed * hours
        self.loss += powers.loss * hours
        burnt = self.burn(powers) * hours
        self.fuel += burnt
        self.tank -= burnt
        self.run_time += hours if self.running else 0.0
        self.dark += 0.0 if self.up else hours
        self.energy += powers.rate * hours
        self.time += hours
        self.least = min(self.least, self.energy)

    def _first(self, loads: list[float], powers: Powers) -> None:
        if not self.up and loads[0] > 0.0 and math.isnan(self.first_loss):
            self.first_loss = self.time
        if powers.limited and math.isnan(self.first_limit):
            self.first_limit = self.time
        for k in range(1, len(loads)):
            whole = self.house.proportional and powers.limited and self.kept[k]
            missed = loads[k] > 0.0 and powers.served[k] == 0.0 and not whole
            if missed and math.isnan(self.first_off[k - 1]):
                self.first_off[k - 1] = self.time

    def _happen(self, what: str, k: int) -> None:
        house = self.house
        if what == "lose":
            self.up = self.running = False
            self.energy = house.floor
        elif what == "shed":
            self.kept[k] = False
            self.energy = house.tiers[k - 1][0]
        elif what == "restore":
            self.kept[k] = True
        elif what == "revive":
            self._revive()
        elif what == "full":
            self.energy = house.capacity
        elif what == "look":
            stop, start = max(self.energy, house.stop_at), min(self.energy, house.start_at)
            self.energy = stop if self.running else start
        elif what == "dry":
            self.tank = 0.0
            if self.refills_left:
                self.tank, self.refills_left = house.tank, self.refills_left - 1
                self.refills_used += 1
