"""Numbers and names as the sentences of this check say them."""

from __future__ import annotations

import math


def up(number: float) -> str:
    """Return a number rounded up, as a limit is held against."""
    return f"{math.ceil(number * 10 - 1e-9) / 10:g}"


def lowered(sentence: str) -> str:
    """Return a sentence to stand behind other words: its first letter small where it is a word."""
    first = sentence.split(" ", 1)[0]
    return sentence if first not in _OPENINGS else sentence[0].lower() + sentence[1:]


#: Words that begin sentences of this check; anything else is a caller's own name.
_OPENINGS = ("Everything", "With", "Whether", "The")
