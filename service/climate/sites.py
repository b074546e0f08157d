"""The places that have a typical year."""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType
from typing import Final

from service.published import Source, load
from service.published.table import Table

NAME: Final = "climate_sites"
#: Lie of the land about a site; our own classes.
TERRAIN_CLASSES: Final = (
    "coast",
    "inland_valley",
    "central_valley",
    "high_desert",
    "low_desert",
    "mountain",
    "other_us",
)
_MONTHS = tuple(f"m{month:02d}" for month in range(1, 13))


@dataclass(frozen=True, slots=True)
class ClimateSite:
    """One place that has a typical year.

    Attributes
    ----------
    latitude_deg, longitude_deg : float
        North and east positive [deg].
    elevation_m : float
        [m].
    utc_offset_h : float
        Local standard time less UTC [h].
    climate_zone : int or None
        Building climate zone of California.
    cooling_0_4_c, heating_99_6_c, max_c, min_c : float
        Percentiles and extremes of the one typical year [degC]; no design standard, they lie low.
    db_0_4_c, mean_range_k : tuple of float
        0.4 % dry bulb [degC] and mean daily range [K] of the twelve months.
    not_observed_percent : float
        Share of its temperatures that was filled in [%].
    """

    id: str
    name: str
    state: str
    latitude_deg: float
    longitude_deg: float
    elevation_m: float
    utc_offset_h: float
    climate_zone: int | None
    terrain_class: str
    cooling_0_4_c: float
    heating_99_6_c: float
    max_c: float
    min_c: float
    db_0_4_c: tuple[float, ...]
    mean_range_k: tuple[float, ...]
    not_observed_percent: float
    notes: str


@cache
def climate_sites() -> Mapping[str, ClimateSite]:
    """Return the climate sites by id, in the order of the table.

    Returns
    -------
    mapping of str to ClimateSite

    Notes
    -----
    Source: table climate_sites.
    """
    table = load(NAME)
    return MappingProxyType({key: _site(table, key) for key in table.rows})


def _site(table: Table, key: str) -> ClimateSite:
    row = table.row(key)

    def number(column: str) -> float:
        return table.number(key, column)

    return ClimateSite(
        id=key,
        name=row["name"],
        state=row["state"],
        latitude_deg=number("latitude_deg"),
        longitude_deg=number("longitude_deg"),
        elevation_m=number("elevation_m"),
        utc_offset_h=number("utc_offset_h"),
        climate_zone=int(row["climate_zone"]) if row["climate_zone"] else None,
        terrain_class=row["terrain_class"],
        cooling_0_4_c=number("tmy3_cooling_0_4_c"),
        heating_99_6_c=number("tmy3_heating_99_6_c"),
        max_c=number("tmy3_max_c"),
        min_c=number("tmy3_min_c"),
        db_0_4_c=tuple(number(f"tmy3_db_0_4_{month}_c") for month in _MONTHS),
        mean_range_k=tuple(number(f"tmy3_mean_range_{month}_k") for month in _MONTHS),
        not_observed_percent=number("dry_bulb_not_observed_pct"),
        notes=row["notes"],
    )


def cite_site(site_id: str) -> Source:
    """Return the typical year of a site as a source.

    Parameters
    ----------
    site_id : str
        Id in table climate_sites.

    Returns
    -------
    Source

    Notes
    -----
    Cites place and hours, not the zone, class and percentiles of the row, which are known less
    well. Source: table climate_sites.
    """
    return load(NAME).cite(site_id, "latitude_deg", "longitude_deg", "hours_sha256")
