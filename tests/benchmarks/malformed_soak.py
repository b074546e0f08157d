"""Random malformed requests against the real service: it refuses, and nothing else happens.

Exits with 1 where one is answered with a 5xx other than 503 with Retry-After, or later than 2 s;
where the log holds a traceback; or where memory grows after the first quarter of the time.
"""

from __future__ import annotations

import argparse
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from tests.benchmarks.loopback import Client, Served, say, served
from tests.benchmarks.malformed_bodies import Requests

_LATEST_S = 2.0
#: Memory of the allocator that comes and goes by itself [MiB].
_GROWTH_MIB = 6.0


class Soak:
    """What was answered so far."""

    def __init__(self, port: int) -> None:
        self._port = port
        self._client = Client(port)
        self.statuses: Counter[int] = Counter()
        self.faults: list[str] = []
        self.longest = 0.0

    def ask(self, request: bytes) -> None:
        """Send one request and note its answer."""
        begun = time.perf_counter()
        try:
            got = self._client.send(request)
        except ConnectionError as error:
            self._client = Client(self._port)
            self.faults.append(f"no answer ({error}): {request[:2000]!r}")
            return
        waited = time.perf_counter() - begun
        self.longest = max(self.longest, waited)
        self.statuses[got.status] += 1
        shed = got.status == 503 and b"retry-after" in got.head.lower()
        if (got.status >= 500 and not shed) or waited > _LATEST_S:
            self.faults.append(f"{got.status} after {waited:.2f} s: {request[:2000]!r}")


def soak(server: Served, seconds: float, seed: int) -> tuple[Soak, float]:
    """Return what was answered in that time, and how much memory grew meanwhile [MiB]."""
    done = Soak(server.port)
    requests = Requests(seed)
    begun = time.perf_counter()
    settled: float | None = None
    while (spent := time.perf_counter() - begun) < seconds:
        if settled is None and spent > seconds / 4.0:
            settled = server.resident_mib()
        done.ask(requests.next())
    return done, server.resident_mib() - (settled or 0.0)


def main() -> int:
    """Soak, print, and say whether all held."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seconds", type=float, default=60.0)
    parser.add_argument("--seed", type=int, default=20_250_101)
    asked = parser.parse_args()
    with (
        tempfile.TemporaryDirectory() as folder,
        served("service", "serve", log=Path(folder) / "log") as server,
    ):
        done, growth = soak(server, asked.seconds, asked.seed)
        log = server.log.read_text()
    tracebacks = log.count("Traceback")
    statuses = ", ".join(f"{status}: {count}" for status, count in sorted(done.statuses.items()))
    say(f"{done.statuses.total()} requests in {asked.seconds:g} s, by status {statuses}")
    say(f"longest answer {done.longest * 1000:.0f} ms, memory {growth:+.1f} MiB")
    say(f"{len(done.faults)} faults, {tracebacks} tracebacks in the log")
    for fault in done.faults[:5]:
        say(fault)
    if tracebacks:
        say(log[max(0, log.index("Traceback") - 500) :][:3000])
    return 1 if done.faults or tracebacks or growth > _GROWTH_MIB else 0


if __name__ == "__main__":
    sys.exit(main())
