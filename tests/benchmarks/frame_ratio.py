"""CPU of a request through the service against a bare Litestar handler, in the same run.

Prints two ratios: the frame alone (an operation that calculates nothing), and outage-runtime with
fifteen loads over 72 h and all its alternatives. The bare handler decodes the same body with
msgspec and returns bytes of the same length. Both are asked over loopback, one request at a time,
in turns of a block each, so that a slow moment of the machine meets both. Also printed: seconds
from the start of the process, its bytecode compiled, to its first ready answer, and resident
memory.

Exits with 1 where a target is missed.
"""

from __future__ import annotations

import argparse
import contextlib
import statistics
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import msgspec

from service.app import operations
from service.http.answering import Answering
from tests.benchmarks.loopback import ROOT, Client, Served, post, say, served
from tests.http.dummy_operation import BODY

_EXAMPLE = ROOT / "openapi/examples/outage-runtime/a-fifteen-loads.request.json"
_WARM_UP = 300
FRAME_TARGET = 2.5
OUTAGE_TARGET = 40.0
READY_TARGET_S = 1.5
RESIDENT_TARGET_MIB = 120.0


class Side(NamedTuple):
    """One server and the request it is asked."""

    server: Served
    client: Client
    request: bytes

    def cpu_us(self, count: int) -> float:
        """Return the CPU time of one request [us], the mean of `count`."""
        begun = self.server.cpu_seconds()
        for _ in range(count):
            self.client.send(self.request)
        return (self.server.cpu_seconds() - begun) / count * 1e6


class Ratio(NamedTuple):
    """CPU time of a request [us]: ours, the bare handler's, and the median of their ratios."""

    ours: float
    bare: float
    ratio: float


def measure(ours: Side, bare: Side, blocks: int, count: int) -> Ratio:
    """Return the CPU of both sides, asked in turns."""
    for side in (ours, bare):
        side.cpu_us(min(_WARM_UP, 3 * count))
    pairs = [(ours.cpu_us(count), bare.cpu_us(count)) for _ in range(blocks)]
    return Ratio(
        statistics.median(mine for mine, _ in pairs),
        statistics.median(other for _, other in pairs),
        statistics.median(mine / other for mine, other in pairs),
    )


def in_numbers(operation_id: str, example: Path) -> Any:
    """Return the body of a published example, its texts with units as bare numbers.

    The bare handler knows no units.
    """
    asked = next(operation for operation in operations() if operation.id == operation_id)
    request, _ = Answering(asked).take(example.read_bytes())
    return _without_nulls(msgspec.to_builtins(request))


def _without_nulls(value: Any) -> Any:
    if isinstance(value, dict):
        return {name: _without_nulls(held) for name, held in value.items() if held is not None}
    return [_without_nulls(held) for held in value] if isinstance(value, list) else value


@contextlib.contextmanager
def _sides(ours: Served, operation: str, body: Any, folder: Path) -> Iterator[tuple[Side, Side]]:
    asked = post(f"/v1/{operation}", body)
    with Client(ours.port) as client:
        answer = client.send(asked)
        if answer.status != 200:
            raise RuntimeError(f"{operation} answered {answer.status}: {answer.body.decode()}")
        name = operation.partition("?")[0]
        told = ("--operation", name, "--length", str(len(answer.body)))
        log = folder / f"bare-{name}"
        with (
            served("tests.benchmarks.bare_server", *told, log=log) as bare,
            Client(bare.port) as other,
        ):
            bare_asked = post("/bare", body)
            back = other.send(bare_asked)
            if back.status != 200 or len(back.body) != len(answer.body):
                raise RuntimeError(f"the bare handler answered {back.status}")
            yield Side(ours, client, asked), Side(bare, other, bare_asked)


def _told(name: str, found: Ratio, target: float) -> bool:
    say(
        f"{name}: {found.ours:.0f} us against {found.bare:.0f} us of the bare handler, "
        f"ratio {found.ratio:.2f} (target at most {target:g})"
    )
    return found.ratio <= target


def main() -> int:
    """Measure, print, and say whether every target is met."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--blocks", type=int, default=15)
    blocks = parser.parse_args().blocks
    met: list[bool] = []
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        with (
            served("tests.benchmarks.dummy_server", log=folder / "dummy") as dummy,
            _sides(dummy, "dummy", BODY, folder) as (ours, bare),
        ):
            met.append(_told("frame alone", measure(ours, bare, blocks, 300), FRAME_TARGET))
        with served("service", "serve", log=folder / "compiles"):
            pass  # The second start finds the bytecode compiled.
        with served("service", "serve", log=folder / "service") as real:
            ready, worked = real.start_seconds, real.cpu_seconds()
            body = in_numbers("outage-runtime", _EXAMPLE)
            with _sides(real, "outage-runtime", body, folder) as (ours, bare):
                found = measure(ours, bare, blocks, 30)
            met.append(_told("outage-runtime, 15 loads, 72 h", found, OUTAGE_TARGET))
            resident = real.resident_mib()
    say(
        f"cold start to ready: {ready:.2f} s (target below {READY_TARGET_S:g}), "
        f"{worked:.2f} s of it CPU"
    )
    say(f"resident: {resident:.0f} MiB (target below {RESIDENT_TARGET_MIB:g})")
    met += [ready < READY_TARGET_S, resident < RESIDENT_TARGET_MIB]
    return 0 if all(met) else 1


if __name__ == "__main__":
    sys.exit(main())
