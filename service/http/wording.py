"""Words of the refusals: how a caller's own value is shown, and what lies nearest to it."""

from __future__ import annotations

import difflib
import math
from collections.abc import Iterable
from typing import Any

#: Most characters of a caller's own text that a refusal repeats.
SHOWN = 40
#: A longer word is no misspelling worth the search for its neighbour.
_LONGEST_WORD = 64
#: Longer lists of choices are left to the contract.
_LISTED = 24


def printable(text: str, most: int = SHOWN) -> str:
    """Return the text cut to `most` characters, what cannot be printed written as its code."""
    kept = text[:most]
    # Most texts are printable, and looked at as a whole.
    if not kept.isprintable():
        kept = "".join(c if c.isprintable() else f"U+{ord(c):04X}" for c in kept)
    return kept + ("..." if len(text) > most else "")


def quoted(text: str) -> str:
    """Return the text in double quotes, cut and printable."""
    return f'"{printable(text)}"'


def shown(value: Any) -> str:
    """Return what a caller wrote, in the words of JSON."""
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, str):
        return f"the text {quoted(value)}"
    if isinstance(value, (int, float)):
        return plain(value)
    if isinstance(value, list):
        return "a list"
    if isinstance(value, dict):
        return "an object"
    return "binary or extension data"


def plain(value: float) -> str:
    """Return a number as it is read: whole ones without a decimal point, long ones cut."""
    if isinstance(value, int):
        return str(value) if abs(value) < 10**15 else "a number of more than 15 digits"
    if value.is_integer() and abs(value) < 10**15:
        return str(int(value))
    return repr(value) if math.isfinite(value) else "a number beyond every bound"


def nearest(word: str, known: Iterable[str]) -> str | None:
    """Return the known word that `word` most likely meant, None where none is near."""
    if len(word) > _LONGEST_WORD:
        return None
    choices = list(known)
    folded = {choice.casefold().replace("-", "_"): choice for choice in choices}
    wanted = word.casefold().replace("-", "_")
    found = difflib.get_close_matches(wanted, folded, n=1, cutoff=0.6)
    return folded[found[0]] if found else None


def listed(words: Iterable[str]) -> str:
    """Return the words for a sentence, or their number where they are too many to read."""
    items = list(words)
    if len(items) > _LISTED:
        return f"one of the {len(items)} that the contract lists"
    return ", ".join(f'"{item}"' for item in items)
