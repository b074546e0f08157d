"""The numbers that say where a home battery may hang, by rule and edition of the code."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Final

from service.codes.siting_editions import DEFAULT
from service.published.loader import load
from service.published.source import Source, Standing
from service.published.table_arrays import INCH

NAME: Final = "siting_rules"
_KILOWATT_HOUR: Final = 3.6e6  # [J], exact


@dataclass(frozen=True, slots=True)
class SitingRule:
    """One rule in one edition.

    Attributes
    ----------
    id : str
        `<rule>.<edition>`, the row of the table.
    rule, edition : str
    metres, joules : float or None
        The number, in the one that has it [m], [J]; both None where the rule has none.
    printed : str
        The number as printed.
    sections : str
        Section, and after a semicolon others by which the same text goes; `-`: none.
    title : str
        Work and edition.
    standing : Standing
    source : str
        Where the number was seen.
    statement : str
        What must hold, in plain words.
    """

    id: str
    rule: str
    edition: str
    metres: float | None
    joules: float | None
    printed: str
    sections: str
    title: str
    standing: Standing
    source: str
    statement: str

    def cite(self) -> Source:
        """Return the citation of the whole row.

        Returns
        -------
        Source
        """
        return load(NAME).cite(self.id)


@lru_cache(maxsize=4096)
def find_siting_rule(rule: str, editions: tuple[str, ...]) -> SitingRule | None:
    """Return a rule in the first edition that has it, or None where none of them has.

    Parameters
    ----------
    rule : str
        Such as `opening-distance`.
    editions : tuple of str
        Such as `("ca-2022", "irc-2021", "default")`; see `siting_editions`.

    Returns
    -------
    SitingRule or None
        None: these editions say nothing of it, such as the 2021 model code of where a car drives.

    Raises
    ------
    KeyError
        No edition at all has such a rule.

    Notes
    -----
    Source: table siting_rules.
    """
    if rule not in siting_rule_ids():
        raise KeyError(f"table {NAME} has no rule {rule!r}")
    rows = load(NAME).rows
    found = (f"{rule}.{edition}" for edition in editions if f"{rule}.{edition}" in rows)
    key = next(found, None)
    return None if key is None else _rule(key)


def siting_rule(rule: str, editions: tuple[str, ...]) -> SitingRule:
    """Return a rule in the first edition that has it.

    Parameters
    ----------
    rule : str
    editions : tuple of str
        See `siting_editions`.

    Returns
    -------
    SitingRule

    Raises
    ------
    KeyError
        None of the editions has the rule.

    Notes
    -----
    Source: table siting_rules.
    """
    found = find_siting_rule(rule, editions)
    if found is None:
        raise KeyError(f"table {NAME} has no rule {rule!r} in {', '.join(editions)}")
    return found


def siting_length(rule: str, editions: tuple[str, ...] = (DEFAULT,)) -> float:
    """Return the length that a rule states [m].

    Parameters
    ----------
    rule : str
    editions : tuple of str, optional
        See `siting_editions`.

    Returns
    -------
    float
        [m].

    Raises
    ------
    KeyError
        None of the editions has the rule, or it states no length.

    Notes
    -----
    Source: table siting_rules, column inches; converted once.
    """
    found = siting_rule(rule, editions)
    if found.metres is None:
        raise KeyError(f"rule {found.id} states no length")
    return found.metres


def siting_energy(rule: str, editions: tuple[str, ...]) -> float:
    """Return the energy that a rule states [J].

    Parameters
    ----------
    rule : str
    editions : tuple of str
        See `siting_editions`.

    Returns
    -------
    float
        [J].

    Raises
    ------
    KeyError
        None of the editions has the rule, or it states no energy.

    Notes
    -----
    Source: table siting_rules, column kwh; converted once.
    """
    found = siting_rule(rule, editions)
    if found.joules is None:
        raise KeyError(f"rule {found.id} states no energy")
    return found.joules


def aggregate_rule(location: str) -> str:
    """Return the id of the rule for all units of one class of location together.

    Parameters
    ----------
    location : str
        `utility_room`, `attached_garage`, `detached_garage`, `exterior_wall` or `outdoors`.

    Returns
    -------
    str

    Notes
    -----
    Source: table siting_rules, rows aggregate-energy-*.
    """
    return f"aggregate-energy-{location.replace('_', '-')}"


@cache
def siting_rule_ids() -> tuple[str, ...]:
    """Return the id of every rule once, in the order of the table.

    Returns
    -------
    tuple of str

    Notes
    -----
    Source: table siting_rules, column rule.
    """
    return tuple(dict.fromkeys(row["rule"] for row in load(NAME).rows.values()))


def _rule(key: str) -> SitingRule:
    table = load(NAME)
    row = table.row(key)

    def number(column: str, factor: float) -> float | None:
        printed = table.number_or_none(key, column)
        return None if printed is None else printed * factor

    return SitingRule(
        id=key,
        rule=row["rule"],
        edition=row["edition"],
        metres=number("inches", INCH),
        joules=number("kwh", _KILOWATT_HOUR),
        printed=row["printed"],
        sections=row["sections"],
        title=row["title"],
        standing=Standing(row["standing"]),
        source=row["source"],
        statement=row["statement"],
    )
