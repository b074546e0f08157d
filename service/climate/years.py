"""The hours of a typical year, read on demand."""

from dataclasses import dataclass
from functools import cache, lru_cache
from importlib.resources import as_file, files
from typing import Final

import numpy as np
from numpy.typing import NDArray

from service.climate.sites import climate_sites

Floats = NDArray[np.float64]

FILE: Final = "typical_years.npy"
_ZERO_CELSIUS: Final = 273.15
_TENTHS: Final = 10.0


@dataclass(frozen=True, slots=True, eq=False)
class TypicalYear:
    """8,760 hours of local standard time, no 29 February; hour i is [i, i + 1).

    Attributes
    ----------
    ghi, dni, dhi : ndarray, shape (8760,)
        Global horizontal, direct normal and diffuse horizontal irradiance, means of the hour
        [W/m2].
    dry_bulb : ndarray, shape (8760,)
        Air temperature at the end of the hour [K].
    """

    site_id: str
    ghi: Floats
    dni: Floats
    dhi: Floats
    dry_bulb: Floats


@cache
def _all_years() -> NDArray[np.int16]:
    """Return the years of all sites as stored, shape (sites, 4, 8760), read where they are used.

    Mapped into memory: a process that needs three sites holds three. From a zipped package the
    file is unpacked and its name removed again; the map outlives the name.
    """
    with as_file(files(__package__).joinpath(FILE)) as path:
        years: NDArray[np.int16] = np.load(path, mmap_mode="r", allow_pickle=False)
        return years


@lru_cache(maxsize=96)
def typical_year(site_id: str) -> TypicalYear:
    """Return the typical year of a climate site; its arrays are read-only.

    Parameters
    ----------
    site_id : str
        Id in table climate_sites.

    Raises
    ------
    KeyError
        There is no such site.

    Notes
    -----
    Stored as whole W/m2 and tenths of a degree Celsius, as published. Source: typical
    meteorological years TMY3, see table climate_sites.
    """
    order = list(climate_sites())
    if site_id not in climate_sites():
        raise KeyError(site_id)
    hours = np.asarray(_all_years()[order.index(site_id)], dtype=np.float64)
    hours[3] = hours[3] / _TENTHS + _ZERO_CELSIUS
    hours.setflags(write=False)
    return TypicalYear(site_id, *hours)
