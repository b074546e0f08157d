"""Heating and cooling units whose power follows the outdoor temperature."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.year_facts import WeatherUnit
from service.facts import Conditioning, RatedPower
from service.physics.degree_model import RATING_OUTDOOR, cooling_power, duty, rated_power
from service.published.conditioning_defaults import conditioning_defaults
from service.quantities.units import si, si_factor

Floats = NDArray[np.float64]
_TIERS = ("critical", "normal", "comfort")
_W_PER_KW = si_factor("kW")
#: Use level of every variant of the loads, as the day profile numbers them.
_LEVELS = (0, 1, 2, 2, 1, 1)
#: Outdoor temperature of a record day where none is stated, 49 degC [K]. Standing: common
#: practice; the low deserts of California go a little above it.
_RECORD = 322.15
#: Share of the year's hours that is hotter (or colder) than the design temperature.
_DESIGN_SHARE = 0.004
_RATIOS = {
    "cooling": "cooling_eer",
    "heat_pump_heating": "heat_pump_ratio",
    "resistance_heating": "resistance_ratio",
}


def cools(unit: WeatherUnit) -> bool:
    """Return whether a unit cools."""
    return unit.kind == "cooling"


def rated_watts(unit: Conditioning) -> tuple[float, float, float]:
    """Return the electric power of a running unit at low, typical and high use [W].

    What is not stated is taken at the end that takes most; at high use a cooling unit runs in the
    hottest hour that is stated, or in 49 degC.

    Parameters
    ----------
    unit : Conditioning
        Size in tons, or electric power [kW]; energy efficiency ratio [Btu/(W h)].

    Notes
    -----
    Source: table conditioning_defaults where the ratio is not stated.
    """
    power = _rated_watts(unit)
    if unit.kind != "cooling":
        return power
    defaults = conditioning_defaults()
    hottest = _RECORD if unit.extreme is None else si(unit.extreme, "degF")
    rise = cooling_power(
        np.array(max(hottest, RATING_OUTDOOR)), 1.0, defaults["cooling_power_slope"].high, 1.0
    )
    return (power[0], power[1], power[2] * float(rise))


def _rated_watts(unit: Conditioning) -> tuple[float, float, float]:
    if isinstance(unit.size, RatedPower):
        power = unit.size.kw * _W_PER_KW
        return (power, power, power)
    defaults = conditioning_defaults()
    if unit.kind == "furnace_blower":
        low, typical, high = (unit.size.tons * part for part in defaults["blower_watts_per_ton"])
        return (low, typical, high)
    ratio = defaults[_RATIOS[unit.kind]].high
    if unit.eer is not None and unit.kind != "resistance_heating":
        ratio = unit.eer
    power = float(rated_power(unit.size.tons, ratio))
    return (power, power, power)


def _balance(unit: Conditioning) -> float:
    """Return the outdoor temperature at which nothing is needed [K]."""
    defaults = conditioning_defaults()
    side = "cooling" if unit.kind == "cooling" else "heating"
    indoor = defaults[f"{side}_indoor_degf"].high if unit.indoor is None else unit.indoor
    return si(indoor, "degF") - defaults[f"{side}_gain_k"].typical


def weather_units(request: OutageRuntimeRequest) -> tuple[WeatherUnit, ...]:
    """Return the units of a request, in SI.

    Parameters
    ----------
    request : OutageRuntimeRequest
        Temperatures [degF].

    Notes
    -----
    Source: table conditioning_defaults.
    """
    return tuple(
        WeatherUnit(
            kind=unit.kind,
            rated=_rated_watts(unit),
            balance=_balance(unit),
            design=None if unit.design is None else si(unit.design, "degF"),
            extreme=None if unit.extreme is None else si(unit.extreme, "degF"),
            oversize=conditioning_defaults()["oversize"],
            tier=_TIERS.index(unit.tier),
        )
        for unit in request.conditioning or ()
    )


def design_of(unit: WeatherUnit, air: Floats) -> float:
    """Return the temperature that a unit was sized for [K].

    Parameters
    ----------
    unit : WeatherUnit
    air : ndarray, shape (8760,)
        Typical year [K].

    Notes
    -----
    Where none is stated, the 0.4 % hour of the typical year, which lies low: the unit then runs
    longer, on the cautious side. Source: derived.
    """
    if unit.design is not None:
        return unit.design
    share = 1.0 - _DESIGN_SHARE if cools(unit) else _DESIGN_SHARE
    return float(np.quantile(air, share))


def extreme_of(unit: WeatherUnit, air: Floats) -> float:
    """Return the extreme temperature of a unit's season [K]; the year's own where none is stated.

    Notes
    -----
    Source: derived.
    """
    if unit.extreme is not None:
        return unit.extreme
    return float(air.max() if cools(unit) else air.min())


def _power(unit: WeatherUnit, level: int, own: Floats, air: Floats) -> Floats:
    balance = unit.balance
    design = design_of(unit, own)
    # A place without the season: the unit was sized for a degree beyond its balance at least.
    design = max(design, balance + 1.0) if cools(unit) else min(design, balance - 1.0)
    runs = duty(air, balance, design, unit.oversize[level])
    rated = unit.rated[level]
    if not cools(unit):
        return runs * rated
    defaults = conditioning_defaults()
    slope, least = (
        defaults["cooling_power_slope"].typical,
        defaults["cooling_least_power"].typical,
    )
    return runs * cooling_power(air, rated, slope, least)


def units_year(
    units: tuple[WeatherUnit, ...], own: Floats, air: Floats, steps: int, offset: float
) -> Floats:
    """Return the power of heating and cooling through a year, shape (6, 3, 365 * steps) [W].

    Parameters
    ----------
    units : tuple of WeatherUnit
        [W, K].
    own : ndarray, shape (8760,)
        Typical year that design temperatures are read from [K].
    air : ndarray, shape (8760,)
        Outdoor temperature [K].
    steps : int
        Steps a day.
    offset : float
        By how much it is hotter for cooling and colder for heating [K].

    Notes
    -----
    Source: `duty` and `cooling_power`.
    """
    found = np.zeros((6, 3, air.size))
    for unit in units:
        outdoor = air + offset if cools(unit) else air - offset
        by_level = [_power(unit, level, own, outdoor) for level in range(3)]
        for variant, level in enumerate(_LEVELS):
            found[variant, unit.tier] += by_level[level]
    return np.repeat(found, steps // 24, axis=2)
