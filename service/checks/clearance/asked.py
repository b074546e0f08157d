"""A question as it is tried."""

from __future__ import annotations

from typing import Any, NamedTuple

from service.findings import AskBy, Verdict


class Asked(NamedTuple):
    """A question, the values that its pointer is tried with, and what they move.

    Attributes
    ----------
    pointer, label, question : str
    ask_by : AskBy
    values : tuple
        Tried by reruns.
    why : str
    moves : bool
        Whether an answer moves where units stand; otherwise only what is held against the place.
    minor : bool
        Whether it is left out where no answer changes the verdict.
    then : Verdict or None
        The verdict with the one value, where it is known without a rerun.
    """

    pointer: str
    label: str
    question: str
    ask_by: AskBy
    values: tuple[Any, ...]
    why: str
    moves: bool = False
    minor: bool = False
    then: Verdict | None = None
