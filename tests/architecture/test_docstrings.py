"""What calculates says its units and its source."""

import ast
import re
from pathlib import Path

import pytest

from tests.architecture.source_tree import imports, named, packages, public_functions, python_files

UNIT = re.compile(r"\[[^\]\n]{1,40}\]")
SOURCE = re.compile(r"^References\n-{5,}|\bSource:", re.M)
#: Modules of a check that speak of requests and answers; what imports none of them calculates.
_WIRE = ("service.findings", "service.facts", "msgspec")


def is_pure(path: Path) -> bool:
    speaks = any(
        name.startswith(_WIRE) or name.endswith((".request", ".answer", ".year_answer"))
        for name in imports(path)
    )
    return "numpy" in packages(path) and not speaks


CALCULATING = [*python_files("physics"), *filter(is_pure, python_files("checks"))]
FUNCTIONS = [
    pytest.param(function, id=f"{named(path)}:{function.name}")
    for path in CALCULATING
    for function in public_functions(path)
]


def test_there_is_something_that_calculates() -> None:
    assert len(FUNCTIONS) > 10


@pytest.mark.parametrize("function", FUNCTIONS)
def test_a_public_calculation_states_units_in_brackets_and_its_source(
    function: ast.FunctionDef,
) -> None:
    docstring = ast.get_docstring(function) or ""
    assert UNIT.search(docstring), "no unit in brackets"
    assert SOURCE.search(docstring), "no References section and no Source line"
