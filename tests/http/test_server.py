"""The server process: bounded connections, safe against what breaks HTTP, a clean end."""

from __future__ import annotations

import json
import signal
import socket
import time
from pathlib import Path
from threading import Thread
from typing import Any

import pytest

from tests.benchmarks.loopback import Client, Served, post, served

_LOAD = {"kind": "own", "name": "Lamp", "watts": 60}


def _body(**given: Any) -> dict[str, Any]:
    return {"loads": [_LOAD], **given}


def _raw(port: int, sent: bytes, wait: float = 5.0) -> bytes:
    with socket.create_connection(("127.0.0.1", port), wait) as connection:
        connection.sendall(sent)
        received = b""
        while part := connection.recv(65536):
            received += part
    return received


def _lines(log: Path) -> list[dict[str, Any]]:
    return [json.loads(line) for line in log.read_bytes().splitlines()]


def test_a_request_is_answered_over_a_real_connection(process: Served) -> None:
    with Client(process.port) as client:
        assert client.send(post("/v1/dummy", _body())).status == 200


def test_it_says_where_it_listens(process: Served) -> None:
    listening = next(line for line in _lines(process.log) if line["event"] == "listening")
    assert listening["url"] == f"http://127.0.0.1:{process.port}"


def test_no_header_names_the_server_software(process: Served) -> None:
    with Client(process.port) as client:
        assert b"\r\nserver:" not in client.get("/livez").head.lower()


def test_head_has_no_body_on_the_wire(process: Served) -> None:
    head = b"HEAD /livez HTTP/1.1\r\nHost: x\r\nConnection: close\r\n\r\n"
    assert _raw(process.port, head).endswith(b"\r\n\r\n")


def test_a_body_in_chunks_is_read(process: Served) -> None:
    content = json.dumps(_body()).encode()
    chunks = b"".join(b"%x\r\n%s\r\n" % (1, content[i : i + 1]) for i in range(len(content)))
    head = (
        b"POST /v1/dummy HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"
        b"Transfer-Encoding: chunked\r\nConnection: close\r\n\r\n"
    )
    assert b" 200 " in _raw(process.port, head + chunks + b"0\r\n\r\n")[:20]


def test_a_head_without_end_is_cut_off(process: Served) -> None:
    head = b"GET /livez HTTP/1.1\r\nHost: x\r\nX-Long: " + b"a" * 40_000
    assert b"too long" in _raw(process.port, head)


def test_many_headers_are_cut_off(process: Served) -> None:
    head = b"GET /livez HTTP/1.1\r\n" + b"X-Many: aaaaaaaaaa\r\n" * 2000
    assert b"too long" in _raw(process.port, head)


@pytest.mark.parametrize(
    "sent",
    [
        b"\x16\x03\x01\x00\xa5\x01\x00\x00\xa1\x03\x03",
        b"GET /livez HTTP/1.1 x\r\n\r\n",
        b"GET /\xff HTTP/1.1\r\nHost: x\r\n\r\n",
        b"CONNECT example.test:443 HTTP/1.1\r\nHost: x\r\n\r\n",
        b"POST /v1/dummy HTTP/1.1\r\nHost: x\r\nContent-Length: x\r\n\r\n",
        b"GET /livez HTTP/1.1\r\nHost: a b\r\nConnection: close\r\n\r\n",
    ],
)
def test_what_is_no_request_is_a_400(process: Served, sent: bytes) -> None:
    assert b" 400 " in _raw(process.port, sent)[:20]


def test_a_request_to_change_to_a_websocket_is_answered_as_any_other(process: Served) -> None:
    sent = (
        b"GET /livez HTTP/1.1\r\nHost: x\r\nConnection: Upgrade, close\r\nUpgrade: websocket\r\n"
        b"Sec-WebSocket-Version: 13\r\nSec-WebSocket-Key: AAAAAAAAAAAAAAAAAAAAAA==\r\n\r\n"
    )
    assert b" 200 " in _raw(process.port, sent)[:20]


def test_a_small_request_is_answered_while_a_large_one_is_calculated(process: Served) -> None:
    def ask_slowly() -> None:
        with Client(process.port) as client:
            statuses.append(
                client.send(post("/v1/dummy", _body(predicted_ms=600, busy_ms=600))).status
            )

    statuses: list[int] = []
    slow = Thread(target=ask_slowly)
    slow.start()
    time.sleep(0.1)
    with Client(process.port) as client:
        begun = time.perf_counter()
        assert client.send(post("/v1/dummy", _body())).status == 200
        waited = time.perf_counter() - begun
    still_running = slow.is_alive()
    slow.join()
    assert (statuses, still_running) == ([200], True)
    assert waited < 0.3


def test_a_stop_signal_lets_a_running_request_end_and_exits_with_success(tmp_path: Path) -> None:
    answers: list[int] = []

    def ask(port: int) -> None:
        with Client(port) as client:
            answers.append(
                client.send(post("/v1/dummy", _body(predicted_ms=700, busy_ms=700))).status
            )

    with served("tests.benchmarks.dummy_server", log=tmp_path / "log") as running:
        asking = Thread(target=ask, args=(running.port,))
        asking.start()
        time.sleep(0.2)
        running.process.send_signal(signal.SIGTERM)
        code = running.process.wait(10)
        asking.join()
    assert (code, answers) == (0, [200])
    assert _lines(tmp_path / "log")[-1]["event"] == "stopped"
