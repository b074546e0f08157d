"""How a spot stands: its temperatures and its power against the data sheet's limits."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from numpy.typing import NDArray

from service.checks.heat_exposure.climate_days import ClimateDays
from service.checks.heat_exposure.columns import Heated
from service.checks.heat_exposure.courses import TYPICAL
from service.checks.heat_exposure.derating import power_factor
from service.checks.heat_exposure.outage_window import window_hours
from service.checks.heat_exposure.readings import COOL, HOT, SHOWN, own_rise_of
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.spots import Spot, spots_of
from service.findings import Verdict
from service.quantities.comparison import reaches
from service.quantities.units import si

Floats = NDArray[np.float64]

USUAL_START, USUAL_HOURS = 12.0, 24.0
_HOUR, _W_PER_KW = 3600.0, 1000.0


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
    roles : tuple of str
        Of the days.
    own_rise : ndarray or None, shape (5, 1, 1)
        What the unit's own heat adds to what is compared; None where it is not known [K].
    """

    spot: Spot
    lanes: Heated
    shape: tuple[int, int, int]
    roles: tuple[str, ...]
    own_rise: Floats | None

    @cached_property
    def hot_days(self) -> tuple[int, ...]:
        """Return the days that a rating is held against."""
        return tuple(at for at, role in enumerate(self.roles) if role != TYPICAL)

    def lanes_of(self, days: tuple[int, ...]) -> NDArray[np.int64]:
        """Return the lanes of some days, shape (places S, days)."""
        found = np.arange(self.lanes.air.shape[0]).reshape(-1, self.shape[2])
        return np.asarray(found[:, list(days)])

    @cached_property
    def hot_lanes(self) -> NDArray[np.int64]:
        """Return the lanes of the hot days, shape (places S, days)."""
        return self.lanes_of(self.hot_days)

    @cached_property
    def hot_peak(self) -> list[list[float]]:
        """Return the highest temperature of the hot days, by wind and way to stand [K]."""
        return self.peak_of(self.lanes.followed)

    def peak_of(self, temperature: Floats) -> list[list[float]]:
        """Return the highest of the hot days, by wind and way to stand [K].

        Parameters
        ----------
        temperature : ndarray, shape (5, L, 24)
            [K].
        """
        peak = temperature[SHOWN].max(axis=-1)[:, self.hot_lanes].max(axis=-1)
        found: list[list[float]] = peak.tolist()
        return found


def spots_heat(
    request: HeatExposureRequest, climate: ClimateDays, solved: Heated
) -> list[SpotHeat]:
    """Return the lanes of every spot of a request."""
    rise = own_rise_of(request)
    own = None if rise is None else np.array(rise).reshape(5, 1, 1)
    roles = tuple(course.role for course in climate.places[0].courses)
    found, first = [], 0
    for spot in spots_of(request):
        shape = (len(climate.places), len(spot.stands), len(roles))
        past = first + int(np.prod(shape))
        lanes = Heated(*(part[..., first:past, :] for part in solved))
        found.append(SpotHeat(spot, lanes, shape, roles, own))
        first = past
    return found


def compared(spot: SpotHeat, followed: Floats | None = None) -> Floats | None:
    """Return what is held against a limit, shape (5, L, 24); None where it is not known [K]."""
    if spot.own_rise is None:
        return None
    given = spot.lanes.followed if followed is None else followed
    between = np.where(np.arange(5) == HOT, spot.spot.between, 0.0).reshape(5, 1, 1)
    return np.asarray(given + (spot.own_rise + between))


def peaks(spot: SpotHeat, temperature: Floats) -> Ends:
    """Return the highest temperature of the hot days, over all that is not known [K]."""
    # Of what is not known the coolest may be true, of the days the hotter counts.
    worst = temperature.max(axis=-1)[:, spot.hot_lanes].max(axis=-1).tolist()
    shown = worst[SHOWN]
    return Ends(min(worst[COOL]), min(map(min, shown)), max(map(max, shown)), max(worst[HOT]))


def heat_verdict(request: HeatExposureRequest, ends: Ends | None) -> Verdict:
    """Return how the highest temperature stands against the highest allowed."""
    if request.limits.highest is None or ends is None:
        return Verdict.UNDETERMINED
    limit = si(request.limits.highest, "degF")
    if reaches(limit, ends.most, "temperature"):
        return Verdict.PASS
    # The band of the wind is the estimate: all of it above the limit fails.
    if not reaches(limit, ends.shown_low, "temperature"):
        return Verdict.FAIL
    held = reaches(limit, ends.shown_high, "temperature")
    return Verdict.CONDITIONAL if held else Verdict.UNDETERMINED


def factors(request: HeatExposureRequest, temperature: Floats | None) -> Floats | None:
    """Return the part of its power, shape (5, L, 24); None where the curve is not known [1]."""
    if request.derating is None or temperature is None:
        return None
    limits = request.limits
    highest = np.inf if limits.highest is None else si(limits.highest, "degF")
    lowest = -np.inf if limits.lowest is None else si(limits.lowest, "degF")
    at = np.array([si(point.temperature, "degF") for point in request.derating])
    part = np.array([point.percent / 100.0 for point in request.derating])
    return power_factor(temperature, at, part, lowest, highest)


def window_of(request: HeatExposureRequest) -> Floats:
    """Return how long each hour of the day lies in the outage, shape (24,) [s]."""
    outage = request.outage
    return _window(
        USUAL_START if outage.start_hour is None else outage.start_hour,
        USUAL_HOURS if outage.hours is None else outage.hours,
    )


@lru_cache(maxsize=256)
def _window(start: float, hours: float) -> Floats:
    return window_hours(start * _HOUR, hours * _HOUR)


def least_parts(
    spot: SpotHeat, factor: Floats, window: Floats, days: tuple[int, ...] | None = None
) -> Ends:
    """Return the least part of its power in the outage on some days, the hot ones by default [1].

    Of several days the worse counts.
    """
    inside = np.flatnonzero(window > 0.0)
    lanes = spot.lanes_of(spot.hot_days if days is None else days)
    least = factor[..., inside].min(axis=-1)[:, lanes].min(axis=-1).tolist()
    shown = least[SHOWN]
    return Ends(
        min(map(min, least)), min(map(min, shown)), max(map(max, shown)), max(map(max, least))
    )


def power_verdict(request: HeatExposureRequest, parts: Ends | None) -> Verdict:
    """Return how the power that is left stands: against the need, or against all of it."""
    if parts is None:
        return Verdict.UNDETERMINED
    outage = request.outage
    if outage.need_kw is None:
        full = reaches(parts.least, 1.0, "fraction")
        return Verdict.PASS if full else Verdict.CONDITIONAL
    if outage.rated_kw is None:
        return Verdict.UNDETERMINED
    rated, need = outage.rated_kw * _W_PER_KW, outage.need_kw * _W_PER_KW
    if reaches(parts.least * rated, need, "power"):
        return Verdict.PASS
    if not reaches(parts.shown_high * rated, need, "power"):
        return Verdict.FAIL
    held = reaches(parts.shown_low * rated, need, "power")
    return Verdict.CONDITIONAL if held else Verdict.UNDETERMINED


def cold_verdict(request: HeatExposureRequest, coldest: tuple[float, float] | None) -> Verdict:
    """Return how the coldest hour stands against the lowest temperature allowed.

    Parameters
    ----------
    request : HeatExposureRequest
    coldest : tuple of float or None
        Coldest hour of the year, and how cold it may get; None where no year is known [K].
    """
    if request.limits.lowest is None or coldest is None:
        return Verdict.CONDITIONAL
    limit = si(request.limits.lowest, "degF")
    if reaches(coldest[1], limit, "temperature"):
        return Verdict.PASS
    return Verdict.CONDITIONAL if reaches(coldest[0], limit, "temperature") else Verdict.FAIL
