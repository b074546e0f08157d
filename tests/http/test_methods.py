"""Every path says which methods it answers; HEAD stands beside every GET."""

from __future__ import annotations

import pytest

from service.http.problem import PROBLEM_JSON
from tests.http.conftest import Client

_GETS = ["/docs/style.css", "/livez", "/readyz", "/metrics"]
_ALLOW = [("/v1/dummy", "OPTIONS, POST"), *((path, "GET, HEAD, OPTIONS") for path in _GETS)]


@pytest.mark.parametrize("path", _GETS)
def test_head_answers_as_get_does_without_the_body(client: Client, path: str) -> None:
    head, got = client.head(path), client.get(path)
    assert (head.status_code, head.content) == (200, b"")
    assert head.headers["content-type"] == got.headers["content-type"]


def test_head_states_the_length_that_get_has(client: Client) -> None:
    head, got = client.head("/docs/style.css"), client.get("/docs/style.css")
    assert head.headers["content-length"] == str(len(got.content))


@pytest.mark.parametrize("path, allow", _ALLOW)
def test_options_lists_the_methods(client: Client, path: str, allow: str) -> None:
    answer = client.options(path)
    assert (answer.status_code, answer.headers["allow"], answer.content) == (204, allow, b"")


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "TRACE", "BREW"])
@pytest.mark.parametrize("path, allow", _ALLOW)
def test_another_method_is_refused_with_those_there_are(
    client: Client, method: str, path: str, allow: str
) -> None:
    answer = client.request(method, path)
    assert (answer.status_code, answer.headers["allow"]) == (405, allow)
    assert answer.headers["content-type"] == PROBLEM_JSON


def test_a_calculation_is_not_read_with_get(client: Client) -> None:
    assert client.get("/v1/dummy").status_code == 405


@pytest.mark.parametrize("path", ["/", "/v1", "/v1/dummy/more", "/v1/DUMMY", "/%00", "/x" * 500])
@pytest.mark.parametrize("method", ["GET", "POST", "OPTIONS"])
def test_an_unknown_path_is_a_404_problem(client: Client, method: str, path: str) -> None:
    answer = client.request(method, path)
    assert (answer.status_code, answer.json()["type"]) == (404, "/problems/not-found")


def test_a_refusal_never_repeats_the_url(client: Client) -> None:
    assert "secret" not in client.get("/secret?secret=1").text
