"""The numbers of a spot, in customary units: bands, hours, ranking, remedies, power left."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.answer import (
    HeatBand,
    HeatHours,
    HeatLess,
    HeatRemedy,
    HotDay,
    PowerLeft,
    RankedWall,
)
from service.checks.heat_exposure.hours_over import hours_over
from service.checks.heat_exposure.judged import SpotHeat, over_lanes, tops_of
from service.checks.heat_exposure.outage_window import window_left
from service.checks.heat_exposure.readings import COOL, HOT, SHELTERED, SHOWN, lag_of
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.stated_outage import window_of
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


def band(peak: list[list[float]], hot: float) -> HeatBand:
    """Return the band of highest temperatures, from windy to calm by way to stand, and its hot end.

    Parameters
    ----------
    peak : list
        By wind and way to stand [K].
    hot : float
        Over all that is not known [K].
    """
    low, high = min(map(min, peak)), max(map(max, peak))
    return HeatBand(
        low=degf(low), typical=degf(max(peak[1])), high=degf(high), hot=degf(max(hot, high))
    )


def hottest_lane(spot: SpotHeat, days: tuple[int, ...]) -> int:
    """Return the lane of some days with the highest typical temperature."""
    lanes = [lane for way in spot.lanes_of(days) for lane in way]
    return max(lanes, key=spot.top[SHELTERED].__getitem__)


def thresholds_of(request: HeatExposureRequest) -> list[float]:
    """Return the thresholds, rising and each once [degF]."""
    given = THRESHOLDS if request.thresholds is None else request.thresholds
    return sorted(set(given))


class HourCounts(NamedTuple):
    """Hours over each threshold, by threshold and lane: by air, at once, and with lag [h]."""

    air: list[list[int]]
    at_once: list[list[int]]
    low: list[list[int]]
    typical: list[list[int]]
    high: list[list[int]]


def coolest_ways(equivalent: Floats, lag: tuple[float, ...]) -> Floats:
    """Return the cool end with the least lag and the longest, shape (2, L, N) [K].

    Notes
    -----
    A longer lag can hold a temperature for more hours, or for fewer.
    """
    return lagged(equivalent, np.array([lag[HOT], lag[COOL]]).reshape(2, 1, 1))


def hour_counts(
    request: HeatExposureRequest,
    air: Floats,
    at_once: Floats,
    low: Floats,
    typical: Floats,
    high: Floats,
) -> HourCounts:
    """Return the hours over thresholds, of temperatures of shape (L, N) or, low, (2, L, N) [K]."""
    kelvin = np.array([si(one, "degF") for one in thresholds_of(request)])
    lanes = air.shape[0]
    stated = hours_over(np.concatenate((air, at_once, typical)), kelvin).reshape(-1, 3, lanes)
    least = hours_over(low, kelvin + _OFF).reshape(-1, 2, lanes).min(axis=1)
    most = hours_over(high, kelvin - _OFF).reshape(-1, lanes)
    by_air, by_light, with_lag = (stated[:, at].tolist() for at in range(3))
    return HourCounts(by_air, by_light, least.tolist(), with_lag, most.tolist())


def hours_of(request: HeatExposureRequest, counts: HourCounts, lanes: list[int]) -> list[HeatHours]:
    """Return the hours over thresholds of some lanes: the least of them and the most."""
    return [
        HeatHours(
            threshold_degf=limit,
            air=float(max([air[lane] for lane in lanes])),
            at_once=float(max([at_once[lane] for lane in lanes])),
            low=float(min([low[lane] for lane in lanes])),
            typical=float(max([typical[lane] for lane in lanes])),
            high=float(max([high[lane] for lane in lanes])),
        )
        for limit, air, at_once, low, typical, high in zip(
            thresholds_of(request), *counts, strict=True
        )
    ]


def days_of(request: HeatExposureRequest, spot: SpotHeat) -> list[HotDay]:
    """Return the days of a spot."""
    of, found = spot.lanes, []
    low = coolest_ways(of.equivalent[COOL], lag_of(request.unit))
    hottest = of.followed[HOT] + spot.kelvin
    counts = hour_counts(
        request, of.air, of.equivalent[SHELTERED], low, of.followed[SHELTERED], hottest
    )
    tops = (tops_of(of.front), tops_of(of.equivalent), spot.top)
    air = np.maximum.reduce(of.air, axis=-1).tolist()
    hours = of.followed[SHELTERED].argmax(axis=-1).tolist()
    by_role: dict[str, list[int]] = {}
    for at, role in enumerate(spot.roles):
        by_role.setdefault(role, []).append(at)
    for role, days in by_role.items():
        lane = hottest_lane(spot, tuple(days))
        # Of two days of one kind the hotter is shown.
        day = (lane % spot.shape[2],)
        lanes = [one for (one,) in spot.lanes_of(day)]
        bounds = [one for (one,) in spot.bounds_of(day)]
        front, at_once, ambient = (
            band(
                [[row[one] for one in lanes] for row in top[SHOWN]],
                max([top[HOT][one] for one in bounds]) + spot.kelvin,
            )
            for top in tops
        )
        found.append(
            HotDay(
                day=role,  # type: ignore[arg-type]  # one of the five
                date=date_of(spot.course(lane).day),
                air_degf=degf(max([air[one] for one in lanes])),
                front=front,
                at_once=at_once,
                ambient=ambient,
                peak_hour=hours[lane] + 1.0,
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
            ambient=band(peak[at], walls[at].heat.hot_end),
            behind_degf=float(ranking.behind[at]) * _F_PER_K,
            alike=bool(ranking.alike[at]),
        )
        for at in ranking.order.tolist()
    ]


def remedies_of(spot: SpotHeat) -> list[HeatRemedy]:
    """Return what shade and colour buy; nothing in a garage, where no sun reaches the unit."""
    if spot.spot.wall is None or not spot.lanes.remedied.size:
        return []
    names = ("full-shade", "lighter-colour", "shade-and-lighter")
    found = []
    for name, top in zip(names, spot.remedied_tops, strict=True):
        peak = spot.peak_of(top)
        less = [
            [(before - after) * _F_PER_K for before, after in zip(one, other, strict=True)]
            for one, other in zip(spot.hot_peak, peak, strict=True)
        ]
        found.append(
            HeatRemedy(
                id=name,  # type: ignore[arg-type]  # one of the three
                ambient=band(peak, spot.hot_end_of(top)),
                takes_off=HeatLess(
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
    left, found = window_left(judged.factor, window, rated or 1.0, held), []
    least_power, mean_power = left.least_power.tolist(), left.mean_power.tolist()
    energies, offs = left.energy.tolist(), left.off.tolist()
    known = rated is not None and outage.usable_kwh is not None
    for name, days in (("hottest", hot), ("typical", cool)):
        if not days:
            continue
        per_watt = 100.0 / (rated or 1.0)
        # The low end is that of all that is not known, the high one that of the wind on the worse
        # day: the same that the finding says.
        own, bounds = spot.lanes_of(days), spot.bounds_of(days)
        best = [
            max([max(over_lanes(min, row, own)) for row in part[SHOWN]])
            for part in (least_power, mean_power)
        ]
        least, mean, energy, off = (
            [one for row in part for one in over_lanes(of, row, bounds)]
            for of, part in ((min, least_power), (min, mean_power), (min, energies), (max, offs))
        )
        calm = min([min(over_lanes(min, row, own)) for row in least_power[SHOWN]])
        found.append(
            PowerLeft(
                day=name,  # type: ignore[arg-type]  # one of the two
                least_percent_low=min(least) * per_watt,
                least_percent_calm=calm * per_watt,
                least_percent_high=best[0] * per_watt,
                mean_percent_low=min(mean) * per_watt,
                mean_percent_high=best[1] * per_watt,
                least_kw=None if rated is None else min(least) / _W_PER_KW,
                energy_kwh=min(energy) / _J_PER_KWH if known else None,
                off_hours=max(off) / _HOUR,
            )
        )
    return found
