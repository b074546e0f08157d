"""How deep cables and raceways must lie in the ground."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from service.published.loader import load
from service.published.table_arrays import INCH

NAME = "burial_cover"


@dataclass(frozen=True, slots=True)
class BurialLocation:
    """What lies above a cable or raceway.

    Attributes
    ----------
    label : str
        In words.
    direct_burial, rigid_metal, nonmetallic, residential_branch, low_voltage : float
        Least cover by what is buried, from its top to the finished grade [m].
    condition : str
        On what some of the covers hang; may be empty.
    cables : tuple of str
        Kinds of cable that may lie there without a raceway; empty: all that may be buried.
    """

    id: str
    label: str
    direct_burial: float
    rigid_metal: float
    nonmetallic: float
    residential_branch: float
    low_voltage: float
    condition: str
    cables: tuple[str, ...]


@cache
def burial_locations() -> Mapping[str, BurialLocation]:
    """Return the locations by id.

    Returns
    -------
    mapping of str to BurialLocation

    Notes
    -----
    Source: table burial_cover; inches converted.
    """
    return MappingProxyType({key: _location(key) for key in load(NAME).rows})


def _location(key: str) -> BurialLocation:
    table = load(NAME)
    covers = {name: table.number(key, name) * INCH for name in table.header.units}
    row = table.row(key)
    return BurialLocation(
        id=key,
        label=row["label"],
        condition=row["condition"],
        cables=tuple(row["cables"].split()),
        **covers,
    )
