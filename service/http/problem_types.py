"""The closed list of problem types: id, status, title and meaning, one row each."""

from __future__ import annotations

import csv
from collections.abc import Mapping
from importlib import resources
from types import MappingProxyType
from typing import NamedTuple


class ProblemType(NamedTuple):
    """One kind of refusal; `id`, `status` and `title` never change within /v1."""

    id: str
    status: int
    title: str
    meaning: str

    @property
    def uri(self) -> str:
        """Return the `type` of its documents: a path of this service that explains it."""
        return f"/problems/{self.id}"


def _read() -> dict[str, ProblemType]:
    text = resources.files(__package__).joinpath("problem_types.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    return {
        row["id"]: ProblemType(row["id"], int(row["status"]), row["title"], row["meaning"])
        for row in rows
    }


PROBLEM_TYPES: Mapping[str, ProblemType] = MappingProxyType(_read())
