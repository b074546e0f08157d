"""The page at /docs is whole, says everything, and never leaves the host."""

import re
from html.parser import HTMLParser
from typing import Any

import pytest
from litestar.testing import TestClient

from service.http.docs_page import ASSETS, page
from service.http.problem_types import PROBLEM_TYPES
from tests.contract.subject import contract, dummy_contract

VOID = {"meta", "link", "br", "img", "hr", "input"}
#: Elements that run, frame or send something.
FORBIDDEN = {"script", "iframe", "object", "embed", "form", "base", "style"}
LINKS = {"href", "src", "srcset", "action", "poster", "data", "cite", "background"}
ELSEWHERE = re.compile(r"//|\bhttps?:|\bdata:|\bjavascript:|@import|url\(", re.I)


class Reader(HTMLParser):
    """Collects ids, links and open elements; refuses what is not closed in order."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.tags: list[str] = []
        self.attributes: list[str] = []
        self.open: list[str] = []
        self.feed(text)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        for name, value in attrs:
            self.attributes.append(name)
            if name == "id" and value:
                self.ids.append(value)
            if name in LINKS and value:
                self.links.append(value)
        if tag not in VOID:
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag, f"</{tag}> closes nothing"


@pytest.fixture(scope="module")
def read(client: TestClient[Any]) -> Reader:
    answer = client.get("/docs")
    assert answer.status_code == 200
    assert answer.headers["content-type"].startswith("text/html")
    return Reader(answer.text)


@pytest.mark.parametrize("document", [contract, dummy_contract])
def test_the_page_is_well_formed_and_no_id_stands_twice(document: Any) -> None:
    read = Reader(page(document()))
    assert read.open == []
    assert len(read.ids) == len(set(read.ids))


def test_every_link_of_the_page_is_answered_200_by_the_service_itself(
    client: TestClient[Any], read: Reader
) -> None:
    assert read.links
    for link in read.links:
        path, _, anchor = link.partition("#")
        if path:
            assert path.startswith("/"), link
            assert client.get(path).status_code == 200, link
        if anchor:
            assert anchor in read.ids, link


def test_every_asset_is_answered_200_and_names_no_other_place(client: TestClient[Any]) -> None:
    for name, (media, body) in ASSETS.items():
        answer = client.get(f"/docs/{name}")
        assert answer.status_code == 200
        assert answer.headers["content-type"] == media
        assert answer.content == body
        assert not ELSEWHERE.search(body.decode()), name


def test_nothing_in_the_page_runs_or_leaves_the_host(client: TestClient[Any], read: Reader) -> None:
    assert not FORBIDDEN & set(read.tags)
    assert not [name for name in read.attributes if name.startswith("on") or name == "style"]
    for element in re.findall(r"<[^>]*>", client.get("/docs").text):
        assert not ELSEWHERE.search(element), element


def test_the_page_shows_every_operation_schema_field_and_problem_type(read: Reader) -> None:
    text = page(contract())
    for path, methods in contract()["paths"].items():
        for method, operation in methods.items():
            assert f"operation-{operation['operationId']}" in read.ids
            assert f"{method.upper()} {path}" in text
    for name, schema in contract()["components"]["schemas"].items():
        assert f"object-{name}" in read.ids
        for field in schema.get("properties", {}):
            assert f"<code>{field}</code>" in text, f"{name}.{field}"
    for problem in PROBLEM_TYPES:
        assert f"problem-{problem}" in read.ids


def test_the_page_asks_the_question_of_every_fact() -> None:
    text = page(dummy_contract())
    assert "Ask the owner by photo: <q>How long is the run?</q>" in text
    assert "<code>short</code> (0 to 30)" in text
    assert "Photograph: The wall from end to end." in text


def test_the_page_says_units_bounds_defaults_and_choices() -> None:
    text = page(dummy_contract())
    assert "number [ft], 0 to 10,000 or text with a unit" in text
    assert "whole number, 1 to 9" in text
    assert "Default: <code>1</code>." in text
    assert "one of <code>&quot;blue&quot;</code>, <code>&quot;red&quot;</code>" in text


def test_the_page_has_one_heading_a_language_and_fits_a_telephone(read: Reader) -> None:
    text = page(contract())
    assert read.tags.count("h1") == 1
    assert '<html lang="en">' in text
    assert 'name="viewport"' in text
    assert read.tags.count("main") == 1
