"""Find, read and remember the data files, and name their edition."""

import hashlib
from collections.abc import Iterator, Mapping
from functools import cache
from importlib.resources import files
from importlib.resources.abc import Traversable
from types import MappingProxyType

from service.published.errors import DataFileError
from service.published.parse import parse
from service.published.table import Table

# Rooms are named, not imported: this room lies below those of climate and codes.
ROOMS = ("published", "codes", "climate")
_TABLE = ".csv"
_DATA = (_TABLE, ".csv.gz", ".npy")


@cache
def load(name: str) -> Table:
    """Return one table, read on the first call only.

    Parameters
    ----------
    name : str
        File name without `.csv`; it is unique over all rooms.

    Returns
    -------
    Table

    Raises
    ------
    DataFileError
        There is no such file, or it breaks the format.

    Notes
    -----
    Source: the header of the file itself.
    """
    found = _tables().get(name)
    if found is None:
        raise DataFileError(f"{name}.csv", "there is no such data file")
    return parse(name, found.read_text(encoding="utf-8"))


def table_names() -> tuple[str, ...]:
    """Return the names of all tables, sorted.

    Returns
    -------
    tuple of str

    Notes
    -----
    Source: the files that ship with the service.
    """
    return tuple(sorted(_tables()))


def resolve(source_id: str) -> tuple[Table, str, str | None]:
    """Return the table, row key and column that the id of a source names.

    Parameters
    ----------
    source_id : str
        `table/row/column` or `table/row`; a row key may itself hold slashes.

    Returns
    -------
    Table, str, str or None

    Raises
    ------
    DataFileError, KeyError
        There is no such table, row or column.

    Notes
    -----
    Source: derived; the ids are those of `Table.cite`.
    """
    name, _, rest = source_id.partition("/")
    table = load(name)
    if rest in table.rows:
        return table, rest, None
    key, _, column = rest.rpartition("/")
    table.cite(key, column)
    return table, key, column


@cache
def data_edition() -> str:
    """Return the edition of the data files that ship with the service.

    Returns
    -------
    str
        16 hex digits.

    Notes
    -----
    Source: derived; see `digest`.
    """
    return digest(files("service"))


def digest(root: Traversable) -> str:
    """Return the first 16 hex digits of one SHA-256 over all data files.

    Parameters
    ----------
    root : Traversable
        Folder that holds the rooms.

    Returns
    -------
    str

    Notes
    -----
    Source: derived. Room, name and bytes of every `.csv`, `.csv.gz` and `.npy` enter, sorted by
    room and name, each with its length before it, so that no two sets of files share a message.
    """
    sha256 = hashlib.sha256()
    for room in ROOMS:
        for name, file in sorted(_data_files(root / room).items()):
            for part in (f"{room}/{name}".encode(), file.read_bytes()):
                sha256.update(len(part).to_bytes(8, "big"))
                sha256.update(part)
    return sha256.hexdigest()[:16]


def find_tables(root: Traversable) -> Mapping[str, Traversable]:
    """Return every `.csv` file of the rooms by its name without the ending.

    Parameters
    ----------
    root : Traversable
        Folder that holds the rooms.

    Returns
    -------
    mapping of str to Traversable

    Raises
    ------
    DataFileError
        Two files share a name.

    Notes
    -----
    Source: derived; the id of a source begins with the name of its table, so names are unique.
    """
    found: dict[str, Traversable] = {}
    for room in ROOMS:
        for file in _data_files(root / room).values():
            if not file.name.endswith(_TABLE):
                continue
            name = file.name.removesuffix(_TABLE)
            if name in found:
                raise DataFileError(file.name, "stands in two places; names must be unique")
            found[name] = file
    return MappingProxyType(found)


@cache
def _tables() -> Mapping[str, Traversable]:
    return find_tables(files("service"))


def _data_files(room: Traversable) -> dict[str, Traversable]:
    return {name: file for name, file in _walk(room) if name.endswith(_DATA)}


def _walk(folder: Traversable, prefix: str = "") -> Iterator[tuple[str, Traversable]]:
    if not folder.is_dir():
        return
    for entry in folder.iterdir():
        name = prefix + entry.name
        if entry.is_dir():
            yield from _walk(entry, f"{name}/")
        else:
            yield name, entry
