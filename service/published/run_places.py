"""The places a run leads through: their temperature where none is stated, and whether wet."""

from __future__ import annotations

from functools import cache
from typing import NamedTuple

from service.published.loader import load

NAME = "run_places"


class RunPlace(NamedTuple):
    """A place of a part of a run.

    Attributes
    ----------
    ambient : float
        Hot end that stands in where none is stated [degF].
    outdoors, underground : bool
        Whether it lies there.
    label : str
        In words.
    """

    ambient: float
    outdoors: bool
    underground: bool
    label: str


@cache
def run_places() -> dict[str, RunPlace]:
    """Return the places by id.

    Notes
    -----
    Source: table run_places.
    """
    table = load(NAME)
    return {
        key: RunPlace(
            table.number(key, "ambient"),
            row["outdoors"] == "yes",
            row["underground"] == "yes",
            row["label"],
        )
        for key, row in table.rows.items()
    }
