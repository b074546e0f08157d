"""The numbers of a spot, in customary units: bands, hours, ranking, remedies, power left."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.answer import (
    HeatBand,
    HeatHours,
    HeatRemedy,
    HotDay,
    PowerLeft,
    RankedWall,
)
from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.hours_over import hours_over
from service.checks.heat_exposure.judged import SpotHeat, least_parts, window_of
from service.checks.heat_exposure.outage_window import window_left
from service.checks.heat_exposure.readings import COOL, HOT, SHELTERED, SHOWN, lag_of
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.thermal_lag import lagged
from service.checks.heat_exposure.verdicts import Judged
from service.checks.heat_exposure.wall_ranking import rank_walls
from service.quantities.units import si

Floats = NDArray[np.float64]

THRESHOLDS = (104.0, 113.0, 122.0)
#: How far a temperature may lie off where hours are counted [K]. Standing: derived; see the table
#: heat_defaults.
_OFF = 1.0
_ZERO_F, _F_PER_K = 459.67, 1.8
_HOUR, _W_PER_KW, _J_PER_KWH = 3600.0, 1000.0, 3.6e6
_STARTS = np.cumsum([0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31])


def degf(kelvin: float) -> float:
    """Return a temperature in degrees Fahrenheit [K]."""
    return float(kelvin) * _F_PER_K - _ZERO_F


def date_of(day: int) -> str:
    """Return month and day of a day of the year, 0 on 1 January [d]."""
    month = int(np.searchsorted(_STARTS, day, side="right"))
    return f"{month:02d}-{day - int(_STARTS[month - 1]) + 1:02d}"


def band(peak: list[list[float]]) -> HeatBand:
    """Return the band of highest temperatures, from windy to calm by way to stand [K]."""
    low, high = min(map(min, peak)), max(map(max, peak))
    return HeatBand(low=degf(low), typical=degf(max(peak[1])), high=degf(high))


def hottest_lane(spot: SpotHeat, days: tuple[int, ...]) -> int:
    """Return the lane of some days with the highest typical temperature."""
    lanes = spot.lanes_of(days).ravel()
    return int(lanes[np.argmax(spot.lanes.followed[SHELTERED, lanes].max(axis=-1))])


def thresholds_of(request: HeatExposureRequest) -> list[float]:
    """Return the thresholds, rising and each once [degF]."""
    given = THRESHOLDS if request.thresholds is None else request.thresholds
    return sorted(set(given))


class HourCounts(NamedTuple):
    """Hours over each threshold by lane, shape (K, L): by air, at once, and with lag [h]."""

    air: NDArray[np.int64]
    at_once: NDArray[np.int64]
    low: NDArray[np.int64]
    typical: NDArray[np.int64]
    high: NDArray[np.int64]


def followed_ways(lag: tuple[float, ...]) -> Floats:
    """Return the usual lag, the least and the longest, each once, shape (ways, 1, 1, 1) [s]."""
    ways = tuple(dict.fromkeys((lag[SHELTERED], lag[HOT], lag[COOL])))
    return np.array(ways).reshape(-1, 1, 1, 1)


def hour_counts(
    request: HeatExposureRequest, air: Floats, equivalent: Floats, followed: Floats
) -> HourCounts:
    """Return the hours over thresholds.

    Parameters
    ----------
    request : HeatExposureRequest
    air : ndarray, shape (L, N)
        [K].
    equivalent : ndarray, shape (3, L, N)
        From windy to calm [K].
    followed : ndarray, shape (ways, 3, L, N)
        The same with each lag of `followed_ways` [K].
    """
    kelvin = np.array([si(one, "degF") for one in thresholds_of(request)])
    ends = (-1, followed.shape[0] * 3, air.shape[0])
    return HourCounts(
        hours_over(air, kelvin).reshape(-1, air.shape[0]),
        hours_over(equivalent[1], kelvin).reshape(-1, air.shape[0]),
        hours_over(followed, kelvin + _OFF).reshape(ends).min(axis=1),
        hours_over(followed[0, 1], kelvin).reshape(-1, air.shape[0]),
        hours_over(followed, kelvin - _OFF).reshape(ends).max(axis=1),
    )


def hours_of(
    request: HeatExposureRequest, counts: HourCounts, lanes: NDArray[np.int64]
) -> list[HeatHours]:
    """Return the hours over thresholds of some lanes: the least of them and the most."""
    air, at_once, low, typical, high = (part[:, lanes].tolist() for part in counts)
    return [
        HeatHours(
            threshold_degf=limit,
            air=float(max(air[at])),
            at_once=float(max(at_once[at])),
            low=float(min(low[at])),
            typical=float(max(typical[at])),
            high=float(max(high[at])),
        )
        for at, limit in enumerate(thresholds_of(request))
    ]


def days_of(request: HeatExposureRequest, climate: ClimateDays, spot: SpotHeat) -> list[HotDay]:
    """Return the days of a spot."""
    of, found = spot.lanes, []
    equivalent = of.equivalent[SHOWN]
    followed = lagged(equivalent, followed_ways(lag_of(request.unit)))
    counts = hour_counts(request, of.around[SHELTERED], equivalent, followed)
    peaks = [part[SHOWN].max(axis=-1) for part in (of.front, of.equivalent, of.followed)]
    for at, course in enumerate(climate.places[0].courses):
        lanes, hottest = spot.lanes_of((at,)).ravel(), hottest_lane(spot, (at,))
        place = hottest // (spot.shape[1] * spot.shape[2])
        front, at_once, ambient = (band(part[:, lanes].tolist()) for part in peaks)
        found.append(
            HotDay(
                day=course.role,  # type: ignore[arg-type]  # one of the four
                date=date_of(climate.places[place].courses[at].day),
                air_degf=degf(of.air[lanes].max()),
                front=front,
                at_once=at_once,
                ambient=ambient,
                peak_hour=float(np.argmax(of.followed[SHELTERED, hottest])) + 1.0,
                hours=hours_of(request, counts, lanes),
            )
        )
    return found


def ranked(judged: list[Judged]) -> list[RankedWall]:
    """Return the walls, the coolest first; none where no wall was offered."""
    walls = [one for one in judged if one.heat.spot.wall is not None]
    if not walls:
        return []
    peak = [one.heat.hot_peak for one in walls]
    ranking = rank_walls(np.array([[max(wind) for wind in one] for one in peak]).T)
    return [
        RankedWall(
            id=walls[at].heat.spot.id,
            verdict=walls[at].verdict,
            ambient=band(peak[at]),
            behind_degf=float(ranking.behind[at]) * _F_PER_K,
            alike=bool(ranking.alike[at]),
        )
        for at in ranking.order.tolist()
    ]


def remedies_of(spot: SpotHeat) -> list[HeatRemedy]:
    """Return what shade and colour buy; nothing in a garage, where no sun reaches the unit."""
    if spot.spot.wall is None or not spot.lanes.remedied.size:
        return []
    as_it_is = np.array(spot.hot_peak)
    better = [np.array(spot.peak_of(one)) for one in spot.lanes.remedied]
    names = ("full-shade", "lighter-colour", "shade-and-lighter")
    found = []
    for name, peak in zip(names, better, strict=True):
        less = ((as_it_is - peak) * _F_PER_K).tolist()
        found.append(
            HeatRemedy(
                id=name,  # type: ignore[arg-type]  # one of the three
                ambient=band(peak.tolist()),
                takes_off=HeatBand(
                    low=min(map(min, less)), typical=max(less[1]), high=max(map(max, less))
                ),
            )
        )
    return found


def power_of(request: HeatExposureRequest, judged: Judged) -> list[PowerLeft]:
    """Return what is left in the outage, on the hottest and on a typical day."""
    spot, outage = judged.heat, request.outage
    if judged.factor is None:
        return []
    window = window_of(request)
    rated = None if outage.rated_kw is None else outage.rated_kw * _W_PER_KW
    held = np.inf if outage.usable_kwh is None else outage.usable_kwh * _J_PER_KWH
    hot = spot.hot_days
    cool = tuple(at for at in range(spot.shape[2]) if at not in hot)
    found = []
    for name, days in (("hottest", hot), ("typical", cool)):
        if not days:
            continue
        parts = least_parts(spot, judged.factor, window, days)
        factor = judged.factor[SHOWN][:, spot.lanes_of(days).ravel()]
        left = window_left(factor, window, rated or 1.0, held)
        per_watt = 100.0 / (rated or 1.0)
        energy = rated is not None and outage.usable_kwh is not None
        found.append(
            PowerLeft(
                day=name,  # type: ignore[arg-type]  # one of the two
                least_percent_low=100.0 * parts.shown_low,
                least_percent_high=100.0 * parts.shown_high,
                least_percent_worst=100.0 * parts.least,
                mean_percent_low=float(left.mean_power.min()) * per_watt,
                mean_percent_high=float(left.mean_power.max()) * per_watt,
                least_kw=None if rated is None else float(left.least_power.min()) / _W_PER_KW,
                energy_kwh=float(left.energy.min()) / _J_PER_KWH if energy else None,
                off_hours=float(left.off.max()) / _HOUR,
            )
        )
    return found
