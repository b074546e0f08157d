"""The text form of a quantity in the contract: which spellings of which units are taken."""

from __future__ import annotations

import re
from functools import cache
from typing import Any

from service.quantities.units import UNITS, spellings_of

#: One number as a text may write it, in the syntax that ECMA-262 and Python share.
NUMBER = r"[+-]?(?:[0-9]{1,15}(?:\.[0-9]{0,15})?|\.[0-9]{1,15})(?:[eE][+-]?[0-9]{1,2})?"
#: A fraction of the trade, "3/4 in" or "1 1/2 in".
FRACTION = r"(?:[0-9]{1,4}[ -])?[0-9]{1,3}/[1-9][0-9]{0,2}"
_GAP = " {0,4}"
_UNIT_TEXT = re.compile("[A-Za-z%/]{1,8}")
MAX_LENGTH = 64


def units_taken(unit: str) -> tuple[str, ...]:
    """Return the spellings that a text of a field stated in `unit` may end with."""
    return tuple(s for s in spellings_of(unit) if _UNIT_TEXT.fullmatch(s))


@cache
def pattern(unit: str) -> str:
    """Return the anchored pattern of every text that states a quantity of the dimension."""
    spellings = "|".join(re.escape(s) for s in sorted(units_taken(unit), key=len, reverse=True))
    plain = f"{NUMBER}{_GAP}(?:{spellings})"
    if UNITS[unit].dimension == "length":
        plain = f"(?:{plain}|{FRACTION}{_GAP}(?:in|ft))"
    return f"^{_GAP}{plain}{_GAP}$"


def text_units(unit: str) -> str:
    """Return the sentence that names the unit of a bare number and those of a text."""
    return f"A bare number is in {unit}; a text carries its unit: {', '.join(units_taken(unit))}."


def quantity_text(number: dict[str, Any], unit: str) -> dict[str, Any]:
    """Return the schema of a bare number widened by the texts that `unit` takes."""
    kinds = number.get("type")
    if kinds == "number":
        widened: Any = ["number", "string"]
    elif kinds == ["number", "null"]:
        widened = ["number", "string", "null"]
    else:
        raise TypeError(f"a quantity in {unit} is declared on {number}, not on a number")
    return {**number, "type": widened, "pattern": pattern(unit), "maxLength": MAX_LENGTH}
