"""Typical years of 81 places, and which of them stands for a home."""

from importlib.resources import files

from service.climate.choosing import Choice, choose_sites
from service.climate.counties import cite_county, sites_of_county, sites_of_zone
from service.climate.sites import TERRAIN_CLASSES, ClimateSite, cite_site, climate_sites
from service.climate.tiers import Tier, cite_tier, tier
from service.climate.years import TypicalYear, typical_year

__all__ = [
    "TERRAIN_CLASSES",
    "Choice",
    "ClimateSite",
    "Tier",
    "TypicalYear",
    "choose_sites",
    "cite_county",
    "cite_site",
    "cite_tier",
    "climate_sites",
    "data_files",
    "sites_of_county",
    "sites_of_zone",
    "tier",
    "typical_year",
]


def data_files() -> tuple[str, ...]:
    """Return the names of this room's data files, which the data edition covers.

    Returns
    -------
    tuple of str
        Sorted.

    Notes
    -----
    Source: the files that ship with the service.
    """
    names = (entry.name for entry in files(__package__).iterdir())
    return tuple(sorted(name for name in names if name.endswith((".csv", ".csv.gz", ".npy"))))
