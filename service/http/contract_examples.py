"""The examples of an operation, read from the contract's example folder."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, NamedTuple

from service.check import Operation

REQUEST = ".request.json"
RESPONSE = ".response.json"


class Example(NamedTuple):
    """One request and the answer it has, both as JSON values."""

    name: str
    summary: str
    request: Any
    response: Any


def examples_of(operation: Operation, root: Path) -> list[Example]:
    """Return the examples of the operation, sorted by name.

    Raises
    ------
    ValueError
        A file has no summary in the operation, or a summary has no file.
    """
    folder = root / operation.id
    named = sorted(path.name.removesuffix(REQUEST) for path in folder.glob("*" + REQUEST))
    if set(named) != set(operation.examples):
        raise ValueError(
            f"{operation.id}: the folder has the examples {named}, "
            f"the operation names {sorted(operation.examples)}"
        )
    return [
        Example(
            name,
            operation.examples[name],
            json.loads((folder / (name + REQUEST)).read_text("utf-8")),
            json.loads((folder / (name + RESPONSE)).read_text("utf-8")),
        )
        for name in named
    ]
