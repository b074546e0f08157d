"""How long a small request waits while the service calculates a large one, again and again.

A small request is asked at a fixed rate, whether or not the last was answered in time, so that a
stall counts for every request that falls into it. Beside it, one after the other: nothing; an
operation that computes in Python alone; the site assessment of the demo lead; a large body that is
refused. Prints the median, 99th percentile and longest wait, and exits with 1 where a 99th
percentile is 50 ms or more.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from threading import Event, Thread

from tests.benchmarks.loopback import ROOT, Client, post, say, served

_TARGET_MS = 50.0
_PERIOD_S = 0.02
_LEADS = ROOT / "openapi/examples/site-assessment"
_LOAD = {"kind": "own", "name": "Lamp", "watts": 60}
_SMALL = post("/v1/dummy", {"loads": [_LOAD]})
_PYTHON = post("/v1/dummy", {"loads": [_LOAD], "predicted_ms": 500, "busy_ms": 500})
_REFUSED = post("/v1/dummy", b'{"loads":[' + b'{"a":1},' * 7500 + b"1]}")


def _waits(port: int, request: bytes, seconds: float) -> list[float]:
    """Return how long each small request waited from the moment it was due [ms], sorted."""
    waits: list[float] = []
    with Client(port) as client:
        client.send(request)
        begun = time.perf_counter()
        for place in range(int(seconds / _PERIOD_S)):
            due = begun + place * _PERIOD_S
            time.sleep(max(0.0, due - time.perf_counter()))
            client.send(request)
            waits.append((time.perf_counter() - due) * 1000.0)
    return sorted(waits)


def _beside(port: int, large: bytes | None, run: Callable[[], list[float]]) -> list[float]:
    """Return what `run` returns while the large request is asked again and again."""
    stop = Event()

    def ask() -> None:
        with Client(port, timeout=60.0) as client:
            while not stop.is_set() and large is not None:
                client.send(large)

    asking = Thread(target=ask)
    asking.start()
    try:
        return run()
    finally:
        stop.set()
        asking.join()


def _report(name: str, waits: list[float]) -> bool:
    median, p99, longest = waits[len(waits) // 2], waits[int(len(waits) * 0.99)], waits[-1]
    say(
        f"beside {name}: median {median:.1f} ms, 99th percentile {p99:.1f} ms "
        f"(target below {_TARGET_MS:g}), longest {longest:.1f} ms of {len(waits)}"
    )
    return p99 < _TARGET_MS


def _small_lead() -> bytes:
    return post("/v1/site-assessment", (_LEADS / "b-no-candidate.request.json").read_bytes())


def main() -> int:
    """Measure, print, and say whether the target is met."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=8.0, help="time for each of the cases")
    seconds = parser.parse_args().seconds
    met: list[bool] = []
    with tempfile.TemporaryDirectory() as folder:
        with served("tests.benchmarks.dummy_server", log=Path(folder) / "dummy") as dummy:
            beside = {"nothing": None, "Python": _PYTHON, "refused bodies": _REFUSED}
            for name, large in beside.items():
                waits = _beside(dummy.port, large, lambda: _waits(dummy.port, _SMALL, seconds))
                met.append(_report(name, waits))
        with served("service", "serve", log=Path(folder) / "service") as real:
            lead = (_LEADS / "a-demo-lead.request.json").read_bytes()
            large = post("/v1/site-assessment", lead)
            small = _small_lead()
            waits = _beside(real.port, large, lambda: _waits(real.port, small, seconds))
            met.append(_report("site assessments", waits))
    return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main())
