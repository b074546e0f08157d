"""Texts with a unit: a closed list of spellings, exact factors computed once at import.

A caller's text never reaches pint's parser, which evaluates expressions and guesses prefixes.
It is cut by one regular expression, its unit is looked up, and the number is multiplied by an
exact rational factor.
"""

from __future__ import annotations

import csv
import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from importlib import resources

import pint

_NUMBER = r"[+-]?(?:[0-9]{1,15}(?:\.[0-9]{0,15})?|\.[0-9]{1,15})(?:[eE][+-]?[0-9]{1,2})?"
_TEXT = re.compile(rf" {{0,4}}(?P<number>{_NUMBER}) {{0,4}}(?P<unit>[A-Za-z%/]{{1,8}}) {{0,4}}")
_FRACTION = re.compile(
    r" {0,4}(?:(?P<whole>[0-9]{1,4})[ -])?(?P<over>[0-9]{1,3})/(?P<under>[1-9][0-9]{0,2})"
    r" {0,4}(?P<unit>in|ft) {0,4}"
)
#: The SI unit of each dimension, in the registry's words.
_SI_NAMES = {
    "energy": "joule",
    "power": "watt",
    "apparent_power": "volt_ampere",
    "current": "ampere",
    "voltage": "volt",
    "length": "meter",
    "duration": "second",
    "temperature": "kelvin",
    "mass": "kilogram",
    "volume": "meter**3",
    "fraction": "dimensionless",
}


class UnitTextError(ValueError):
    """A text that is no quantity of the asked dimension; its message names the remedy."""


@dataclass(frozen=True, slots=True)
class Unit:
    """One unit of the closed list.

    ``factor`` and ``offset`` are exact: value in SI = value * factor + offset.
    """

    name: str
    dimension: str
    spellings: tuple[str, ...]
    factor: Fraction
    offset: Fraction


def _read() -> dict[str, Unit]:
    registry: pint.UnitRegistry[Fraction] = pint.UnitRegistry(
        non_int_type=Fraction, cache_folder=None
    )
    units: dict[str, Unit] = {}
    text = resources.files(__package__).joinpath("units.csv").read_text("utf-8")
    for row in csv.DictReader(line for line in text.splitlines() if not line.startswith("#")):
        si = _SI_NAMES[row["dimension"]]
        quantity = registry.Quantity
        zero = quantity(Fraction(0), row["registry_name"]).to(si).magnitude
        one = quantity(Fraction(1), row["registry_name"]).to(si).magnitude
        units[row["unit"]] = Unit(
            name=row["unit"],
            dimension=row["dimension"],
            spellings=tuple(row["spellings"].split(";")),
            factor=Fraction(one) - Fraction(zero),
            offset=Fraction(zero),
        )
    return units


UNITS: dict[str, Unit] = _read()
_BY_SPELLING = {spelling: unit for unit in UNITS.values() for spelling in unit.spellings}
_SPELLINGS = {
    dimension: tuple(s for u in UNITS.values() if u.dimension == dimension for s in u.spellings)
    for dimension in _SI_NAMES
}


def spellings_of(unit: str) -> tuple[str, ...]:
    """Return the unit spellings a field stated in `unit` accepts in a text."""
    return _SPELLINGS[UNITS[unit].dimension]


@lru_cache(maxsize=4096)
def si(value: float, unit: str) -> float:
    """Return `value` [`unit`] in the SI unit of its dimension, by the exact factor."""
    entry = UNITS[unit]
    return float(Fraction(value) * entry.factor + entry.offset)


def si_factor(unit: str) -> float:
    """Return the factor from `unit` to SI for a unit without offset."""
    entry = UNITS[unit]
    if entry.offset:
        raise ValueError(f"{unit} has an offset; convert values with si()")
    return float(entry.factor)


def from_text(text: str, unit: str) -> float:
    """Return the number of `unit` that `text` ("30 m", "95 degF", "3/4 in") states.

    Raises
    ------
    UnitTextError
        The text is no number followed by a spelling of the dimension's closed list.
    """
    target = UNITS[unit]
    match = _TEXT.fullmatch(text) or _FRACTION.fullmatch(text)
    source = _BY_SPELLING.get(match["unit"]) if match else None
    if match is None or source is None or source.dimension != target.dimension:
        raise UnitTextError(
            f"write a bare number of {unit}, or a number and one of the units "
            + ", ".join(spellings_of(unit))
        )
    if "over" in match.groupdict():
        number = Fraction(match["whole"] or 0) + Fraction(int(match["over"]), int(match["under"]))
    else:
        number = Fraction(match["number"])
    in_si = number * source.factor + source.offset
    return float((in_si - target.offset) / target.factor)
