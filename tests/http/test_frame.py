"""Around every request: its id, its trace, one log line, its counters, its safe headers."""

from __future__ import annotations

import asyncio
import json
from typing import Any

import pytest

from service import __version__
from service.http.asgi import Message, Receive, Scope, Send
from service.http.frame import Frame
from service.http.log import open_log
from service.http.metrics import Metrics
from tests.http.conftest import Client, Log

_BODY = json.dumps(
    {"loads": [{"kind": "own", "name": "private lamp", "watts": 60}], "reference": "lead-0042"}
).encode()
_JSON = {"Content-Type": "application/json"}
_PATHS = ["/docs/style.css", "/livez", "/nowhere"]


def _requests(log: Log) -> list[dict[str, Any]]:
    return [line for line in log.lines if line["event"] == "request"]


@pytest.mark.parametrize("path", _PATHS)
def test_a_safe_request_id_is_sent_back(client: Client, path: str) -> None:
    answer = client.get(path, headers={"X-Request-ID": "lead-42.try:1"})
    assert answer.headers["x-request-id"] == "lead-42.try:1"


@pytest.mark.parametrize("unsafe", ["", "a b", "a\u00e9", "x" * 129, '{"a":1}'])
def test_an_unsafe_request_id_is_replaced_by_a_new_one(client: Client, unsafe: str) -> None:
    answer = client.get("/livez", headers=[(b"X-Request-ID", unsafe.encode("latin-1"))])
    assert len(answer.headers["x-request-id"]) == 32


def test_two_requests_have_two_ids(client: Client) -> None:
    ids = {client.get("/livez").headers["x-request-id"] for _ in range(2)}
    assert len(ids) == 2


def test_one_log_line_a_request_says_what_was_asked_and_answered(client: Client, log: Log) -> None:
    answer = client.post("/v1/dummy", content=_BODY, headers=_JSON)
    (line,) = _requests(log)
    assert line.pop("duration_ms") > 0
    assert line.pop("timestamp").endswith("Z")
    assert line == {
        "event": "request",
        "level": "info",
        "service.version": __version__,
        "request_id": answer.headers["x-request-id"],
        "http.request.method": "POST",
        "http.route": "/v1/dummy",
        "http.response.status_code": 200,
    }


@pytest.mark.parametrize("path", ["/v1/dummy?private=1", "/private/nowhere"])
def test_the_log_never_holds_a_body_a_query_or_an_unknown_path(
    client: Client, log: Log, path: str
) -> None:
    client.post(path, content=_BODY, headers=_JSON)
    assert b"private" not in log.stream.getvalue()
    assert b"lead-0042" not in log.stream.getvalue()


def test_the_log_names_the_problem(client: Client, log: Log) -> None:
    client.get("/nowhere")
    assert _requests(log)[0]["problem"] == "not-found"


@pytest.mark.parametrize("path", ["/livez", "/readyz", "/metrics"])
def test_probes_are_logged_at_debug(client: Client, log: Log, path: str) -> None:
    client.get(path)
    assert _requests(log)[0]["level"] == "debug"


def test_a_trace_parent_is_passed_on_to_the_log(client: Client, log: Log) -> None:
    trace, span = "0af7651916cd43dd8448eb211c80319c", "b7ad6b7169203331"
    client.get("/nowhere", headers={"traceparent": f"00-{trace}-{span}-01"})
    line = _requests(log)[0]
    assert (line["trace_id"], line["span_id"]) == (trace, span)


_COUNTED = [
    # method, path, labels of the counter
    ("POST", "/v1/dummy", '{method="POST",route="/v1/dummy",status="200"}'),
    ("GET", "/v1/dummy", '{method="GET",route="/v1/dummy",status="405"}'),
    ("GET", "/nowhere/private", '{method="GET",route="unmatched",status="404"}'),
    ("BREW", "/livez", '{method="_OTHER",route="/livez",status="405"}'),
]


@pytest.mark.parametrize("method, path, labels", _COUNTED)
def test_requests_are_counted_by_method_route_and_status(
    client: Client, method: str, path: str, labels: str
) -> None:
    client.request(method, path, content=_BODY, headers=_JSON)
    counters = client.get("/metrics").text
    assert f"http_server_request_duration_seconds_count{labels} 1.0" in counters
    assert "private" not in counters


def test_refusals_are_counted_by_their_type(client: Client) -> None:
    client.post("/v1/dummy", content=b"{}", headers=_JSON)
    assert 'http_server_problems_total{type="invalid"} 1.0' in client.get("/metrics").text


def test_the_request_that_reads_the_counters_is_the_one_that_is_active(client: Client) -> None:
    assert "http_server_active_requests 1.0" in client.get("/metrics").text


@pytest.mark.parametrize("path", _PATHS)
def test_every_reply_carries_the_safe_headers(client: Client, path: str) -> None:
    headers = client.get(path).headers
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["content-security-policy"] == "default-src 'none'; frame-ancestors 'none'"
    assert headers["service-version"] == __version__


async def _ask(frame: Frame, path: str) -> tuple[int, dict[bytes, bytes]]:
    sent: list[Message] = []

    async def send(message: Message) -> None:
        sent.append(message)

    async def receive() -> Message:
        return {"type": "http.disconnect"}

    await frame({"type": "http", "method": "GET", "path": path, "headers": []}, receive, send)
    return sent[0]["status"], dict(sent[0]["headers"])


@pytest.mark.parametrize("path, status", [("/v1/dummy", 503), ("/livez", 200)])
def test_a_full_house_sheds_requests_and_still_answers_probes(path: str, status: int) -> None:
    async def fill_then_ask() -> int:
        release = asyncio.Event()

        async def app(scope: Scope, _receive: Receive, send: Send) -> None:
            if scope["path"] == "/waits":
                await release.wait()
            await send({"type": "http.response.start", "status": 200, "headers": []})

        frame = Frame(app, Metrics(), open_log("error", Log().stream), most_active=2)
        waiting = [asyncio.create_task(_ask(frame, "/waits")) for _ in range(2)]
        await asyncio.sleep(0.01)
        got, _ = await _ask(frame, path)
        release.set()
        await asyncio.gather(*waiting)
        return got

    assert asyncio.run(fill_then_ask()) == status


def test_a_fault_outside_every_resource_is_an_honest_500() -> None:
    async def app(_scope: Scope, _receive: Receive, _send: Send) -> None:
        raise RuntimeError("secret")

    frame = Frame(app, Metrics(), open_log("error", Log().stream))
    status, headers = asyncio.run(_ask(frame, "/v1/dummy"))
    assert (status, headers[b"content-type"]) == (500, b"application/problem+json")
