"""Heat that sealed enclosures give off, by their material."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from service.published.loader import load

NAME = "enclosure_materials"


@cache
def enclosure_coefficients() -> Mapping[str, float]:
    """Return what a square metre of exposed face gives off per kelvin [W/(m2 K)].

    Returns
    -------
    mapping of str to float

    Notes
    -----
    Source: table enclosure_materials.
    """
    table = load(NAME)
    return MappingProxyType({key: table.number(key, "w_m2_k") for key in table.rows})
