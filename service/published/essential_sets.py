"""Sets of essential loads, for an estimate before anything is known of a home."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from service.published.appliances import APPLIANCE_IDS
from service.published.errors import DataFileError
from service.published.loader import load


@dataclass(frozen=True, slots=True)
class EssentialSet:
    """One set.

    Attributes
    ----------
    id, name : str
    members : tuple of str
        Appliance ids; one named twice counts twice.
    """

    id: str
    name: str
    members: tuple[str, ...]


@cache
def essential_sets() -> Mapping[str, EssentialSet]:
    """Return the sets by id, in the order of the table.

    Returns
    -------
    mapping of str to EssentialSet

    Raises
    ------
    DataFileError
        A member is not in the appliance catalogue.

    Notes
    -----
    Source: table essential_sets.
    """
    table = load("essential_sets")
    found: dict[str, EssentialSet] = {}
    for key, row in table.rows.items():
        members = tuple(row["members"].split())
        unknown = [member for member in members if member not in APPLIANCE_IDS]
        if unknown:
            raise DataFileError(f"{table.name}.csv", f"row {key} names unknown {unknown[0]!r}")
        found[key] = EssentialSet(key, row["name"], members)
    return MappingProxyType(found)
