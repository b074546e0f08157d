"""What the assessment and the outage runtime cost, stage by stage, in this process.

Run it with ``python -m tests.benchmarks.assessment_cost``; it prints the best of several runs.
"""

from __future__ import annotations

import copy
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any, NamedTuple

import msgspec
import numpy as np

from service.app import operations
from service.check import Operation
from service.checks.outage_runtime import CHECK
from service.checks.outage_runtime.columns import verdict_columns
from service.http.answering import Answering
from service.http.digest import digest_of
from service.quantities.encoder import round_answer, to_json

_EXAMPLES = Path(__file__).resolve().parents[2] / "openapi" / "examples"
_RUNS = 7
_CANDIDATES = (0, 1, 2, 6)
_NONE: frozenset[str] = frozenset()


class Stage(NamedTuple):
    """One stage of an answer and its best time [ms]."""

    name: str
    milliseconds: float


def best(work: Callable[[], Any], runs: int = _RUNS) -> float:
    """Return the shortest time of several runs [ms]."""
    times = []
    for _ in range(runs):
        begun = time.perf_counter()
        work()
        times.append(time.perf_counter() - begun)
    return min(times) * 1000.0


def first_example(operation_id: str) -> bytes:
    """Return the body of an operation's first example."""
    return min((_EXAMPLES / operation_id).glob("*.request.json")).read_bytes()


def encoded(answer: Any) -> bytes:
    """Return an answer as it is sent: rounded, as JSON, with its digest."""
    body = to_json(round_answer(answer))
    digest_of(body)
    return body


def outage_stages(body: bytes) -> Iterator[Stage]:
    """Return the stages of one outage-runtime request."""
    answering = Answering(CHECK)
    request, _ = answering.take(body)
    arrays = CHECK.arguments([request])
    with np.errstate(all="ignore"):
        columns = CHECK.columns(**arrays)
        yield Stage("decode", best(lambda: answering.take(body)))
        yield Stage("arguments", best(lambda: CHECK.arguments([request])))
        yield Stage("columns", best(lambda: CHECK.columns(**arrays)))
    yield Stage("explain", best(lambda: CHECK.explain(request, columns, 0, _NONE)))
    answer = CHECK.explain(request, columns, 0, _NONE)
    yield Stage("encode", best(lambda: encoded(copy.copy(answer))))
    yield Stage("whole", best(lambda: answering.answer(answering.take(body)[0], _NONE)))
    with np.errstate(all="ignore"):
        yield Stage("verdict columns alone", best(lambda: verdict_columns(**arrays)))


def lead_with(count: int) -> bytes:
    """Return the demo lead with so many candidates, each of another energy [kWh]."""
    lead = msgspec.json.decode(first_example("site-assessment"))
    candidate = lead.pop("candidates")[0]
    battery = candidate["battery"]
    if count:
        lead["candidates"] = [
            candidate
            | {
                "id": f"candidate-{place}",
                "battery": {**battery, "energy": {"kind": "usable", "kwh": 12.0 + place}},
            }
            for place in range(count)
        ]
    return msgspec.json.encode(lead)


class Assessed(NamedTuple):
    """One assessment: predicted time, times of its stages [ms], length of its answer [kB]."""

    predicted: float
    decode: float
    run: float
    encode: float
    kilobytes: float


def assessed(operation: Operation, body: bytes) -> Assessed:
    """Return what one assessment costs."""
    answering = Answering(operation)
    request, predicted = answering.take(body)
    answer = operation.run(request, _NONE)
    return Assessed(
        predicted,
        best(lambda: answering.take(body)),
        best(lambda: operation.run(request, _NONE)),
        best(lambda: encoded(copy.copy(answer))),
        len(encoded(answer)) / 1000.0,
    )


def report() -> Iterator[str]:
    """Return the lines that are printed."""
    yield f"outage-runtime, fifteen loads [ms, best of {_RUNS}]"
    for stage in outage_stages(first_example("outage-runtime")):
        yield f"  {stage.name:<24}{stage.milliseconds:9.2f}"
    site = next(operation for operation in operations() if operation.id == "site-assessment")
    yield f"site-assessment, the demo lead [ms, best of {_RUNS}]"
    yield f"  {'candidates':<12}{'decode':>9}{'run':>9}{'encode':>9}{'predicted':>11}{'kB':>8}"
    for count in _CANDIDATES:
        cost = assessed(site, lead_with(count))
        yield (
            f"  {count:<12}{cost.decode:9.2f}{cost.run:9.2f}{cost.encode:9.2f}"
            f"{cost.predicted:11.1f}{cost.kilobytes:8.1f}"
        )


if __name__ == "__main__":
    for line in report():
        sys.stdout.write(line + "\n")
