"""Every id that an answer can carry stands in the list with its meaning, and none is unused."""

import ast
import json
import re
from collections.abc import Iterator
from typing import Any

from service import ids
from service.app import operations
from service.http.answering import Answering
from service.http.contract_examples import REQUEST
from service.http.problem_types import PROBLEM_TYPES
from tests.architecture.source_tree import named, parsed, python_files
from tests.contract.subject import EXAMPLES

LISTED = {entry.id: entry for entry in ids.listed()}
#: What an answer calls the id, by the list it stands in.
IN_ANSWERS = {
    "findings": ("rule", {ids.Kind.RULE}),
    "alternatives": ("id", {ids.Kind.ALTERNATIVE}),
    "cautions": ("id", {ids.Kind.CAUTION}),
}
#: Callable -> argument that holds an id, and its kind.
IN_CODE: dict[str, tuple[int | str, ids.Kind]] = {
    "Finding": ("rule", ids.Kind.RULE),
    "Alternative": ("id", ids.Kind.ALTERNATIVE),
    "Caution": ("id", ids.Kind.CAUTION),
    "Problem": (0, ids.Kind.PROBLEM),
}


def ids_in_code() -> Iterator[tuple[str, str, ids.Kind]]:
    """Yield file, id and kind of every id that stands in a call as a constant."""
    for path in python_files():
        for node in ast.walk(parsed(path)):
            name = getattr(node.func, "id", "") if isinstance(node, ast.Call) else ""
            if name not in IN_CODE:
                continue
            assert isinstance(node, ast.Call)
            place, kind = IN_CODE[name]
            for value in _argument(node, place):
                yield named(path), value, kind


def _argument(call: ast.Call, place: int | str) -> list[str]:
    if isinstance(place, int):
        given = call.args[place : place + 1]
    else:
        given = [keyword.value for keyword in call.keywords if keyword.arg == place]
    return [n.value for n in given if isinstance(n, ast.Constant) and isinstance(n.value, str)]


def ids_in(answer: Any) -> Iterator[tuple[str, set[ids.Kind]]]:
    """Yield the ids of an answer, wherever they stand, with the kinds they may have."""
    if isinstance(answer, dict):
        for name, value in answer.items():
            if name in IN_ANSWERS and isinstance(value, list):
                key, kinds = IN_ANSWERS[name]
                yield from ((item[key], kinds) for item in value)
            yield from ids_in(value)
    elif isinstance(answer, list):
        for item in answer:
            yield from ids_in(item)


def answers() -> Iterator[Any]:
    for operation in operations():
        answering = Answering(operation)
        for request in sorted((EXAMPLES / operation.id).glob("*" + REQUEST)):
            taken, _ = answering.take(request.read_bytes())
            yield json.loads(answering.answer(taken, frozenset(operation.includes)).body)


def test_every_id_in_the_code_is_listed_with_its_kind() -> None:
    found = list(ids_in_code())
    assert found
    for path, name, kind in found:
        assert name in LISTED, f"{path}: {name}"
        assert LISTED[name].kind is kind, f"{path}: {name}"


def test_every_id_in_an_answer_is_listed_with_its_kind() -> None:
    found = [pair for answer in answers() for pair in ids_in(answer)]
    assert found
    for name, kinds in found:
        assert name in LISTED, name
        assert LISTED[name].kind in kinds, name


def test_no_listed_id_is_unused() -> None:
    constants = {
        node.value
        for path in python_files()
        for node in ast.walk(parsed(path))
        if isinstance(node, ast.Constant) and isinstance(node.value, str)
    }
    unused = set(LISTED) - constants - set(PROBLEM_TYPES)
    assert unused == set()


def test_every_problem_type_is_listed_in_the_words_of_its_own_table() -> None:
    problems = {entry.id: entry.meaning for entry in ids.listed() if entry.kind == "problem"}
    assert problems == {problem.id: problem.meaning for problem in PROBLEM_TYPES.values()}


def test_an_id_is_kebab_case_and_has_a_sentence() -> None:
    for entry in ids.listed():
        assert re.fullmatch(r"[a-z0-9]+(-[a-z0-9]+)*", entry.id), entry.id
        assert entry.meaning.endswith("."), entry.id


def test_a_code_and_its_id_stand_for_each_other() -> None:
    for code, entry in enumerate(ids.listed()):
        assert ids.code_of(entry.id) == code
        assert ids.id_of(code) == entry.id
        assert ids.meaning_of(entry.id) == entry.meaning
