"""Place and date: under which code edition the rules are read."""

from __future__ import annotations

from functools import lru_cache

from service.codes import Resolution, default_permit_date, editions
from service.facts import Site
from service.findings import Assumption, Basis
from service.published import data_edition


def permit_day(site: Site) -> str:
    """Return the day of the permit, or the release's default, as text."""
    return site.permit_date or default_permit_date().isoformat()


def resolution(site: Site) -> Resolution:
    """Return the code editions of the site's place and date."""
    place = site.place
    return _resolved(place.state, permit_day(site), place.county or "", place.city or "")


@lru_cache(maxsize=256)
def _resolved(state: str, day: str, county: str, city: str) -> Resolution:
    """Return the editions of a place and day; the reruns of one site ask a thousand times."""
    return editions(state, day, county, city)


def basis(site: Site) -> Basis:
    """Return the editions that the answer stands on."""
    found = resolution(site)
    return Basis(code_edition=found.current if found.known else None, data_edition=data_edition())


def assumed_date(site: Site) -> list[Assumption]:
    """Return the permit date as an assumption where none was stated."""
    if site.permit_date is not None:
        return []
    return [
        Assumption(
            pointer="/permit_date",
            value=permit_day(site),
            reason="The release's stated default date; no rule applied here depends on it.",
        )
    ]
