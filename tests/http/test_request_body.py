"""A body is read whole, within its limit and its time."""

from __future__ import annotations

import asyncio
from collections.abc import Sequence
from typing import Any

import pytest

from service.check import MIB
from service.http.asgi import Message, Receive
from service.http.problem import Problem
from service.http.request_body import read_body

_CLOSE = (b"connection", b"close")


def _sender(parts: Sequence[bytes], *, ends: bool = True) -> Receive:
    messages: list[Message] = [
        {"type": "http.request", "body": part, "more_body": place < len(parts) - 1 or not ends}
        for place, part in enumerate(parts)
    ]

    async def receive() -> Message:
        return messages.pop(0) if messages else {"type": "http.disconnect"}

    return receive


def _read(receive: Receive, limit: int = 10, deadline: float = 5.0, **headers: bytes) -> bytes:
    by_name = {name.replace("_", "-").encode(): value for name, value in headers.items()}
    return asyncio.run(read_body(receive, by_name, limit, deadline))


def _refused(receive: Receive, **given: Any) -> Problem:
    with pytest.raises(Problem) as caught:
        _read(receive, **given)
    return caught.value


@pytest.mark.parametrize("parts", [[b""], [b"0123456789"], [b"01234", b"56789"], [b"", b"", b"a"]])
def test_a_body_within_its_limit_is_read_whole(parts: list[bytes]) -> None:
    assert _read(_sender(parts)) == b"".join(parts)


@pytest.mark.parametrize("parts", [[b"0" * 11], [b"0" * 6, b"0" * 5], [b"0", b"0" * 1000]])
def test_a_body_above_its_limit_is_refused(parts: list[bytes]) -> None:
    problem = _refused(_sender(parts))
    assert problem.type.id == "too-large"
    assert "10 bytes" in problem.detail


def test_a_body_a_little_too_long_is_read_off_so_that_its_sender_hears_the_refusal() -> None:
    assert _CLOSE not in _refused(_sender([b"0" * MIB] * 3)).headers


def test_a_body_far_too_long_is_not_read_to_its_end() -> None:
    assert _CLOSE in _refused(_sender([b"0" * MIB] * 1000)).headers


def test_a_sender_who_asks_first_is_refused_before_the_body() -> None:
    async def never() -> Message:
        raise AssertionError("the body was asked for")

    problem = _refused(never, content_length=b"11", expect=b"100-continue")
    assert (problem.type.id, _CLOSE in problem.headers) == ("too-large", True)


def test_a_body_that_breaks_off_is_malformed() -> None:
    assert "broke off" in _refused(_sender([b"01"], ends=False)).detail


def test_a_body_that_does_not_come_in_time_is_malformed_and_ends_the_connection() -> None:
    async def stalled() -> Message:
        await asyncio.sleep(60)
        raise AssertionError("nobody waits so long")

    problem = _refused(stalled, deadline=0.05)
    assert (problem.type.id, problem.headers) == ("malformed", (_CLOSE,))


def test_a_body_that_trickles_has_no_more_time_than_any_other() -> None:
    async def trickle() -> Message:
        await asyncio.sleep(0.01)
        return {"type": "http.request", "body": b"", "more_body": True}

    assert "did not arrive" in _refused(trickle, deadline=0.1).detail
