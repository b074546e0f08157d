"""Throughput of the outage stepper against a plain C loop, and the time of a year of starts.

10,000 scenarios x 672 quarter hours (three tiers, power and charge limits, draw at no load,
curtailment, loss at the floor, black start) go through the stepper and through the same rule in C,
scenario by scenario, as gcc -O3 makes it. The C loop sheds and restores at the starts of steps; the
stepper solves every event time. The C loop also adds up what is unserved and curtailed; the stepper
is measured without its energies (the target) and with all of them, by class. Then 8760 start hours
x 336 h on strided views of one year. All in turns, several rounds, the least time of each.
Scenarios and year are invented.

Prints times and ratios; exits with 1 where a target is missed, with 0 where there is no gcc.
"""

from __future__ import annotations

import argparse
import ctypes
import math
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from service.physics.outage_steps import StepsRestart, step_outages

SCENARIOS, STEPS = 10_000, 672
RATIO_TARGET = 0.5
YEAR_TARGET_MS = 90.0
KWH = 3.6e6  # J
SOURCE = Path(__file__).with_name("step_simulation_reference.c")

Floats = NDArray[np.float64]


class Scenarios:
    """Invented homes on shared profiles, in kW and kWh as the C loop takes them."""

    def __init__(self) -> None:
        rng, n = np.random.default_rng(3), SCENARIOS
        hour = np.arange(STEPS) / 4 % 24
        self.critical = 0.15 + 0.1 * np.exp(-(((hour - 19) / 3) ** 2))
        self.normal = 0.2 + 0.5 * np.exp(-(((hour - 19) / 2.5) ** 2))
        self.comfort = 0.1 + 0.8 * np.exp(-(((hour - 18) / 2) ** 2))
        sky = 0.4 + 0.6 * np.repeat(rng.random(7), 96)
        self.sun = np.maximum(0.0, np.sin(np.pi * (hour - 6) / 12)) * sky
        self.load_scale, self.sun_scale = rng.uniform(0.5, 2, n), rng.uniform(2, 8, n)
        self.capacity, self.efficiency = rng.uniform(8, 30, n), rng.uniform(0.92, 0.98, n)
        self.discharge, self.charge = rng.uniform(3, 8, n), rng.uniform(3, 6, n)
        self.idle = rng.uniform(0.01, 0.06, n)
        self.shed = np.stack([0.3 * self.capacity, 0.5 * self.capacity])
        self.start = self.capacity * rng.uniform(0.5, 1, n)

    def step(self, account: bool) -> Any:
        """Go through the stepper; a tier is back a tenth of the capacity above its shed level."""
        load = np.stack([self.critical, self.normal, self.comfort], axis=1)[:, :, np.newaxis]
        return step_outages(
            duration=np.full(STEPS, 900.0),
            load=load * 1e3,
            load_scale=self.load_scale,
            source=self.sun[:, np.newaxis] * 1e3,
            source_scale=self.sun_scale,
            capacity=self.capacity * KWH,
            start_energy=self.start * KWH,
            floor=0.0,
            discharge_fixed=self.idle * 1e3,
            discharge_linear=1 / self.efficiency,
            discharge_square=0.0,
            charge_efficiency=self.efficiency,
            discharge_limit=self.discharge * 1e3,
            charge_limit=self.charge * 1e3,
            shed_at=self.shed * KWH,
            restore_at=(self.shed + 0.1 * self.capacity) * KWH,
            power_limit_rule=1,
            restart=StepsRestart(mode=1, black_start_power=1.0),
            account=account,
        )

    def plain_loop(self, library: ctypes.CDLL) -> Callable[[], Floats]:
        """The C loop on the same scenarios; a call gives the hours until empty, -1 for never."""
        inputs = [self.critical, self.normal, self.comfort, self.sun, self.load_scale]
        inputs += [self.sun_scale, self.capacity, self.efficiency, 1 / self.efficiency]
        inputs += [1 / self.efficiency, self.discharge, self.charge, self.idle]
        inputs += [self.shed[0], self.shed[1], self.start]
        arrays = [np.ascontiguousarray(values, dtype=np.float64) for values in inputs]
        arrays += [np.empty(SCENARIOS) for _ in range(4)]
        kind = ctypes.POINTER(ctypes.c_double)
        # A pointer of this kind keeps its array alive.
        pointers = [values.ctypes.data_as(kind) for values in arrays]

        def call() -> Floats:
            library.d_scen(SCENARIOS, STEPS, ctypes.c_double(0.25), *pointers)
            return arrays[-4]

        return call


def year_of_starts() -> Callable[[], Any]:
    """8760 starts x 336 h, three tiers and sun, one lane a start hour, the year wraps around."""
    rng, hour = np.random.default_rng(5), np.arange(8760) % 24
    evening = 1 + 1.5 * np.exp(-(((hour - 19) / 3.0) ** 2))
    year = 250.0 * evening * rng.uniform(0.7, 1.3, 8760)
    classes = np.array([year, year, 0.8 * year])
    sky = np.repeat(rng.uniform(0.15, 1.0, 365), 24)
    sun = 4e3 * np.maximum(0.0, np.sin(math.pi * (hour - 6) / 12)) * sky
    load = sliding_window_view(np.tile(classes, 2), 8760, axis=1)[:, :336].swapaxes(0, 1)
    source = sliding_window_view(np.tile(sun, 2), 8760)[:336]

    def call() -> Any:
        return step_outages(
            duration=np.full(336, 3600.0),
            load=load,
            source=source,
            capacity=20 * KWH,
            start_energy=20 * KWH,
            floor=0.0,
            discharge_fixed=30.0,
            discharge_linear=1 / 0.95,
            discharge_square=0.0,
            charge_efficiency=0.95,
            discharge_limit=5e3,
            charge_limit=5e3,
            shed_at=np.array([4 * KWH, 8 * KWH]),
            restore_at=np.array([6 * KWH, 10 * KWH]),
        )

    return call


def least_ms(calls: dict[str, Callable[[], Any]], rounds: int) -> dict[str, float]:
    """Least time of each call [ms], in turns, so that a slow moment meets them all."""
    least = dict.fromkeys(calls, math.inf)
    for _ in range(rounds):
        for name, call in calls.items():
            begun = time.perf_counter()
            call()
            least[name] = min(least[name], (time.perf_counter() - begun) * 1e3)
    return least


def compiled(folder: str) -> ctypes.CDLL | None:
    """The C loop as gcc -O3 makes it; None where there is no gcc."""
    gcc = shutil.which("gcc")
    if gcc is None:
        return None
    library = Path(folder) / "loop.so"
    command = [gcc, "-O3", "-fPIC", "-shared", "-o", str(library), str(SOURCE), "-lm"]
    subprocess.run(command, check=True)
    return ctypes.CDLL(str(library))


def say(text: str) -> None:
    sys.stdout.write(text + "\n")


def main() -> int:
    """Measure and print; 1 where a target is missed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--rounds", type=int, default=9)
    rounds = parser.parse_args().rounds
    with tempfile.TemporaryDirectory() as folder:
        library = compiled(folder)
        if library is None:
            say("no gcc at hand: nothing to measure against")
            return 0
        scenarios = Scenarios()
        calls: dict[str, Callable[[], Any]] = {
            "C loop": scenarios.plain_loop(library),
            "stepper, times": lambda: scenarios.step(False),
            "stepper, times and energies": lambda: scenarios.step(True),
            "year of starts": year_of_starts(),
        }
        found = least_ms(calls, rounds)
    work = SCENARIOS * STEPS
    for name in list(calls)[:3]:
        pace, ratio = work / found[name] / 1e3, found["C loop"] / found[name]
        say(f"{name:28s} {found[name]:8.1f} ms {pace:7.1f} M steps/s, {ratio:.2f} of the C loop")
    say(f"{'8760 starts x 336 h':28s} {found['year of starts']:8.1f} ms")
    fast = found["C loop"] / found["stepper, times"] >= RATIO_TARGET
    return 0 if fast and found["year of starts"] < YEAR_TARGET_MS else 1


if __name__ == "__main__":
    sys.exit(main())
