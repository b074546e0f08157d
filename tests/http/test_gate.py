"""Slow work leaves the event loop, and is shed where it would come too late."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable

import pytest

from service.http.gate import Gate
from service.http.problem import Problem


async def _while_one_is_held(gate: Gate, predicted: float, then: Callable[[], object]) -> object:
    """Return what `then` returns while work of `predicted` ms holds the gate."""
    release = threading.Event()
    holding = asyncio.create_task(gate.run(predicted, lambda: release.wait(5)))
    await asyncio.sleep(0.02)
    try:
        found = then()
        return await found if asyncio.iscoroutine(found) else found
    finally:
        release.set()
        await holding


def test_short_work_stays_on_the_event_loop() -> None:
    assert asyncio.run(Gate(1).run(20.0, threading.get_ident)) == threading.get_ident()


def test_long_work_leaves_the_event_loop() -> None:
    assert asyncio.run(Gate(1).run(20.1, threading.get_ident)) != threading.get_ident()


def test_the_event_loop_runs_on_beside_long_work() -> None:
    async def ticks() -> int:
        seen = 0
        for _ in range(5):
            await asyncio.sleep(0.002)
            seen += 1
        return seen

    gate = Gate(1)
    assert asyncio.run(_while_one_is_held(gate, 100.0, ticks)) == 5


def test_work_beyond_the_places_is_shed_with_the_time_to_wait() -> None:
    gate = Gate(1)
    with pytest.raises(Problem) as caught:
        asyncio.run(_while_one_is_held(gate, 1500.0, lambda: gate.run(21.0, int)))
    assert caught.value.type.id == "busy"
    assert caught.value.headers == ((b"retry-after", b"2"),)


def test_work_that_would_end_too_late_is_shed_though_a_place_is_free() -> None:
    gate = Gate(8)
    with pytest.raises(Problem) as caught:
        asyncio.run(_while_one_is_held(gate, 1000.0, lambda: gate.run(1000.0, int)))
    assert caught.value.type.status == 503


def test_short_work_is_never_shed() -> None:
    gate = Gate(1)
    assert asyncio.run(_while_one_is_held(gate, 1500.0, lambda: gate.run(1.0, int))) == 0


def test_a_place_is_free_again_after_work_that_failed() -> None:
    gate = Gate(1)

    def fail() -> None:
        raise ZeroDivisionError

    async def fail_then_work() -> int:
        with pytest.raises(ZeroDivisionError):
            await gate.run(1000.0, fail)
        return await gate.run(1000.0, int)

    assert asyncio.run(fail_then_work()) == 0
