"""The dummy service in this process, and as a server process of its own."""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from litestar.testing import TestClient

from service.http.document import Document
from service.http.log import open_log
from service.http.service import Service
from tests.benchmarks.loopback import Served, served
from tests.http.dummy_operation import operation

Client = TestClient[Service]


class Log:
    """The lines that a service has written."""

    def __init__(self) -> None:
        self.stream = io.BytesIO()

    @property
    def lines(self) -> list[dict[str, Any]]:
        """Return the lines, each as the object it is."""
        return [json.loads(line) for line in self.stream.getvalue().splitlines()]


@pytest.fixture
def log() -> Log:
    """Return the log of the service under test."""
    return Log()


@pytest.fixture
def service(log: Log) -> Service:
    """Return a service with the dummy operation, one that is slow, and one document."""
    return Service(
        [operation(), operation(id="narrow", limit=200, includes=())],
        [Document("/docs/style.css", "text/css; charset=utf-8", b"p { margin: 0 }")],
        open_log("debug", log.stream),
        slow_requests=2,
    )


@pytest.fixture
def client(service: Service) -> Iterator[Client]:
    """Return a client of the service in this process."""
    with TestClient(service, raise_server_exceptions=False) as running:
        yield running


@pytest.fixture(scope="session")
def process(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Served]:
    """Return the dummy service as a real server process."""
    output: Path = tmp_path_factory.mktemp("server") / "log"
    with served("tests.benchmarks.dummy_server", log=output) as running:
        yield running
