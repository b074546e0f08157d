"""What a unit hangs on, and what stands opposite its working space."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Final

from service.published.errors import DataFileError
from service.published.loader import load
from service.published.source import Source, Standing

MATERIALS: Final = "siting_materials"
WALLS: Final = "siting_walls"
#: None stands for unknown.
_ANSWERS: Final[dict[str, bool | None]] = {"yes": True, "no": False, "unknown": None}


@dataclass(frozen=True, slots=True)
class OppositeMaterial:
    """What stands opposite a working space.

    Attributes
    ----------
    id : str
    grounded : bool or None
        None: unknown.
    condition : int
        Condition of the table of working spaces that is taken: 1, 2 or 3.
    statement : str
    standing : Standing
    source : str
    """

    id: str
    grounded: bool | None
    condition: int
    statement: str
    standing: Standing
    source: str

    def cite(self) -> Source:
        """Return the citation of the whole row.

        Returns
        -------
        Source
        """
        return load(MATERIALS).cite(self.id)


@dataclass(frozen=True, slots=True)
class WallBuild:
    """A wall that a unit may hang on.

    Attributes
    ----------
    id : str
    studs : bool or None
        Whether the fixing finds studs behind the face; None: unknown.
    fixing : str
        What the fixing needs.
    confirm : str
        What a person must confirm.
    standing : Standing
    source : str
    """

    id: str
    studs: bool | None
    fixing: str
    confirm: str
    standing: Standing
    source: str

    def cite(self) -> Source:
        """Return the citation of the whole row.

        Returns
        -------
        Source
        """
        return load(WALLS).cite(self.id)


@cache
def opposite_materials() -> Mapping[str, OppositeMaterial]:
    """Return what may stand opposite a working space by id, in the order of the table.

    Returns
    -------
    mapping of str to OppositeMaterial

    Notes
    -----
    Source: table siting_materials.
    """
    table = load(MATERIALS)
    return MappingProxyType(
        {
            key: OppositeMaterial(
                id=key,
                grounded=_answer(MATERIALS, key, row["grounded"]),
                condition=int(table.exact(key, "condition")),
                statement=row["statement"],
                standing=Standing(row["standing"]),
                source=row["source"],
            )
            for key, row in table.rows.items()
        }
    )


@cache
def wall_builds() -> Mapping[str, WallBuild]:
    """Return the walls that a unit may hang on by id, in the order of the table.

    Returns
    -------
    mapping of str to WallBuild

    Notes
    -----
    Source: table siting_walls.
    """
    return MappingProxyType(
        {
            key: WallBuild(
                id=key,
                studs=_answer(WALLS, key, row["stud"]),
                fixing=row["fixing"],
                confirm=row["confirm"],
                standing=Standing(row["standing"]),
                source=row["source"],
            )
            for key, row in load(WALLS).rows.items()
        }
    )


def _answer(table: str, key: str, cell: str) -> bool | None:
    if cell not in _ANSWERS:
        raise DataFileError(f"{table}.csv", f"row {key} says {cell!r} for yes, no or unknown")
    return _ANSWERS[cell]
