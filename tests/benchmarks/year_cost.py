"""What the yearly outage costs: all start hours of two weeks, and a full answer through HTTP.

Run it with ``python -m tests.benchmarks.year_cost``; it prints the best of several runs and, as a
ratio, what the year costs beside an outage that is the same on every day.
"""

from __future__ import annotations

import sys

import numpy as np

from service.checks.outage_runtime import CHECK
from service.http.answering import Answering
from service.physics.ride_through import first_losses
from tests.benchmarks.assessment_cost import _EXAMPLES, best

_HOURS, _STEPS = 8760, 336


def every_start() -> float:
    """Return the time of 8,760 starts through 336 hours in one call of the array path [ms]."""
    generator = np.random.default_rng(1)
    year = np.tile(generator.uniform(-900.0, 800.0, _HOURS), 2)
    rows = [year[k : k + _HOURS] for k in range(_STEPS)]
    spans = np.full(_STEPS, 3600.0)

    def run() -> None:
        first_losses(duration=spans, balance=rows, capacity=1e9, start_energy=5e8, floor=0.0)

    return best(run)


def answer(name: str) -> float:
    """Return the time from the bytes of an example to the bytes of its answer [ms]."""
    body = (_EXAMPLES / "outage-runtime" / f"{name}.request.json").read_bytes()
    answering = Answering(CHECK)

    def run() -> None:
        request, _ = answering.take(body)
        answering.answer(request, frozenset())

    return best(run)


def main() -> int:
    """Print what was measured; return 0."""
    plain, year = answer("b-all-known"), answer("g-sun-and-weather")
    generator = answer("h-generator")
    out = sys.stdout.write
    out(f"8,760 starts x 336 h, straight: {every_start():.1f} ms (90 wanted)\n")
    out(f"bytes to bytes, the same every day: {plain:.1f} ms\n")
    out(f"bytes to bytes, a year with sun: {year:.1f} ms (150 wanted), {year / plain:.1f} times\n")
    out(f"bytes to bytes, a generator: {generator:.1f} ms, {generator / plain:.1f} times\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
