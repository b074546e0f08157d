"""Kinds of cable: their sizes, the ampacity column that caps them, and where they may lie."""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from types import MappingProxyType

from service.published.loader import load

NAME = "cable_types"


class Allowed(StrEnum):
    """Whether a cable may lie at a place; conditional: as its condition says."""

    YES = "yes"
    NO = "no"
    CONDITIONAL = "conditional"


@dataclass(frozen=True, slots=True)
class CableType:
    """A kind of cable.

    Attributes
    ----------
    copper_least, copper_most, aluminum_least, aluminum_most : str or None
        Ends of its sizes; None: not known.
    column : float
        Temperature column above which the final ampacity never goes [degC].
    insulated_column : float
        The same in contact with thermal insulation [degC].
    insulated_most : str or None
        Largest size that the latter holds for; None: all.
    derating_column : float
        Temperature column where correction and adjustment start [degC].
    wet, buried, indoors, outdoors : Allowed
        Where it may lie.
    condition : str
        In words.
    """

    id: str
    label: str
    copper_least: str | None
    copper_most: str | None
    aluminum_least: str | None
    aluminum_most: str | None
    column: float
    insulated_column: float
    insulated_most: str | None
    derating_column: float
    wet: Allowed
    buried: Allowed
    indoors: Allowed
    outdoors: Allowed
    condition: str


@cache
def cable_types() -> Mapping[str, CableType]:
    """Return the kinds of cable by id.

    Returns
    -------
    mapping of str to CableType

    Notes
    -----
    Source: table cable_types.
    """
    return MappingProxyType({key: _cable(key) for key in load(NAME).rows})


def _cable(key: str) -> CableType:
    table = load(NAME)
    row = table.row(key)
    return CableType(
        key,
        row["label"],
        row["copper_least"] or None,
        row["copper_most"] or None,
        row["aluminum_least"] or None,
        row["aluminum_most"] or None,
        table.number(key, "column"),
        table.number(key, "insulated_column"),
        row["insulated_most"] or None,
        table.number(key, "derating_column"),
        Allowed(row["wet"]),
        Allowed(row["buried"]),
        Allowed(row["indoors"]),
        Allowed(row["outdoors"]),
        row["condition"],
    )
