"""No sentence of an answer promises what nobody may promise."""

import ast
import json
from collections.abc import Iterator
from typing import Any

import pytest

from tests.architecture.source_tree import named, parsed, python_files
from tests.architecture.test_ids import answers

FORBIDDEN = ("whole home", "whole-home", "guarantee", "no upgrade needed")


def texts(value: Any) -> Iterator[str]:
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict):
        for item in value.values():
            yield from texts(item)
    elif isinstance(value, list):
        for item in value:
            yield from texts(item)


@pytest.mark.parametrize("words", FORBIDDEN)
def test_no_answer_says_it(words: str) -> None:
    shown = list(answers())
    assert shown
    for answer in shown:
        assert not [text for text in texts(answer) if words in text.lower()], json.dumps(answer)


@pytest.mark.parametrize("words", FORBIDDEN)
def test_no_sentence_in_the_code_says_it(words: str) -> None:
    for path in python_files("checks", "assessment", "facts", "findings.py"):
        for node in ast.walk(parsed(path)):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                assert words not in node.value.lower(), named(path)
