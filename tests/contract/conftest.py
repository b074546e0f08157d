"""The service behind a client, once for all tests of the contract."""

from collections.abc import Iterator
from typing import Any

import pytest
from litestar.testing import TestClient

from service.app import create_app
from service.settings import Settings


@pytest.fixture(scope="session")
def client() -> Iterator[TestClient[Any]]:
    with TestClient(create_app(Settings(log_level="error"))) as opened:
        yield opened
