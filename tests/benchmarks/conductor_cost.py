"""What a sized circuit costs beside a bare handler, and the array path.

Run it with ``python -m tests.benchmarks.conductor_cost``; the ratio is of one run on one machine.
"""

from __future__ import annotations

import json
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

from service.checks.conductor_sizing import CHECK
from service.checks.conductor_sizing.arguments import arguments, lanes_of
from service.checks.conductor_sizing.circuit_lanes import CircuitLanes, DropTargets
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.segment_factors import Segments
from service.checks.conductor_sizing.sizing import sizing
from service.checks.conductor_sizing.tables import code_tables
from service.http.answering import Answering
from tests.benchmarks.frame_ratio import _sides, measure
from tests.benchmarks.loopback import ROOT, served

_EXAMPLE = ROOT / "openapi/examples/conductor-sizing/c-across-the-yard.request.json"
_LANES = 100_000
ANSWER_TARGET, ARRAY_TARGET_S = 20.0, 1.0


def array_seconds() -> float:
    """Return the CPU time of 100,000 circuits of other amps, distance and heat [s]."""
    request, _ = Answering(CHECK).take(_EXAMPLE.read_bytes())
    assert isinstance(request, ConductorSizingRequest)
    one = lanes_of(arguments([request]))
    rng = np.random.default_rng(1)
    many = np.zeros(_LANES, dtype=int)
    members = {
        name: member[many]
        for name, member in one._asdict().items()
        if name not in ("segments", "targets")
    }
    segments = Segments._make(member[many] for member in one.segments)
    targets = DropTargets._make(member[many] for member in one.targets)
    amps = rng.uniform(5, 200, _LANES)
    lanes = CircuitLanes(
        segments=segments._replace(
            length=segments.length * rng.uniform(0.1, 4, (_LANES, 1)),
            ambient=segments.ambient + rng.uniform(-10, 15, (_LANES, 1)),
        ),
        targets=targets._replace(amps=amps[:, None]),
        **(members | {"amps": amps, "raised_amps": 1.25 * amps}),
    )
    tables = code_tables("nec-2023")
    sizing(lanes, tables)
    begun = time.process_time()
    sizing(lanes, tables)
    return time.process_time() - begun


def main() -> int:
    """Measure, print, and say whether both targets are met."""
    body = json.loads(_EXAMPLE.read_bytes())
    with (
        tempfile.TemporaryDirectory() as place,
        served("service", "serve", log=Path(place) / "service") as real,
        _sides(real, "conductor-sizing", body, Path(place)) as (ours, bare),
    ):
        found = measure(ours, bare, 9, 40)
    seconds = array_seconds()
    out = sys.stdout.write
    out(
        f"three parts, both materials, table by distance: {found.ours:.0f} us against "
        f"{found.bare:.0f} us of a bare handler, ratio {found.ratio:.0f} (at most "
        f"{ANSWER_TARGET:g})\n"
    )
    out(f"100,000 circuits of three parts: {seconds:.2f} s (at most {ARRAY_TARGET_S:g} s)\n")
    return 0 if found.ratio <= ANSWER_TARGET and seconds <= ARRAY_TARGET_S else 1


if __name__ == "__main__":
    raise SystemExit(main())
