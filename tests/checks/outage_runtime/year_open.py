"""Invented dated requests that leave facts open, and what each question or alternative supposes."""

from collections.abc import Sequence
from functools import cache

from service.checks.outage_runtime.verdicts import verdicts
from service.climate import climate_sites
from service.findings import Alternative
from tests.checks.outage_runtime.asking import Body, load, taken, without
from tests.checks.outage_runtime.reruns import filled, rerun_of
from tests.checks.outage_runtime.year_requests import (
    array,
    dated,
    generator,
    metered_use,
    season_open,
    site,
    solar,
)

#: Solar of which no more is known than where it stands and that it is backed up.
ROOF: Body = {
    "arrays": [{"dc_kw": 5, "tilt": 20, "azimuth": 180, "coupling": "ac"}],
    "backed_up": True,
}
_OPEN_UNIT = (
    *("losses", "reserve_percent", "floor_percent", "charge_kw"),
    *("end_of_warranty_retention", "warranty_years", "starts_carried_percent"),
)
_TONS: Body = {"kind": "tons", "tons": 2}
COUNTY: Body = {"kind": "county", "state": "CA", "county": "Marin"}
_FLAT = [load(250)]
_LARGE: Body = {"energy": {"kind": "usable", "kwh": 60}, "charge_kw": 20}


def _bare_generator(**more: object) -> Body:
    return {
        "rated_kw": 5,
        "fuel": {"kind": "liquid", "fuel": "diesel", "tank": 6},
        "connection": "inverter_input",
    } | more


_USE = {name: value for name, value in metered_use().items() if name in ("kind", "watts")}

#: What is open -> request.
OPEN: dict[str, Body] = {
    "the solar, all of it": dated(solar=ROOF),
    "the solar of a strong battery": dated(
        solar=ROOF, unit={"energy": {"kind": "usable", "kwh": 16}, "reserve_percent": 100}
    ),
    "the battery beside solar": without(dated(), *_OPEN_UNIT),
    "shade of two arrays": dated(
        solar=solar(array(3, shading_percent=None), array(3, azimuth=250, shading_percent=None))
    ),
    "solar on the cells' side, of a county": dated(
        solar=ROOF | {"arrays": [ROOF["arrays"][0] | {"coupling": "dc"}]}, climate=COUNTY
    ),
    "season, restart, criterion": without(
        season_open(dated()), "restart", "dark_allowed", "starts_carried_percent"
    ),
    "the generator": dated(generator=_bare_generator(), solar=None, climate=None),
    "where the generator stops": dated(
        generator=_bare_generator(start_percent=83), solar=None, climate=None, unit=_LARGE
    ),
    "where the generator starts": dated(
        generator=_bare_generator(stop_percent=20), solar=None, climate=None, unit=_LARGE
    ),
    "how the generator is connected": dated(
        generator=generator(connection=None), solar=None, climate=None
    ),
    "which side the solar is on": dated(solar=solar(backed_up=None)),
    "the place": dated(climate=None),
    "cooling of a county": dated(
        rows=_FLAT, solar=None, climate=COUNTY, conditioning=[{"kind": "cooling", "size": _TONS}]
    ),
    "heating and its blower": dated(
        rows=_FLAT,
        climate=site("sacramento"),
        unit={"charge_kw": None, "energy": {"kind": "nominal", "kwh": 20}},
        conditioning=[
            {"kind": "heat_pump_heating", "size": _TONS},
            {"kind": "furnace_blower", "size": _TONS},
        ],
    ),
    "the metered year": dated(use=_USE, solar=None, climate=None),
    "a metered year beside solar": dated(use=_USE, solar=ROOF),
}


def _clean(tree: Body) -> Body:
    """Return the request without fields that are None."""
    return {
        name: _clean(value)
        if isinstance(value, dict)
        else [_clean(one) if isinstance(one, dict) else one for one in value]
        if isinstance(value, list)
        else value
        for name, value in tree.items()
        if value is not None
    }


#: Of these a target more costs much; that of a day is tried.
BY_CHARGE = {"the generator", "where the generator stops", "where the generator starts"}
OPEN = {name: _clean(body) for name, body in OPEN.items()}


def _edges(body: Body, tried: Sequence[float]) -> list[tuple[float, float]]:
    """Return neighbouring targets whose verdicts differ."""
    found = verdicts([taken(body | {"target_hours": target}) for target in tried])
    return [
        (tried[place], tried[place + 1])
        for place in range(len(tried) - 1)
        if found[place] != found[place + 1]
    ]


@cache
def targets(name: str) -> tuple[float, ...]:
    """Return targets just beyond the edges at which the verdict changes, and a day."""
    if name in BY_CHARGE:
        return (24.0,)
    found = {24.0}
    for low, high in _edges(OPEN[name], [round(0.5 * 1.3**step, 2) for step in range(24)]):
        between = [round(low + (high - low) * part / 24, 3) for part in range(25)]
        found |= {after for _, after in _edges(OPEN[name], between)}
    return tuple(sorted(found))


#: What an alternative supposes: fields by their pointer.
_FIELD: dict[str, tuple[str, object]] = {
    "most-days": ("/starts_carried_percent", 95),
    "every-day": ("/starts_carried_percent", 100),
    "sun-backed-up": ("/solar/backed_up", True),
    "generator-joins-battery": ("/generator/connection", "inverter_input"),
    "no-restart": ("/restart", {"mode": "none"}),
    "black-start": ("/restart", {"mode": "pv_black_start", "least_kw": 0, "wait": 5}),
    "dc-restart": ("/restart", {"mode": "dc_restart", "restart_charge_percent": 15}),
}
_LEFT_OUT = {"no-sun": "solar", "no-generator": "generator"}


def year_rerun(body: Body, alternative: Alternative) -> Body:
    """Return the request that states what an alternative of a dated answer supposes."""
    if alternative.id in _FIELD:
        return filled(body, *_FIELD[alternative.id])
    if alternative.id in _LEFT_OUT:
        return {name: value for name, value in body.items() if name != _LEFT_OUT[alternative.id]}
    if alternative.id == "other-climate-site":
        named = alternative.reading.removeprefix("With the weather of ").removesuffix(" instead.")
        (other,) = [one.id for one in climate_sites().values() if one.name == named]
        return filled(body, "/climate", site(other))
    return rerun_of(body, alternative)
