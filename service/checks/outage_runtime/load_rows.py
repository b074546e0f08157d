"""From load rows, day profiles and bills to flat rows of one kind, in SI."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any

from service.checks.outage_runtime.request import (
    DayProfileUse,
    IntervalProfileUse,
    LoadsUse,
    MonthlyUse,
    OutageRuntimeRequest,
)
from service.checks.outage_runtime.weather_units import rated_watts
from service.facts import CatalogueLoad, Conditioning, OwnLoad, Window, window_hours
from service.published import Source, load
from service.published.appliances import Appliance, catalogue
from service.published.class_day_shapes import day_shape
from service.published.outage_defaults import outage_defaults

Use = LoadsUse | DayProfileUse | MonthlyUse | IntervalProfileUse
TIERS = ("critical", "normal", "comfort", "shed")
_HOUR = 3600.0
_ALL_DAY = ((0.0, 24.0),)
#: Days of the months of the 365-day year.
_MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
#: Months of the season, January = 1; the heaviest of them stands for it.
_SUMMER, _WINTER = (5, 6, 7, 8, 9, 10), (11, 12, 1, 2, 3, 4)
#: A day profile's spread where none is stated, low and high. Standing: common practice, no source.
DAY_PROFILE_FACTORS = (0.8, 1.2)
#: From so many hours of use a day on a load counts as on all day [h]. Standing: common practice.
ALL_DAY_HOURS = 20.0
DEFAULT_HOME_CLASS = "inland_single_family"


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One flat row: powers [W] and duties low, typical, high; season factors summer, winter."""

    name: str
    watts: tuple[float, float, float]
    duty: tuple[float, float, float] = (1.0, 1.0, 1.0)
    hours: float
    pieces: int = 1
    season: tuple[float, float] = (1.0, 1.0)
    tier: int
    windows: tuple[tuple[float, float], ...] = _ALL_DAY
    askable: bool = False
    all_day: bool = False
    life_support: bool = False
    starting_watts: float = 0.0
    appliance: str | None = None
    volts: int | None = None
    volts_assumed: bool = False
    by_weather: bool = False


def _thrice(
    value: float | None, low: float, typical: float, high: float
) -> tuple[float, float, float]:
    return (low, typical, high) if value is None else (value, value, value)


def _windows(stated: Sequence[Window] | None) -> tuple[tuple[float, float], ...] | None:
    if not stated:
        return None
    return tuple((window.start_hour, window.end_hour) for window in stated)


def _catalogue_row(stated: CatalogueLoad) -> Row:
    return _known_row(
        stated.appliance,
        stated.quantity,
        stated.watts,
        stated.hours_per_day,
        stated.duty,
        _windows(stated.windows),
        stated.tier,
        stated.life_support,
        stated.volts,
    )


@lru_cache(maxsize=1024)
def _known_row(
    appliance: str,
    quantity: int,
    watts: float | None,
    hours_per_day: float | None,
    duty: float | None,
    stated_windows: tuple[tuple[float, float], ...] | None,
    tier: str | None,
    life_support: bool | None,
    volts: int | None,
) -> Row:
    """Return one row of the catalogue as stated; most requests name the same few."""
    known: Appliance = catalogue()[appliance]
    seasons = {"all": (1.0, 1.0), "summer": (1.0, 0.0), "winter": (0.0, 1.0)}[known.season]
    hours = known.hours_per_day if hours_per_day is None else hours_per_day
    windows = stated_windows
    if windows is None:
        windows = known.windows if hours <= window_hours(known.windows) else _ALL_DAY
    elif hours_per_day is None:
        hours = min(hours, window_hours(windows))
    # A seasonal factor lengthens the use, never beyond the window it has to fit in.
    factor = min(known.season_factor_winter, window_hours(windows) / hours) if hours else 1.0
    return Row(
        name=known.name,
        watts=_thrice(watts, known.run_w_low, known.run_w_typ, known.run_w_high),
        duty=_thrice(duty, known.duty_low, known.duty_typ, known.duty_high),
        hours=hours,
        pieces=quantity,
        season=(seasons[0], seasons[1] * factor),
        tier=TIERS.index(tier or known.tier),
        windows=windows,
        askable=watts is None,
        all_day=known.always_on or hours >= ALL_DAY_HOURS,
        volts=volts or int(known.volts),
        volts_assumed=volts is None and appliance.startswith("well_pump"),
        life_support=(known.life_support if life_support is None else life_support),
        starting_watts=known.total_start_w,
        appliance=known.id,
    )


def _own_row(stated: OwnLoad) -> Row:
    typical = stated.watts
    low = typical if stated.watts_low is None else min(stated.watts_low, typical)
    high = typical if stated.watts_high is None else max(stated.watts_high, typical)
    seasons = {"all": (1.0, 1.0), "summer": (1.0, 0.0), "winter": (0.0, 1.0)}[stated.season]
    windows = _windows(stated.windows) or _ALL_DAY
    return Row(
        name=stated.name,
        watts=(low, typical, high),
        duty=(stated.duty, stated.duty, stated.duty),
        hours=stated.hours_per_day,
        pieces=stated.quantity,
        season=seasons,
        tier=TIERS.index(stated.tier),
        windows=windows,
        all_day=stated.hours_per_day >= ALL_DAY_HOURS,
        volts=stated.volts,
        life_support=stated.life_support,
        starting_watts=stated.starting_watts or 0.0,
    )


def _hourly(tier: int, watts: Sequence[float], low: float, high: float, **more: Any) -> list[Row]:
    return [
        Row(
            name=f"{hour:02d}-{hour + 1:02d} h",
            watts=(mean * low, mean, mean * high),
            hours=1.0,
            tier=tier,
            windows=((float(hour), float(hour + 1)),),
            **more,
        )
        for hour, mean in enumerate(watts)
    ]


def _profile_rows(use: DayProfileUse) -> list[Row]:
    low = DAY_PROFILE_FACTORS[0] if use.low_factor is None else use.low_factor
    high = DAY_PROFILE_FACTORS[1] if use.high_factor is None else use.high_factor
    rows: list[Row] = []
    for tier, watts in enumerate((use.critical, use.normal, use.comfort)):
        rows += _hourly(tier, watts or (), low, high, life_support=use.life_support)
    return rows


def _month_energy(use: MonthlyUse, home_class: str) -> list[float]:
    """Return the home's energy of each month [kWh]."""
    if isinstance(use.monthly_kwh, list):
        return list(use.monthly_kwh)
    shape = [days * sum(day_shape(home_class, month + 1)) for month, days in enumerate(_MONTH_DAYS)]
    return [12.0 * use.monthly_kwh * part / sum(shape) for part in shape]


def _heaviest(energy: Sequence[float]) -> tuple[int, int]:
    """Return the month of summer and of winter with the most energy a day, January = 1."""

    def daily(month: int) -> float:
        return energy[month - 1] / _MONTH_DAYS[month - 1]

    return max(_SUMMER, key=daily), max(_WINTER, key=daily)


def _bill_rows(use: MonthlyUse) -> list[Row]:
    """Scale the class's day shape of the heaviest month of each season to the bill."""
    home_class = use.home_class or DEFAULT_HOME_CLASS
    energy = _month_energy(use, home_class)
    defaults = outage_defaults()
    low = defaults["monthly_energy_low_factor"].value
    high = defaults["monthly_energy_high_factor"].value
    share = 1.0 if use.share_percent is None else use.share_percent / 100.0
    rows: list[Row] = []
    seasons = ((1.0, 0.0), (0.0, 1.0))
    for season, month in zip(seasons, _heaviest(energy), strict=True):
        shape = day_shape(home_class, month)
        daily = energy[month - 1] / _MONTH_DAYS[month - 1]
        watts = [share * 1000.0 * daily * hour / sum(shape) for hour in shape]
        rows += _hourly(0, watts, low, high, season=season, life_support=use.life_support)
    return rows


def _metered_row(use: IntervalProfileUse) -> Row:
    """Stand the mean of a metered year in for it: what runs is the year itself."""
    low = DAY_PROFILE_FACTORS[0] if use.low_factor is None else use.low_factor
    high = DAY_PROFILE_FACTORS[1] if use.high_factor is None else use.high_factor
    share = 1.0 if use.share_percent is None else use.share_percent / 100.0
    mean = share * sum(use.watts) / max(len(use.watts), 1)
    return Row(
        name="Metered use",
        watts=(mean * low, mean, mean * high),
        hours=24.0,
        tier=0,
        all_day=True,
        life_support=use.life_support,
    )


_UNIT_NAMES = {
    "cooling": "Cooling unit",
    "heat_pump_heating": "Heat pump",
    "resistance_heating": "Electric heating",
    "furnace_blower": "Furnace blower",
}


def _weather_row(unit: Conditioning) -> Row:
    """Return a unit that follows the weather: its power counts here, its energy by the hour."""
    cools = unit.kind == "cooling"
    return Row(
        name=_UNIT_NAMES[unit.kind],
        watts=rated_watts(unit),
        hours=0.0,
        season=(1.0, 0.0) if cools else (0.0, 1.0),
        tier=TIERS.index(unit.tier),
        all_day=True,
        volts=unit.volts,
        by_weather=True,
    )


def request_rows(request: OutageRuntimeRequest) -> list[Row]:
    """Return the flat rows of a request: its use, then what follows the weather."""
    return [*rows_of(request.use), *(_weather_row(unit) for unit in request.conditioning or ())]


def rows_of(use: Use) -> list[Row]:
    """Return the flat rows of a request's use, in watts and hours.

    A day profile and a bill become one row for every hour, so that one calculation serves all.
    """
    if isinstance(use, IntervalProfileUse):
        return [_metered_row(use)]
    if isinstance(use, LoadsUse):
        return [
            _catalogue_row(row) if isinstance(row, CatalogueLoad) else _own_row(row)
            for row in use.rows
        ]
    return _profile_rows(use) if isinstance(use, DayProfileUse) else _bill_rows(use)


@cache
def _cited(appliance: str) -> Source:
    """Return the catalogue row of an appliance as a source; every request cites a dozen."""
    return load("appliances").cite(appliance)


def sources_of(use: Use) -> list[Source]:
    """Return the sources of what entered besides the request: rows of tables."""
    if isinstance(use, LoadsUse):
        return [_cited(row.appliance) for row in use.rows if isinstance(row, CatalogueLoad)]
    if isinstance(use, (DayProfileUse, IntervalProfileUse)):
        return []
    defaults = load("outage_defaults")
    shapes = load("class_day_shapes")
    home_class = use.home_class or DEFAULT_HOME_CLASS
    # One value for an average month is spread over the year by the class: all its months enter.
    months = _heaviest(use.monthly_kwh) if isinstance(use.monthly_kwh, list) else range(1, 13)
    return [
        defaults.cite("monthly_energy_low_factor", "value"),
        defaults.cite("monthly_energy_high_factor", "value"),
        *(shapes.cite(f"{home_class}/{month}") for month in months),
    ]
