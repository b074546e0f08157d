"""Resistance and reactance of conductors, by material and by the raceway around them."""

from functools import cache
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from service.published.conductors import PROPERTIES, Material, sizes
from service.published.table_arrays import OHM_PER_KFT, column

NAME = "ac_impedance"

#: Of the raceway around the conductors.
RacewayMaterial = Literal["pvc", "aluminum", "steel"]


def dc_row(size: str, *, solid: bool = False) -> str:
    """Return the row of table conductor_properties to cite."""
    return f"{size}/{'solid' if solid else 'stranded'}"


@cache
def dc_resistance(
    material: Literal["copper", "copper_coated", "aluminum"], *, solid: bool = False
) -> NDArray[np.float64]:
    """Return the direct-current resistance of every size at 75 degC, shape (sizes,) [ohm/m].

    Parameters
    ----------
    material : str
        copper, copper_coated (tinned) or aluminum.
    solid : bool
        One wire instead of strand, which has more resistance.

    Returns
    -------
    ndarray
        Along one conductor. NaN where the table has no such size.

    Notes
    -----
    Source: table conductor_properties; ohm/kft converted.
    """
    keys = (dc_row(size, solid=solid) for size in sizes())
    return column(PROPERTIES, keys, material, OHM_PER_KFT)


@cache
def ac_resistance(material: Material, raceway: RacewayMaterial) -> NDArray[np.float64]:
    """Return the resistance of every size at 60 Hz and 75 degC, shape (sizes,) [ohm/m].

    Parameters
    ----------
    material : str
        Of the conductor: copper or aluminum.
    raceway : str
        Of the raceway: pvc, aluminum or steel.

    Returns
    -------
    ndarray
        Along one conductor. NaN where the table has no such size: 700, 800 and 900 kcmil and
        above 1000.

    Notes
    -----
    Two digits below 1/0, so up to 3 percent below direct current.
    Source: table ac_impedance; ohm/kft converted.
    """
    return column(NAME, sizes(), ac_column(material, raceway), OHM_PER_KFT)


@cache
def reactance(raceway: RacewayMaterial) -> NDArray[np.float64]:
    """Return the reactance of every size at 60 Hz, shape (sizes,) [ohm/m].

    Parameters
    ----------
    raceway : str
        Material of the raceway: pvc, aluminum or steel.

    Returns
    -------
    ndarray
        Along one conductor. NaN where the table has no such size.

    Notes
    -----
    Source: table ac_impedance; ohm/kft converted.
    """
    return column(NAME, sizes(), reactance_column(raceway), OHM_PER_KFT)


def ac_column(material: Material, raceway: RacewayMaterial) -> str:
    """Return the column of table ac_impedance to cite for a resistance; the row is the size."""
    return f"{material}_{raceway}"


def reactance_column(raceway: RacewayMaterial) -> str:
    """Return the column of table ac_impedance to cite for a reactance; PVC and aluminum share."""
    return "x_steel" if raceway == "steel" else "x_pvc"
