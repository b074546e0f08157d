"""The closed list of problem types, and the documents that stand at their addresses."""

from __future__ import annotations

import json

import pytest

from service.http.problem import Problem
from service.http.problem_pages import problem_pages
from service.http.problem_types import PROBLEM_TYPES

_STATUSES = {400, 404, 405, 406, 413, 415, 422, 500, 503}


def test_the_types_have_the_statuses_of_the_contract() -> None:
    assert {kind.status for kind in PROBLEM_TYPES.values()} == _STATUSES


@pytest.mark.parametrize("kind", PROBLEM_TYPES)
def test_a_problem_document_has_the_members_of_rfc_9457_and_its_errors(kind: str) -> None:
    document = json.loads(Problem(kind, "What to do.").body())
    assert list(document) == ["type", "title", "status", "detail", "errors"]


def test_every_type_is_explained_at_its_address() -> None:
    pages = {page.path: json.loads(page.body) for page in problem_pages()}
    assert {path: page["type"] for path, page in pages.items()} == {
        kind.uri: kind.uri for kind in PROBLEM_TYPES.values()
    }
