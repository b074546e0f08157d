"""What hangs on a wall or stands before it, and the room that it keeps."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType
from typing import NamedTuple

from service.published.loader import load
from service.published.table_arrays import INCH

NAME = "siting_equipment"


class EquipmentRoom(NamedTuple):
    """What one kind of equipment keeps.

    Attributes
    ----------
    label : str
        In words.
    depth, side, service_side, top, distance : float
        How far it stands out of the wall; free at its sides, at that of its controls and above it;
        free of units every way [m].
    working_space : bool
        Whether a working space must stay before it.
    move : str
        Who moves it; `none`: it stays.
    """

    label: str
    depth: float
    side: float
    service_side: float
    top: float
    distance: float
    working_space: bool
    move: str


@cache
def siting_equipment() -> Mapping[str, EquipmentRoom]:
    """Return what each kind of equipment keeps, by kind.

    Returns
    -------
    mapping of str to EquipmentRoom

    Notes
    -----
    Source: table siting_equipment; inches converted.
    """
    table = load(NAME)
    found = {}
    for key, row in table.rows.items():
        inches = {
            name: table.number(key, name) * INCH
            for name in ("depth", "side", "service_side", "top", "distance")
        }
        found[key] = EquipmentRoom(
            label=row["label"],
            working_space=row["working_space"] == "yes",
            move=row["move"],
            **inches,
        )
    return MappingProxyType(found)
