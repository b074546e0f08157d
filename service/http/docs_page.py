"""The page at ``/docs``: the pinned contract for people, without script and without the network.

It is made of the contract document alone, so that it can say nothing else than the contract.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from importlib import resources
from typing import Any

from service.http.docs_fields import fields, type_words
from service.http.docs_markup import escape, inline, paragraphs
from service.http.problem import PROBLEM_JSON
from service.http.problem_types import PROBLEM_TYPES

Json = Mapping[str, Any]
#: What the page loads: name under ``/docs/`` -> media type and bytes.
ASSETS: Mapping[str, tuple[str, bytes]] = {
    "style.css": (
        "text/css; charset=utf-8",
        resources.files(__package__).joinpath("assets/style.css").read_bytes(),
    )
}


def page(contract: Json) -> str:
    """Return the page of the contract."""
    return "\n".join(_page(contract)) + "\n"


def _head(title: str) -> str:
    return (
        '<!doctype html>\n<html lang="en">\n<head>\n<meta charset="utf-8">\n'
        '<meta name="viewport" content="width=device-width, initial-scale=1">\n'
        f"<title>{escape(title)}</title>\n"
        '<link rel="stylesheet" href="/docs/style.css">\n</head>'
    )


def _page(contract: Json) -> Iterator[str]:
    info = contract["info"]
    title = f"{info['title']} {info['version']}"
    yield _head(title)
    yield '<body>\n<a class="skip" href="#content">To the content</a>'
    yield f"<header>\n<h1>{escape(title)}</h1>\n<p>{escape(info['summary'])}</p>"
    yield '<p>Machine-readable: <a href="/openapi.json">/openapi.json</a></p>\n</header>'
    yield from _contents(contract)
    yield f'<main id="content">\n<section>\n{paragraphs(info["description"])}\n</section>'
    for tag in contract["tags"]:
        yield from _tag(contract, tag)
    yield from _problems(contract)
    yield from _objects(contract)
    yield f"</main>\n<footer><p>Licence: {escape(info['license']['name'])}</p></footer>"
    yield "</body>\n</html>"


def _operations(contract: Json, tag: str) -> Iterator[tuple[str, str, Json]]:
    for path, methods in contract["paths"].items():
        for method, operation in methods.items():
            if tag in operation["tags"]:
                yield method.upper(), path, operation


def _contents(contract: Json) -> Iterator[str]:
    yield '<nav aria-label="Contents">\n<ul>'
    for tag in contract["tags"]:
        yield f"<li>{escape(tag['name'].capitalize())}\n<ul>"
        for _method, _path, operation in _operations(contract, tag["name"]):
            anchor = f"operation-{operation['operationId']}"
            yield f'<li><a href="#{anchor}">{escape(operation["summary"])}</a></li>'
        yield "</ul></li>"
    yield '<li><a href="#problems">Problems</a></li>'
    yield '<li><a href="#objects">Objects</a></li>\n</ul>\n</nav>'


def _tag(contract: Json, tag: Json) -> Iterator[str]:
    yield f"<section>\n<h2>{escape(tag['name'].capitalize())}</h2>"
    yield paragraphs(tag["description"])
    for method, path, operation in _operations(contract, tag["name"]):
        yield from _operation(contract, method, path, operation)
    yield "</section>"


def _operation(contract: Json, method: str, path: str, operation: Json) -> Iterator[str]:
    yield f'<article id="operation-{operation["operationId"]}">'
    yield f"<h3>{escape(operation['summary'])}</h3>"
    shown = f"{method} {escape(path)}"
    yield f'<p class="path"><code>{shown}</code></p>'
    if method == "GET" and "{" not in path:
        yield f'<p>Open <a href="{escape(path)}">{escape(path)}</a></p>'
    yield paragraphs(operation["description"])
    yield "<h4>Parameters</h4>\n<dl>"
    for parameter in operation["parameters"]:
        yield _parameter(_resolved(contract, parameter))
    yield "</dl>"
    if "requestBody" in operation:
        yield "<h4>Request</h4>"
        yield from _content(operation["requestBody"]["content"])
    yield "<h4>Answers</h4>\n<dl>"
    for status, response in operation["responses"].items():
        yield from _response(status, _resolved(contract, response))
    yield "</dl>\n</article>"


def _resolved(contract: Json, thing: Json) -> Json:
    found: Any = thing
    if "$ref" in thing:
        found = contract
        for part in thing["$ref"].removeprefix("#/").split("/"):
            found = found[part]
    return found  # type: ignore[no-any-return]


def _parameter(parameter: Json) -> str:
    example = json.dumps(parameter["example"], ensure_ascii=False)
    return (
        f"<dt><code>{escape(parameter['name'])}</code> <div>{parameter['in']}, "
        f"{type_words(parameter['schema'])}</div></dt>\n"
        f"<dd>{inline(parameter['description'])} Example: <code>{escape(example)}</code></dd>"
    )


def _response(status: str, response: Json) -> Iterator[str]:
    if PROBLEM_JSON in response.get("content", {}):
        kind = response["content"][PROBLEM_JSON]["example"]["type"].rpartition("/")[2]
        title = escape(PROBLEM_TYPES[kind].title)
        yield f'<dt><code>{status}</code> <a href="#problem-{kind}">{title}</a></dt>'
        return
    yield f"<dt><code>{status}</code></dt>\n<dd>{inline(response['description'])}"
    if names := ", ".join(f"<code>{escape(n)}</code>" for n in response.get("headers", ())):
        yield f"<p>Headers: {names}</p>"
    yield from _content(response.get("content", {}))
    yield "</dd>"


def _content(content: Json) -> Iterator[str]:
    for media, body in content.items():
        yield f"<p><code>{escape(media)}</code>: {type_words(body['schema'])}</p>"
        examples = body.get("examples", {})
        if "example" in body:
            examples = {"example": {"summary": "Example", "value": body["example"]}}
        for example in examples.values():
            yield _example(example["summary"], example["value"])


def _example(summary: str, value: Any) -> str:
    text = value if isinstance(value, str) else json.dumps(value, indent=2, ensure_ascii=False)
    return (
        f"<details>\n<summary>{escape(summary)}</summary>\n"
        f'<pre tabindex="0"><code>{escape(text)}</code></pre>\n</details>'
    )


def _problems(contract: Json) -> Iterator[str]:
    shown = {
        response["content"][PROBLEM_JSON]["example"]["type"]: response
        for response in contract["components"]["responses"].values()
    }
    yield '<section id="problems">\n<h2>Problems</h2>\n<dl>'
    for problem in PROBLEM_TYPES.values():
        yield (
            f'<dt id="problem-{problem.id}"><a href="{problem.uri}">{problem.uri}</a> '
            f"{problem.status}</dt>"
        )
        yield f"<dd><strong>{escape(problem.title)}.</strong> {inline(problem.meaning)}"
        yield from _content(shown.get(problem.uri, {}).get("content", {}))
        yield "</dd>"
    yield "</dl>\n</section>"


def _objects(contract: Json) -> Iterator[str]:
    yield '<section id="objects">\n<h2>Objects</h2>'
    for name, schema in contract["components"]["schemas"].items():
        yield f'<article id="object-{name}">\n<h3>{escape(name)}</h3>'
        yield paragraphs(schema["description"])
        if "properties" in schema:
            yield fields(schema)
        else:
            yield f"<div>{type_words(schema)}</div>"
        yield "</article>"
    yield "</section>"
