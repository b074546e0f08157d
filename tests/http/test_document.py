"""Documents are kept by their strong ETag until a release changes them."""

from __future__ import annotations

import pytest

from tests.http.conftest import Client

_PATH = "/docs/style.css"


def test_a_document_comes_with_a_strong_etag_and_a_time_to_keep_it(client: Client) -> None:
    headers = client.get(_PATH).headers
    assert headers["etag"].startswith('"')
    assert headers["cache-control"] == "public, max-age=300"


@pytest.mark.parametrize("held", ["{}", "W/{}", '"other", {}', "*"])
def test_a_caller_who_holds_the_document_is_told_so(client: Client, held: str) -> None:
    etag = client.get(_PATH).headers["etag"]
    answer = client.get(_PATH, headers={"If-None-Match": held.format(etag)})
    assert (answer.status_code, answer.content, answer.headers["etag"]) == (304, b"", etag)


def test_a_caller_who_holds_another_document_gets_this_one(client: Client) -> None:
    assert client.get(_PATH, headers={"If-None-Match": '"other"'}).status_code == 200


def test_a_document_is_refused_to_a_caller_who_accepts_another_type(client: Client) -> None:
    assert client.get(_PATH, headers={"Accept": "image/png"}).status_code == 406


@pytest.mark.parametrize("path", [_PATH, "/livez", "/readyz", "/metrics"])
def test_a_document_knows_no_query_parameter(client: Client, path: str) -> None:
    assert client.get(path + "?v=1").status_code == 422
