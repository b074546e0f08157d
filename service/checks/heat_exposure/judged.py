"""How a spot stands: its temperatures and its power against the data sheet's limits."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.columns import Heated
from service.checks.heat_exposure.courses import HOTTEST_THERE, TYPICAL, Course
from service.checks.heat_exposure.derating import power_factor
from service.checks.heat_exposure.hot_days import MISSED
from service.checks.heat_exposure.readings import COOL, HOT, SHOWN, Five, own_rise_of
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.spots import Spot, spots_of
from service.findings import Verdict
from service.quantities.comparison import at_least
from service.quantities.units import si

Floats = NDArray[np.float64]

_W_PER_KW = 1000.0
#: Least part of its power that a condition can name [1]: one in a hundred.
LEAST_PART = 0.01
#: Lanes that belong together, one list for each way to stand.
Lanes = list[list[int]]
#: A number of every lane, by reading.
Tops = list[list[float]]


@dataclass(frozen=True, slots=True)
class Ends:
    """Ends of a number: of all that is not known, and of the wind alone between them."""

    least: float
    shown_low: float
    shown_high: float
    most: float


@dataclass(eq=False)
class SpotHeat:
    """The lanes of a spot.

    Attributes
    ----------
    lanes : Heated
        Lane of place p, stand s, day d: ((p S) + s) D + d [K].
    shape : tuple of int
        Places, stands, days.
    there : tuple of tuple of Course
        Days by place and way to stand.
    kelvin : float
        What a facing between those tried, or a day between those picked, may add [K].
    own_rise : tuple of float or None
        What the unit's own heat adds to what is compared, by reading; None: it is not known [K].
    """

    spot: Spot
    lanes: Heated
    shape: tuple[int, int, int]
    there: tuple[tuple[Course, ...], ...]
    own_rise: Five | None
    kelvin: float

    @cached_property
    def roles(self) -> tuple[str, ...]:
        """Return what the days stand for."""
        return tuple(course.role for course in self.there[0])

    @cached_property
    def hot_days(self) -> tuple[int, ...]:
        """Return the days that a rating is held against."""
        return tuple(at for at, role in enumerate(self.roles) if role != TYPICAL)

    @cached_property
    def _every(self) -> Lanes:
        return np.arange(self.lanes.air.shape[0]).reshape(-1, self.shape[2]).tolist()

    @cached_property
    def _own(self) -> Lanes:
        """Return the lanes of the ways to stand that are more than a bound."""
        if not self.spot.bounded:
            return self._every
        own = [not one.bound for one in self.spot.stands] * self.shape[0]
        return [lanes for lanes, kept in zip(self._every, own, strict=True) if kept]

    def lanes_of(self, days: tuple[int, ...]) -> Lanes:
        """Return the lanes of some days, by way to stand."""
        return [[lanes[day] for day in days] for lanes in self._own]

    @cached_property
    def hot_lanes(self) -> Lanes:
        """Return the lanes of the hot days, by way to stand."""
        return self.lanes_of(self.hot_days)

    def bounds_of(self, days: tuple[int, ...]) -> Lanes:
        """Return the lanes of some days with the ways to stand that only bound the others."""
        return [[lanes[day] for day in days] for lanes in self._every]

    @cached_property
    def bounding_lanes(self) -> Lanes:
        """Return the same of the hot days."""
        return self.bounds_of(self.hot_days) if self.spot.bounded else self.hot_lanes

    @cached_property
    def top(self) -> Tops:
        """Return the highest temperature of every lane, by reading [K]."""
        return tops_of(self.lanes.followed)

    @cached_property
    def remedied_tops(self) -> list[Tops]:
        """Return the same with each remedy [K]."""
        return [tops_of(followed) for followed in self.lanes.remedied]

    @cached_property
    def hot_end(self) -> float:
        """Return the highest temperature of the hot days over all that is not known [K]."""
        return self.hot_end_of(self.top)

    def hot_end_of(self, top: Tops) -> float:
        """Return the highest of the hot days over all that is not known [K]."""
        return max(over_lanes(max, top[HOT], self.bounding_lanes)) + self.kelvin

    def place_and_stand(self, lane: int) -> tuple[int, int]:
        """Return place and way to stand of a lane."""
        return divmod(lane // self.shape[2], self.shape[1])

    def course(self, lane: int) -> Course:
        """Return the day of a lane."""
        return self.there[lane // self.shape[2]][lane % self.shape[2]]

    @cached_property
    def hot_peak(self) -> list[list[float]]:
        """Return the highest temperature of the hot days, by wind and way to stand [K]."""
        return self.peak_of(self.top)

    def peak_of(self, top: Tops) -> list[list[float]]:
        """Return the highest of the hot days, by wind and way to stand [K]."""
        return [over_lanes(max, row, self.hot_lanes) for row in top[SHOWN]]


def tops_of(temperature: Floats) -> Tops:
    """Return the highest temperature of every lane, by reading.

    Parameters
    ----------
    temperature : ndarray, shape (5, L, 24)
        [K].
    """
    found: Tops = np.maximum.reduce(temperature, axis=-1).tolist()
    return found


def over_lanes(of: Callable[[list[float]], float], row: list[float], lanes: Lanes) -> list[float]:
    """Return the highest or the lowest of a row, by lanes that belong together."""
    return [of([row[lane] for lane in some]) for some in lanes]


def spots_heat(
    request: HeatExposureRequest, climate: ClimateDays, solved: Heated
) -> list[SpotHeat]:
    """Return the lanes of every spot of a request."""
    own = own_rise_of(request)
    found, first = [], 0
    for spot, there in zip(spots_of(request), solved.there, strict=True):
        shape = (len(climate.places), len(spot.stands), len(there[0]))
        past = first + len(there) * shape[2]
        sought = spot.wall is not None or len(spot.stands) > 1
        missed = MISSED * (sought and HOTTEST_THERE in (course.role for course in there[0]))
        lanes = solved.part(slice(first, past))
        found.append(SpotHeat(spot, lanes, shape, there, own, spot.between + missed))
        first = past
    return found


def rise_of(spot: SpotHeat) -> list[float] | None:
    """Return what is added to a temperature before it is compared, by reading [K]."""
    if spot.own_rise is None:
        return None
    # What lies between those tried counts at the hot end alone.
    return [*spot.own_rise[:HOT], spot.own_rise[HOT] + spot.kelvin]


def peaks(spot: SpotHeat, top: Tops, rise: list[float]) -> Ends:
    """Return the highest temperature of the hot days, over all that is not known [K]."""
    # Of what is not known the coolest may be true, of the days the hotter counts.
    worst = [
        [value + by for value in over_lanes(max, row, spot.hot_lanes)]
        for row, by in zip(top[:HOT], rise[:HOT], strict=True)
    ]
    shown, most = worst[SHOWN], max(over_lanes(max, top[HOT], spot.bounding_lanes)) + rise[HOT]
    return Ends(min(worst[COOL]), min(map(min, shown)), max(map(max, shown)), most)


def heat_verdict(request: HeatExposureRequest, ends: Ends | None) -> Verdict:
    """Return how the highest temperature stands against the highest allowed.

    Notes
    -----
    It hangs on no condition: between the band and the hot end lie facts that may turn a yes into a
    no, which are asked, or wind and sky, which nobody can promise.
    """
    if request.limits.highest is None or ends is None:
        return Verdict.UNDETERMINED
    limit = si(request.limits.highest, "degF")
    if at_least(limit, ends.most, "temperature"):
        return Verdict.PASS
    # The band of the wind is the estimate: all of it above the limit fails.
    within = at_least(limit, ends.shown_low, "temperature")
    return Verdict.UNDETERMINED if within else Verdict.FAIL


def factors(request: HeatExposureRequest, followed: Floats, rise: list[float]) -> Floats | None:
    """Return the part of its power; None: the curve is not known.

    Parameters
    ----------
    request : HeatExposureRequest
    followed : ndarray, shape (..., 5, L, 24)
        [K].
    rise : list of float
        What is added before it is compared, by reading [K].

    Returns
    -------
    ndarray, shape (..., 5, L, 24), or None
        [1].
    """
    if request.derating is None:
        return None
    limits = request.limits
    highest = np.inf if limits.highest is None else si(limits.highest, "degF")
    lowest = -np.inf if limits.lowest is None else si(limits.lowest, "degF")
    at = np.array([si(point.temperature, "degF") for point in request.derating])
    part = np.array([point.percent / 100.0 for point in request.derating])
    held = followed + np.array(rise).reshape(-1, 1, 1)
    return power_factor(held, at, part, lowest, highest)


def least_parts(spot: SpotHeat, factor: Floats, inside: NDArray[np.int64]) -> Ends:
    """Return the least part of its power in the hours of the outage on the hot days [1]."""
    part = np.minimum.reduce(factor[..., inside], axis=-1).tolist()
    least = [over_lanes(min, row, spot.hot_lanes) for row in part]
    shown = least[SHOWN]
    worst = min(map(min, least))
    if spot.spot.bounded:
        worst = min(worst, *(min(over_lanes(min, row, spot.bounding_lanes)) for row in part))
    return Ends(worst, min(map(min, shown)), max(map(max, shown)), max(map(max, least)))


def gives_nothing(spot: SpotHeat, factor: Floats, inside: NDArray[np.int64]) -> bool:
    """Return whether it gives nothing in the whole outage on a hot day, at any reading."""
    part = np.maximum.reduce(factor[..., inside], axis=-1).tolist()
    return all(least <= 0.0 for row in part for least in over_lanes(min, row, spot.hot_lanes))


def power_verdict(
    request: HeatExposureRequest, parts: Ends | None, *, nothing: bool = False
) -> Verdict:
    """Return how the power that is left stands: against the need, or against all of it.

    Parameters
    ----------
    request : HeatExposureRequest
    parts : Ends or None
        Least part of its power [1].
    nothing : bool, optional
        Whether it gives nothing in the whole outage.

    Notes
    -----
    Where no need is stated the condition names the part that is sure: less cannot come.
    """
    if parts is None:
        return Verdict.UNDETERMINED
    outage = request.outage
    if not outage.need_kw:
        if nothing:
            return Verdict.FAIL
        if at_least(parts.least, 1.0, "fraction"):
            return Verdict.PASS
        return Verdict.CONDITIONAL if parts.least >= LEAST_PART else Verdict.UNDETERMINED
    if outage.rated_kw is None:
        return Verdict.UNDETERMINED
    rated, need = outage.rated_kw * _W_PER_KW, outage.need_kw * _W_PER_KW
    if at_least(parts.least * rated, need, "power"):
        return Verdict.PASS
    within = at_least(parts.shown_high * rated, need, "power")
    return Verdict.UNDETERMINED if within else Verdict.FAIL
