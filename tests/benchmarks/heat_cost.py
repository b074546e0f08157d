"""What a day and a year of heat cost beside a bare handler, and the array path.

Run it with ``python -m tests.benchmarks.heat_cost``; the ratios are of one run on one machine.
"""

from __future__ import annotations

import json
import sys
import tempfile
import time
from pathlib import Path
from typing import Any

import numpy as np

from service.checks.heat_exposure import CHECK
from service.checks.heat_exposure.arguments import arguments
from service.checks.heat_exposure.columns import columns
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.verdicts import verdicts
from service.http.answering import Answering
from service.http.server import collect_seldom
from tests.benchmarks.frame_ratio import Ratio, _sides, in_numbers, measure
from tests.benchmarks.loopback import ROOT, Served, served

_EXAMPLE = ROOT / "openapi/examples/heat-exposure/a-west-wall.request.json"
_SCENES = 10_000
DAY_TARGET, YEAR_TARGET, ARRAY_TARGET_S = 25.0, 60.0, 5.0


def array_seconds() -> tuple[float, float]:
    """Return the CPU time of 10,000 scenes of other sizes and facings: arrays, verdicts [s].

    The collector of garbage is set as the server sets it.
    """
    body = json.loads(_EXAMPLE.read_bytes())
    rng = np.random.default_rng(1)
    answering = Answering(CHECK)
    requests: list[HeatExposureRequest] = []
    for width, facing in rng.uniform((10, 0), (50, 360), (_SCENES, 2)).tolist():
        body["unit"]["width"] = width
        body["place"]["walls"][0]["facing"] = facing
        request, _ = answering.take(json.dumps(body).encode())
        assert isinstance(request, HeatExposureRequest)
        requests.append(request)
    verdicts(requests[:10])
    collect_seldom()
    begun = time.process_time()
    columns(**arguments(requests, remedies=False))
    between = time.process_time()
    verdicts(requests)
    return between - begun, time.process_time() - between


def _asked(real: Served, operation: str, body: Any, folder: Path) -> Ratio:
    with _sides(real, operation, body, folder) as (ours, bare):
        return measure(ours, bare, 9, 40)


def main() -> int:
    """Measure, print, and say whether the targets are met."""
    body = in_numbers("heat-exposure", _EXAMPLE)
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        with served("service", "serve", log=folder / "service") as real:
            day = _asked(real, "heat-exposure", body, folder)
            year = _asked(real, "heat-exposure?include=series", body, folder)
    seconds, with_verdicts = array_seconds()
    out = sys.stdout.write
    for what, found, target in (("day", day, DAY_TARGET), ("year", year, YEAR_TARGET)):
        out(
            f"one wall, {what}: {found.ours:.0f} us against {found.bare:.0f} us of a bare handler, "
            f"ratio {found.ratio:.0f} (at most {target:g})\n"
        )
    out(
        f"10,000 scenes: {seconds:.2f} s (at most {ARRAY_TARGET_S:g} s), "
        f"{with_verdicts:.2f} s to their verdicts\n"
    )
    met = day.ratio <= DAY_TARGET and year.ratio <= YEAR_TARGET and seconds <= ARRAY_TARGET_S
    return 0 if met else 1


if __name__ == "__main__":
    raise SystemExit(main())
