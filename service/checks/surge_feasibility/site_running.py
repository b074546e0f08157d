"""What a site is known to run beside its motors."""

from __future__ import annotations

from typing import NamedTuple

from service.checks.surge_feasibility.request import RunningLoad
from service.checks.surge_feasibility.site_motors import is_motor
from service.facts import CatalogueLoad, Home, Load, RatedPower, Site, chosen_loads
from service.published.appliances import catalogue

#: From so many hours of use a day on a load counts as on all day [h]. Standing: common practice.
_ALL_DAY_HOURS = 20.0
#: Rows that a request takes, two of them for what is left over.
_ROWS = 38
_LARGEST = "largest load of the hour: "


class _Drawn(NamedTuple):
    """One kind of load: its watts together, whether it is on all day, its circuit."""

    name: str
    watts: float
    all_day: bool
    both_legs: bool
    life_support: bool


def site_running(site: Site) -> list[RunningLoad] | None:
    """Return what runs when a motor starts, None where nobody named the loads.

    All that is on all day at typical watts, the largest of the others, and heating by resistance.
    Every large motor is left to the starts, and what is shed from the first second is left out.
    """
    if not site.wishes.loads and not site.wishes.essential_set:
        return None
    rows = [_drawn(row) for row in chosen_loads(site)[0] if not is_motor(row) and not _shed(row)]
    heaters = [
        _Drawn("resistance heating", 1000.0 * unit.size.kw, True, True, False)
        for unit in (site.home or Home()).conditioning or []
        if unit.kind == "resistance_heating" and isinstance(unit.size, RatedPower)
    ]
    others = sorted((row for row in rows if not row.all_day), key=lambda row: -row.watts)
    # One of them runs at the time, the largest; whoever reads the answer is to know.
    largest = [row._replace(name=_LARGEST + row.name) for row in others[:1]]
    chosen = [*(row for row in rows if row.all_day), *largest, *heaters]
    chosen.sort(key=lambda row: (not row.life_support, -row.watts))
    found = [
        RunningLoad(
            name=row.name[:60],
            watts=min(row.watts, 50_000.0),
            circuit="both_legs" if row.both_legs else "one_leg",
            life_support=row.life_support,
        )
        for row in chosen[:_ROWS]
    ]
    left = chosen[_ROWS:]
    on_both = sum(row.watts for row in left if row.both_legs)
    on_one = sum(row.watts for row in left if not row.both_legs)
    if on_both:
        watts = min(on_both, 50_000.0)
        found.append(RunningLoad(name="other loads of 240 V", watts=watts, circuit="both_legs"))
    if on_one:
        found.append(RunningLoad(name="other loads of 120 V", watts=min(on_one, 50_000.0)))
    return found


def _shed(row: Load) -> bool:
    tier = row.tier
    if tier is None and isinstance(row, CatalogueLoad):
        return str(catalogue()[row.appliance].tier) == "shed"
    return tier == "shed"


def _drawn(row: Load) -> _Drawn:
    if not isinstance(row, CatalogueLoad):
        return _Drawn(
            row.name,
            row.watts * row.quantity,
            row.hours_per_day >= _ALL_DAY_HOURS,
            row.volts == 240,
            row.life_support,
        )
    known = catalogue()[row.appliance]
    watts = known.run_w_typ if row.watts is None else row.watts
    hours = known.hours_per_day if row.hours_per_day is None else row.hours_per_day
    return _Drawn(
        known.name,
        watts * row.quantity,
        known.always_on or hours >= _ALL_DAY_HOURS,
        (row.volts or known.volts) > 200,
        known.life_support if row.life_support is None else row.life_support,
    )
