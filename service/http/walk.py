"""One walk over a body that did not fit: the errors found so far, each with its pointer."""

from __future__ import annotations

from typing import Any, Protocol

from service.check import FieldError
from service.http.wording import printable

#: A refusal lists this many errors; a body with more is told so and mended in rounds.
MOST_ERRORS = 100
#: Most characters of one step of a pointer; a longer name is no name of ours.
_LONGEST_STEP = 80


class TooManyErrors(Exception):
    """The walk has found as many errors as a refusal lists."""


class Walk:
    """The errors of one body, in the order of the contract."""

    def __init__(self) -> None:
        self.errors: list[FieldError] = []

    def refuse(self, at: str, detail: str) -> None:
        """Note one error.

        Raises
        ------
        TooManyErrors
            It is the last one that a refusal lists.
        """
        self.errors.append(FieldError(at, detail))
        if len(self.errors) == MOST_ERRORS:
            self.errors.append(FieldError("", "more errors follow; mend these first"))
            raise TooManyErrors


class Expectation(Protocol):
    """What stands at one place of the contract.

    ``words`` completes the sentence "write ...".
    """

    words: str

    def read(self, value: Any, at: str, walk: Walk) -> Any:
        """Return the value as the decoder takes it; note on the walk what does not fit."""


def step(at: str, name: str | int) -> str:
    """Return the pointer one step below `at` (RFC 6901)."""
    if isinstance(name, int):
        return f"{at}/{name}"
    return f"{at}/" + printable(name, _LONGEST_STEP).replace("~", "~0").replace("/", "~1")
