"""The loads that a site asks for: single ones, a usual set, and what its facts bring with them."""

from __future__ import annotations

from service.facts.home import Home
from service.facts.loads import CatalogueLoad, Load
from service.facts.site import Site
from service.published.essential_sets import essential_sets

#: Facts of the home that bring a load with them: field -> value -> appliances of the catalogue.
BROUGHT: dict[str, dict[str, tuple[str, ...]]] = {
    "medical_equipment": {
        "cpap": ("medical_cpap",),
        "oxygen": ("medical_o2",),
        "other": ("medical_o2",),
    },
    "well_pump": {"v120": ("well_pump",), "v240": ("well_pump",)},
    "sump_pump": {"one": ("sump_pump_third",)},
    "internet": {"keep_running": ("modem", "router")},
}


def chosen_loads(site: Site) -> tuple[list[Load], dict[str, str]]:
    """Return the loads that the site asks for, and where each row of the wishes stands.

    Single loads and a set are joined. A fact that brings a load counts only where the wishes do
    not name that load already; a row that a fact or a set brings has no field of its own to fill.
    """
    wishes = site.wishes
    rows: list[Load] = []
    pointers: dict[str, str] = {}
    if wishes.loads:
        rows = list(wishes.loads)
        pointers = {f"/use/rows/{i}": f"/wishes/loads/{i}" for i in range(len(rows))}
    named = {row.appliance for row in rows if isinstance(row, CatalogueLoad)}
    if wishes.essential_set:
        members = essential_sets()[wishes.essential_set].members
        rows += [CatalogueLoad(appliance=member) for member in members if member not in named]
    present = {row.appliance for row in rows if isinstance(row, CatalogueLoad)}
    home = site.home or Home()
    for field, values in BROUGHT.items():
        brought = values.get(getattr(home, field) or "", ())
        if field == "well_pump" and present & {"well_pump", "well_pump_1hp"}:
            continue
        for appliance in brought:
            if appliance not in present:
                rows.append(_brought(appliance, home))
    return rows, pointers


def _brought(appliance: str, home: Home) -> CatalogueLoad:
    """Return the load that a fact of the home brings, with what else is known of it."""
    if appliance != "well_pump":
        return CatalogueLoad(appliance=appliance)
    watts = home.well_pump_watts
    return CatalogueLoad(
        appliance=appliance,
        volts=120 if home.well_pump == "v120" else 240,
        watts=watts if isinstance(watts, float) else None,
    )
