"""How well a site at some distance stands for a home."""

from dataclasses import dataclass
from functools import cache

from service.published import Source, load


@dataclass(frozen=True, slots=True)
class Tier:
    """One tier of a match.

    Attributes
    ----------
    most_distance_m, most_elevation_difference_m : float
        Limits [m]; infinite where there is none.
    same_class : bool
        Whether the terrain must be of the same class.
    yield_error : float
        Error of the year's sun in nine of ten pairs [1].
    temperature_error_k : float
        Error of a hot hour in nine of ten pairs [K].
    words : str
        For the reader of an answer.
    """

    id: str
    most_distance_m: float
    most_elevation_difference_m: float
    same_class: bool
    yield_error: float
    temperature_error_k: float
    words: str


@cache
def tiers() -> tuple[Tier, ...]:
    """Return the tiers, the best first. Source: table climate_tiers."""
    table = load("climate_tiers")
    found = []
    for key in table.rows:
        rise = table.number_or_none(key, "most_elevation_difference_m")
        found.append(
            Tier(
                key,
                table.number(key, "most_distance_km") * 1000.0,
                float("inf") if rise is None else rise,
                table.row(key)["same_class"] == "yes",
                table.number(key, "yield_error"),
                table.number(key, "temperature_error_k"),
                table.row(key)["words"],
            )
        )
    return tuple(found)


def tier(name: str) -> Tier:
    """Return a tier by its letter. Source: table climate_tiers."""
    return {one.id: one for one in tiers()}[name]


def cite_tier(name: str) -> Source:
    """Return a tier's row as a source. Source: table climate_tiers."""
    return load("climate_tiers").cite(name)
