"""The motors that a site is known to start."""

from __future__ import annotations

import re
from typing import NamedTuple

from service.facts import (
    CatalogueLoad,
    Conditioning,
    Home,
    Motor,
    Site,
    Tons,
    chosen_loads,
    with_id,
)
from service.published.appliance_motors import appliance_motors
from service.published.appliances import catalogue

#: Sizes of the planning ranges [ton]. Standing: see table compressor_ranges.
_LEAST_TONS, _MOST_TONS = 1.0, 5.0


class SiteMotors(NamedTuple):
    """Motors of a site; ``stated``: as the site lists them, not out of the rows of its loads."""

    motors: list[Motor]
    stated: bool


def site_motors(site: Site) -> SiteMotors | None:
    """Return the motors that are to start, None where nobody named them all.

    A row that the wishes name says how large its motor is; what a fact of the home, a usual set or
    a heating or cooling unit brings is a motor of which no more than the kind, or the tons, is
    known.
    """
    home = site.home or Home()
    if home.motors is not None:
        # A motor among the loads named that the list leaves out is not known, and not away.
        asked = [_family(row) for row in site.wishes.loads or [] if is_motor(row)]
        listed = [_family_of(motor.kind) for motor in home.motors]
        missing = any(asked.count(family) > listed.count(family) for family in asked)
        return None if missing else SiteMotors(home.motors, True)
    if not site.wishes.loads and not site.wishes.essential_set:
        return None
    rows, named = chosen_loads(site)
    found = []
    for index, row in enumerate(rows):
        if isinstance(row, CatalogueLoad) and row.appliance in appliance_motors():
            found += _of_row(row, sized=f"/use/rows/{index}" in named)
    found += [
        _of_unit(index, unit)
        for index, unit in enumerate(home.conditioning or [])
        if unit.kind in ("cooling", "heat_pump_heating")
    ]
    return SiteMotors(_with_own_ids(found), False)


def _family(row: object) -> str:
    assert isinstance(row, CatalogueLoad)
    return _family_of(appliance_motors()[row.appliance].kind)


def _family_of(kind: str) -> str:
    """Return a kind of motor as people name it: a compressor of whatever make, a drive's is one."""
    return "compressor" if kind.startswith("compressor") else kind


def is_motor(row: object) -> bool:
    """Return whether a row is a motor that is to start."""
    return isinstance(row, CatalogueLoad) and row.appliance in appliance_motors()


def _of_row(row: CatalogueLoad, *, sized: bool) -> list[Motor]:
    known = appliance_motors()[row.appliance]
    volts = row.volts or catalogue()[row.appliance].volts
    motor = Motor(
        id=_spoken(catalogue()[row.appliance].name),
        kind=known.kind,  # type: ignore[arg-type]  # ids of the table, tested against the literal
        horsepower=known.horsepower if sized else None,
        tons=known.tons if sized else None,
        circuit="both_legs" if volts > 200 else "one_leg",
    )
    return [motor] * row.quantity


def _spoken(name: str) -> str:
    """Return a name as an id that reads like it."""
    return re.sub(r"[^a-z0-9]+", "-", name.lower()).strip("-")[:60]


def _of_unit(index: int, unit: Conditioning) -> Motor:
    tons = unit.size.tons if isinstance(unit.size, Tons) else None
    fits = tons is not None and _LEAST_TONS <= tons <= _MOST_TONS
    return Motor(
        id=f"{unit.kind.replace('_', '-')}-{index + 1}",
        kind="compressor_scroll",
        tons=tons if fits else None,
    )


def _with_own_ids(motors: list[Motor]) -> list[Motor]:
    seen: dict[str, int] = {}
    found = []
    for motor in motors:
        seen[motor.id] = seen.get(motor.id, 0) + 1
        found.append(
            with_id(motor, f"{motor.id}-{seen[motor.id]}") if seen[motor.id] > 1 else motor
        )
    return found
