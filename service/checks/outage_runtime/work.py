"""Predicted cost of one request, before any of it is done."""

from __future__ import annotations

from service.checks.outage_runtime.load_rows import request_rows
from service.checks.outage_runtime.request import (
    IntervalProfileUse,
    LoadsUse,
    OutageRuntimeRequest,
)
from service.checks.outage_runtime.year_arguments import (
    by_charge,
    charge_kw,
    chosen_climate,
    dark_allowed,
    dated,
    generator_charges,
    joins,
)

#: Cases a second on one core in a large batch, measured by tests/benchmarks. A single request is
#: a batch already, of some three hundred lanes a season; a larger one has little left to share.
ARRAY_RATE = 100.0
_BASE_MS = 5.0
_ROW_MS = 0.15
#: An outage that is a matter of the date: straight through the year, and one more climate site.
_YEAR_MS = 90.0
_SITE_MS = 45.0
#: Where the charge decides what happens: the survey of all start hours and the week that is shown,
#: and more for everything that acts on the charge: generator, load control, restart.
_STEPPED_MS = 400.0
_ACTING_MS = 90.0
#: What a generator that starts and a tier that is shed make of each other.
_TOGETHER_MS = 400.0
#: A load that goes with the weather has events of its own in every hour.
_WEATHER_MS = 180.0
#: One more climate site, to choose by and to claim by, and each day of the target under it.
_FOLLOWED_SITE_MS = 90.0
_FOLLOWED_DAY_MS = 60.0
_WEEK_HOURS = 168.0
#: One cycle an hour, all week, of a generator, of a tier that is shed and restored, and of such a
#: tier beside a generator.
_CYCLE_MS = 200.0
_SHED_MS = 25.0
_SHED_BESIDE_MS = 150.0


def work(request: OutageRuntimeRequest) -> float:
    """Return the predicted time on one core [ms]."""
    rows = len(request.use.rows) if isinstance(request.use, LoadsUse) else 48
    target = request.target_hours or 0.0
    weeks = max(1.0, target / _WEEK_HOURS)
    predicted = (_BASE_MS + _ROW_MS * rows) * weeks
    if not dated(request):
        return predicted
    choice = chosen_climate(request)
    others = max(len(choice.answering) - 1, 0)
    if by_charge(request):
        return predicted + _stepped(request, others) * weeks
    return predicted + (_SITE_MS * others + _YEAR_MS * weeks) * _fineness(request)


def _stepped(request: OutageRuntimeRequest, others: int) -> float:
    """Return the time that a week takes which goes by the charge [ms]."""
    generator = request.generator is not None and joins(request)
    control = request.load_control is not None
    acting = float(generator) + float(control) + float(dark_allowed(request) > 0.0)
    weathered = float(any(row.by_weather for row in request_rows(request)))
    days = min((request.target_hours or 0.0), _WEEK_HOURS) / 24.0
    return (
        _STEPPED_MS
        + acting * (_ACTING_MS + _WEATHER_MS * weathered)
        + _TOGETHER_MS * float(generator and control)
        + others * acting * (_FOLLOWED_SITE_MS + _FOLLOWED_DAY_MS * days)
        + _chatter(request)
    )


def _chatter(request: OutageRuntimeRequest) -> float:
    """Return the time that starts and sheds in quick succession take in a week [ms].

    A cycle charges and discharges the band between two set-points; the narrower it is and the
    larger load and charge, the more of them an hour has to be followed through.
    """
    battery = request.battery
    count = battery.count or 1
    energy = max(battery.energy.kwh * count, 1e-3)
    charge = charge_kw(battery) * count
    load = sum(
        row.watts[2] * row.pieces * (1.0 if row.by_weather else row.duty[2] * row.hours / 24.0)
        for row in request_rows(request)
    )
    found = 0.0
    if request.generator is not None and joins(request):
        start, stop = generator_charges(request.generator)
        power = min(charge, request.generator.rated_kw)
        found += _CYCLE_MS * _cycles(energy * (stop - start) / 100.0, power, load / 1000.0)
    if request.load_control is not None:
        band = energy * request.load_control.hysteresis_percent / 100.0
        each = _SHED_BESIDE_MS if found else _SHED_MS
        found += each * _cycles(band, charge, load / 1000.0)
    return found


def _cycles(band: float, charge: float, load: float) -> float:
    """Return the cycles an hour through a band [kWh] at powers [kW]."""
    if charge <= 0.0 or load <= 0.0:
        return 0.0
    return 1.0 / (band / charge + band / load)


def _fineness(request: OutageRuntimeRequest) -> float:
    """Return how many times an hour the year is cut, at most."""
    if isinstance(request.use, IntervalProfileUse):
        return max(len(request.use.watts) / 8760.0, 1.0)
    edges = [request.start_hour or 0.0]
    if isinstance(request.use, LoadsUse):
        for row in request.use.rows:
            for window in row.windows or ():
                edges += [window.start_hour, window.end_hour]
    return 1.0 if all(edge == int(edge) for edge in edges) else 4.0
