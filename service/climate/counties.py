"""Climate sites where no more than a county or a climate zone is known."""

from functools import cache

from service.climate.sites import climate_sites
from service.published import Source, load


def _plain(name: str) -> str:
    words = name.lower().replace("-", " ").split()
    return " ".join(word for word in words if word not in ("county", "of"))


@cache
def _by_county() -> dict[tuple[str, str], str]:
    rows = load("county_sites").rows.items()
    return {(row["state"].lower(), _plain(row["county"])): key for key, row in rows}


def sites_of_county(state: str, county: str) -> tuple[str, ...]:
    """Return the sites that stand for a county, none where the list does not have it.

    Parameters
    ----------
    state : str
        Two letters.
    county : str
        With or without the word County, in any case.

    Notes
    -----
    Source: table county_sites (common practice, no source).
    """
    key = _by_county().get((state.lower(), _plain(county)))
    return () if key is None else tuple(load("county_sites").row(key)["sites"].split())


def cite_county(state: str, county: str) -> Source:
    """Return a county's row as a source, or raise KeyError. Source: table county_sites."""
    return load("county_sites").cite(_by_county()[state.lower(), _plain(county)])


def sites_of_zone(zone: int) -> tuple[str, ...]:
    """Return the sites of a building climate zone of California.

    Parameters
    ----------
    zone : int
        1 to 16.

    Notes
    -----
    Source: table climate_sites; most zones there are from memory, not for code compliance.
    """
    return tuple(site.id for site in climate_sites().values() if site.climate_zone == zone)
