"""What a crowded wall with its fixes costs beside a bare handler, and the array path.

Run it with ``python -m tests.benchmarks.clearance_cost``; the ratios are of one run on one machine.
"""

from __future__ import annotations

import json
import sys
import tempfile
import time
from pathlib import Path

import numpy as np

from service.checks.clearance import CHECK
from service.http.answering import Answering
from service.http.server import collect_seldom
from tests.benchmarks.frame_ratio import Ratio, _sides, measure
from tests.benchmarks.loopback import ROOT, served

#: Twelve objects, three units, and the fixes.
_EXAMPLE = ROOT / "openapi/examples/clearance/c-no-room.request.json"
_SCENES = 10_000
TARGET, ARRAY_TARGET_S = 25.0, 5.0


def array_seconds() -> float:
    """Return the CPU time of the places on 10,000 walls of other widths and depths [s].

    The collector of garbage is set as the server sets it.
    """
    body = json.loads(_EXAMPLE.read_bytes())
    rng = np.random.default_rng(1)
    answering = Answering(CHECK)
    requests = []
    for width, depth in rng.uniform((10, 6), (40, 14), (_SCENES, 2)).tolist():
        body["units"][0] |= {"width": width, "depth": depth}
        request, _ = answering.take(json.dumps(body).encode())
        requests.append(request)
    CHECK.columns(**CHECK.arguments(requests[:10]))
    collect_seldom()
    begun = time.process_time()
    CHECK.columns(**CHECK.arguments(requests))
    return time.process_time() - begun


def main() -> int:
    """Measure, print, and say whether the targets are met."""
    body = json.loads(_EXAMPLE.read_bytes())
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        with (
            served("service", "serve", log=folder / "service") as real,
            _sides(real, "clearance", body, folder) as (ours, bare),
        ):
            found: Ratio = measure(ours, bare, 9, 40)
    seconds = array_seconds()
    out = sys.stdout.write
    out(
        f"a crowded wall with fixes: {found.ours:.0f} us against {found.bare:.0f} us of a bare "
        f"handler, ratio {found.ratio:.0f} (at most {TARGET:g})\n"
    )
    out(f"10,000 scenes: {seconds:.2f} s (at most {ARRAY_TARGET_S:g} s)\n")
    return 0 if found.ratio <= TARGET and seconds <= ARRAY_TARGET_S else 1


if __name__ == "__main__":
    raise SystemExit(main())
