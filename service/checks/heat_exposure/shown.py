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
from service.checks.heat_exposure.judged import SpotHeat
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
    by_lane = [hours_over(one, kelvin).reshape(-1, lanes) for one in (air, at_once, typical)]
    least = hours_over(low, kelvin + _OFF).reshape(-1, 2, lanes).min(axis=1)
    most = hours_over(high, kelvin - _OFF).reshape(-1, lanes)
    return HourCounts(by_lane[0], by_lane[1], least, by_lane[2], most)


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


def days_of(request: HeatExposureRequest, spot: SpotHeat) -> list[HotDay]:
    """Return the days of a spot."""
    of, found = spot.lanes, []
    low = coolest_ways(of.equivalent[COOL], lag_of(request.unit))
    hottest = of.followed[HOT] + spot.kelvin
    counts = hour_counts(
        request, of.air, of.equivalent[SHELTERED], low, of.followed[SHELTERED], hottest
    )
    peaks = [part.max(axis=-1) for part in (of.front, of.equivalent, of.followed)]
    by_role: dict[str, list[int]] = {}
    for at, role in enumerate(spot.roles):
        by_role.setdefault(role, []).append(at)
    for role, days in by_role.items():
        lane = hottest_lane(spot, tuple(days))
        # Of two days of one kind the hotter is shown.
        day = (lane % spot.shape[2],)
        lanes, bounds = spot.lanes_of(day).ravel(), spot.bounds_of(day).ravel()
        front, at_once, ambient = (
            band(part[SHOWN, lanes].tolist(), float(part[HOT, bounds].max()) + spot.kelvin)
            for part in peaks
        )
        found.append(
            HotDay(
                day=role,  # type: ignore[arg-type]  # one of the five
                date=date_of(spot.course(lane).day),
                air_degf=degf(of.air[lanes].max()),
                front=front,
                at_once=at_once,
                ambient=ambient,
                peak_hour=float(np.argmax(of.followed[SHELTERED, lane])) + 1.0,
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
    as_it_is = np.array(spot.hot_peak)
    names = ("full-shade", "lighter-colour", "shade-and-lighter")
    found = []
    for name, followed in zip(names, spot.lanes.remedied, strict=True):
        peak = np.array(spot.peak_of(followed))
        less = ((as_it_is - peak) * _F_PER_K).tolist()
        found.append(
            HeatRemedy(
                id=name,  # type: ignore[arg-type]  # one of the three
                ambient=band(peak.tolist(), spot.hot_end_of(followed)),
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
    for name, days in (("hottest", hot), ("typical", cool)):
        if not days:
            continue
        per_watt = 100.0 / (rated or 1.0)
        energy = rated is not None and outage.usable_kwh is not None
        # The low end is that of all that is not known, the high one that of the wind on the worse
        # day: the same that the finding says.
        own, bounds = spot.lanes_of(days), spot.bounds_of(days)
        best = [
            float(part[SHOWN][:, own].min(axis=-1).max())
            for part in (left.least_power, left.mean_power)
        ]
        least, mean = (float(part[:, bounds].min()) for part in (left.least_power, left.mean_power))
        calm = float(left.least_power[SHOWN][:, own].min())
        found.append(
            PowerLeft(
                day=name,  # type: ignore[arg-type]  # one of the two
                least_percent_low=least * per_watt,
                least_percent_calm=calm * per_watt,
                least_percent_high=best[0] * per_watt,
                mean_percent_low=mean * per_watt,
                mean_percent_high=best[1] * per_watt,
                least_kw=None if rated is None else least / _W_PER_KW,
                energy_kwh=float(left.energy[:, bounds].min()) / _J_PER_KWH if energy else None,
                off_hours=float(left.off[:, bounds].max()) / _HOUR,
            )
        )
    return found
