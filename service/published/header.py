"""The header block of a data file: `# key: value` lines above the column names."""

import re
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from service.published.errors import DataFileError
from service.published.source import FILE_STANDINGS, Standing

_REQUIRED = ("title", "edition", "section", "standing")
_OPTIONAL = ("licence", "note")
_LINE = re.compile(r"#\s*(?P<key>[a-z_]+(?:\.[A-Za-z0-9_]+)?)\s*:\s*(?P<value>.*\S)\s*$")


@dataclass(frozen=True, slots=True)
class Header:
    """What a data file says about itself.

    Attributes
    ----------
    title, edition, section, standing, licence, note
        As written; `licence` and `note` may be empty, repeated notes are joined.
    units : mapping of str to str
        Column to its unit. A column is numeric exactly when it has a unit.
    groups : mapping of str to str
        Column to the group whose `source_<group>` and `standing_<group>` columns speak for it.
    """

    title: str
    edition: str
    section: str
    standing: Standing
    licence: str
    note: str
    units: Mapping[str, str]
    groups: Mapping[str, str]


def split_header(file: str, text: str) -> tuple[Header, str]:
    """Split the text of a data file into its header and its CSV body.

    Parameters
    ----------
    file : str
        Name to show in an error.
    text : str
        The whole file.

    Returns
    -------
    Header, str

    Raises
    ------
    DataFileError
        A required line is absent, or a line is unknown, repeated or has no value.

    Notes
    -----
    Source: derived; the format of our own data files.
    """
    lines = text.splitlines(keepends=True)
    count = next((i for i, line in enumerate(lines) if not line.startswith("#")), len(lines))
    plain: dict[str, str] = {}
    units: dict[str, str] = {}
    groups: dict[str, str] = {}
    for line in lines[:count]:
        key, value = _read_line(file, line)
        kind, _, rest = key.partition(".")
        if kind == "unit" and rest:
            _put(file, units, rest, value, key)
        elif kind == "cites" and rest:
            for column in value.split():
                _put(file, groups, column, rest, f"cites for column {column}")
        elif key == "note":
            plain["note"] = f"{plain['note']} {value}" if "note" in plain else value
        elif key in _REQUIRED or key in _OPTIONAL:
            _put(file, plain, key, value, key)
        else:
            raise DataFileError(file, f"unknown header line {key!r}")
    return _header(file, plain, units, groups), "".join(lines[count:])


def as_standing(file: str, value: str) -> Standing:
    """Read the standing of a file, row or group of columns.

    Parameters
    ----------
    file : str
        Name to show in an error.
    value : str
        The text of the cell or header line.

    Returns
    -------
    Standing

    Raises
    ------
    DataFileError
        The text is no standing that a data file may have.

    Notes
    -----
    Source: derived; the format of our own data files.
    """
    if value not in FILE_STANDINGS:
        raise DataFileError(file, f"unknown standing {value!r}; use {', '.join(FILE_STANDINGS)}")
    return Standing(value)


def _header(
    file: str, plain: dict[str, str], units: dict[str, str], groups: dict[str, str]
) -> Header:
    for key in _REQUIRED:
        if key not in plain:
            raise DataFileError(file, f"header line {key!r} is missing")
    return Header(
        title=plain["title"],
        edition=plain["edition"],
        section=plain["section"],
        standing=as_standing(file, plain["standing"]),
        licence=plain.get("licence", ""),
        note=plain.get("note", ""),
        units=MappingProxyType(units),
        groups=MappingProxyType(groups),
    )


def _read_line(file: str, line: str) -> tuple[str, str]:
    found = _LINE.match(line)
    if not found:
        raise DataFileError(file, f"header line {line.strip()!r} is not '# key: value'")
    return found["key"], found["value"]


def _put(file: str, into: dict[str, str], key: str, value: str, shown: str) -> None:
    if key in into:
        raise DataFileError(file, f"header line {shown!r} stands twice")
    into[key] = value
