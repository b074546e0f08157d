"""The service as its users meet it: over HTTP, in this process."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

import pytest
from litestar.testing import TestClient

from service.app import create_app
from service.http.pinned_contract import pinned_bytes
from service.settings import Settings

Client = TestClient[Any]
Json = dict[str, Any]


@pytest.fixture(scope="session")
def client() -> Iterator[Client]:
    """Return a client of the whole service."""
    with TestClient(create_app(Settings(log_level="error"))) as opened:
        yield opened


@pytest.fixture(scope="session")
def contract() -> Json:
    """Return the contract as a developer downloads it."""
    document: Json = json.loads(pinned_bytes())
    return document
