"""Health: it lives while the process answers; it is ready between start and stop signal."""

from __future__ import annotations

from litestar.testing import TestClient

from service.http.service import Service
from tests.http.conftest import Client


def test_it_lives(client: Client) -> None:
    assert client.get("/livez").json() == {"status": "ok"}


def test_it_is_ready_once_started(client: Client) -> None:
    assert client.get("/readyz").status_code == 200


def test_it_is_not_ready_before_it_has_started(service: Service) -> None:
    assert service.readiness.ready is False


def test_it_is_not_ready_any_more_after_a_stop_signal(service: Service) -> None:
    with TestClient(service) as client:
        service.readiness.drain()
        answer = client.get("/readyz")
    assert (answer.status_code, answer.headers["retry-after"]) == (503, "1")


def test_it_lives_and_answers_while_it_drains(service: Service) -> None:
    with TestClient(service) as client:
        service.readiness.drain()
        assert client.get("/livez").status_code == 200
        assert client.post("/v1/dummy").status_code == 415
