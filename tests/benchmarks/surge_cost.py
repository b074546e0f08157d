"""What a surge answer costs beside a bare handler, and the array path beside an integrator.

Run it with ``python -m tests.benchmarks.surge_cost``; both ratios are of one run on one machine.
"""

from __future__ import annotations

import json
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

from service.checks.surge_feasibility.nominal_start import VoltageLimits, start
from service.checks.surge_feasibility.start_case import beside
from tests.benchmarks.frame_ratio import _sides, measure
from tests.benchmarks.loopback import ROOT, served
from tests.checks.surge_feasibility.test_start_properties import random_starts
from tests.oracles.motor_start_reference import start_reference

_EXAMPLE = ROOT / "openapi/examples/surge-feasibility/a-compressor.request.json"
_PAIRS, _INTEGRATED = 1000, 40
ANSWER_TARGET, ARRAY_TARGET = 300.0, 50.0


def array_ratio() -> tuple[float, float, float]:
    """Return the time of a start by integrator and in an array of 1,000 [ms], and their ratio."""
    drawn = [random_starts(seed) for seed in range(6)]
    case = beside(*drawn)
    assert len(case.rated_volts) >= _PAIRS
    limits = VoltageLimits(
        *(np.full(len(case.rated_volts), x) for x in (0.5, 0.16, 0.55, 0.017, 0.9, 0.0))
    )
    best = min(_timed(lambda: start(case, limits)) for _ in range(3)) / len(case.rated_volts)
    places = range(0, len(case.rated_volts), len(case.rated_volts) // _INTEGRATED)
    slow = _timed(lambda: [start_reference(case, lane) for lane in places]) / len(places)
    return slow * 1000, best * 1000, slow / best


def _timed(work: object) -> float:
    begun = time.process_time()
    with np.errstate(all="ignore"):
        work()  # type: ignore[operator]
    return time.process_time() - begun


def main() -> int:
    """Measure, print, and say whether both targets are met."""
    body = json.loads(_EXAMPLE.read_bytes())
    with (
        tempfile.TemporaryDirectory() as place,
        served("service", "serve", log=Path(place) / "service") as real,
        _sides(real, "surge-feasibility", body, Path(place)) as (ours, bare),
    ):
        found = measure(ours, bare, 9, 15)
    slow, fast, ratio = array_ratio()
    out = sys.stdout.write
    out(
        f"one motor, corners, remedies, questions: {found.ours:.0f} us against {found.bare:.0f} us "
        f"of a bare handler, ratio {found.ratio:.0f} (at most {ANSWER_TARGET:g})\n"
    )
    out(
        f"a start by integrator {slow:.1f} ms, in an array {fast:.3f} ms, ratio {ratio:.0f} "
        f"(at least {ARRAY_TARGET:g})\n"
    )
    return 0 if found.ratio <= ANSWER_TARGET and ratio >= ARRAY_TARGET else 1


if __name__ == "__main__":
    raise SystemExit(main())
