"""Where the weather of a site comes from."""

from __future__ import annotations

from service.facts.climate import Climate, CountyClimate, PointClimate, SiteClimate, ZoneClimate
from service.facts.site import Site


def site_climate(site: Site) -> tuple[Climate | None, dict[str, str]]:
    """Return where the site's weather comes from, by the best that is known, and its pointers."""
    place = site.place
    if place.climate_site is not None:
        return SiteClimate(site=place.climate_site), {"/climate": "/place/climate_site"}
    if place.latitude is not None and place.longitude is not None:
        point = PointClimate(
            latitude=place.latitude,
            longitude=place.longitude,
            elevation=place.elevation,
            terrain=place.terrain,
            accept_far=place.accept_far_climate,
        )
        return point, {
            "/climate/elevation": "/place/elevation",
            "/climate/terrain": "/place/terrain",
            "/climate/accept_far": "/place/accept_far_climate",
            "/climate": "/place/latitude",
        }
    if place.county is not None:
        county = CountyClimate(state=place.state, county=place.county)
        return county, {"/climate": "/place/latitude"}
    if place.climate_zone is not None:
        return ZoneClimate(zone=place.climate_zone), {"/climate": "/place/latitude"}
    return None, {"/climate": "/place/latitude"}
