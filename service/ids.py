"""Every id that an answer can carry, from one list, with its one-line meaning.

Arrays hold the int code of an id (its place in the list); answers hold the id itself.
"""

from __future__ import annotations

import csv
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import NamedTuple


class Kind(StrEnum):
    """What an id names."""

    RULE = "rule"
    REASON = "reason"
    CAUTION = "caution"
    ALTERNATIVE = "alternative"
    PROBLEM = "problem"


class Id(NamedTuple):
    """One row of the list."""

    id: str
    kind: Kind
    meaning: str


@cache
def listed() -> tuple[Id, ...]:
    """Return all ids in the order of their codes.

    Raises
    ------
    ValueError
        An id stands twice, or a row has an unknown kind or no meaning.
    """
    text = files("service").joinpath("ids.csv").read_text("utf-8")
    rows = csv.DictReader(line for line in text.splitlines() if not line.startswith("#"))
    ids = tuple(Id(row["id"], Kind(row["kind"]), row["meaning"]) for row in rows)
    names = [entry.id for entry in ids]
    if len(set(names)) < len(names) or not all(entry.meaning for entry in ids):
        raise ValueError("ids.csv lists an id twice, or one without a meaning")
    return ids


@cache
def _codes() -> dict[str, int]:
    return {entry.id: code for code, entry in enumerate(listed())}


def code_of(name: str) -> int:
    """Return the code of an id for arrays; KeyError where the list lacks it."""
    return _codes()[name]


def id_of(code: int) -> str:
    """Return the id of a code."""
    if code < 0:
        raise IndexError(f"{code} is no code of an id")
    return listed()[code].id


def meaning_of(name: str) -> str:
    """Return the one-line meaning of an id; KeyError where the list lacks it."""
    return listed()[code_of(name)].meaning
