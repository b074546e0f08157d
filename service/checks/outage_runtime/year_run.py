"""Every device from every start: straight through, or stepped where the charge decides."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.day_profile import DAY, window_seconds
from service.checks.outage_runtime.year_course import YearCourse, reconnect
from service.checks.outage_runtime.year_devices import Devices
from service.checks.outage_runtime.year_facts import GeneratorRule
from service.checks.outage_runtime.year_lanes import (
    AT_ONCE,
    LossTimes,
    Starts,
    durations,
    loss_times,
    overloads,
    walked,
    wrapped,
)
from service.physics.outage_engine import PROPORTIONAL, SHED_TIERS
from service.physics.outage_steps import GeneratorRun, StepsRestart, StepsRun, step_outages
from service.published.outage_defaults import outage_defaults

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


#: Least part of the energy between the floor and the charge at which a generator stops: own choice.
_LEAST_BAND = 0.05


def run_devices(
    course: YearCourse, devices: Devices, starts: Starts, proportional: bool
) -> LossTimes:
    """Return when devices lose their bus or their tiers.

    Parameters
    ----------
    course : YearCourse
    devices : Devices
        N devices [J, W].
    starts : Starts
    proportional : bool
        Whether the excess alone goes unserved above the inverter's power.

    Returns
    -------
    LossTimes
        [s], shape (N, S).

    Notes
    -----
    Load control, a generator, and time in the dark that is put up with make what happens depend on
    the charge; everything else goes straight through. Source: the step rule of the outage engine.
    """
    stepped = depends_on_charge(course, devices)
    if not stepped.any():
        return loss_times(course, devices, starts)
    found = LossTimes(*(np.empty((stepped.size, starts.count)) for _ in LossTimes.__slots__))
    straight = np.flatnonzero(~stepped)
    if straight.size:
        _put(found, straight, loss_times(course, devices.some(straight), starts))
    for controlled in (True, False):
        alike = np.flatnonzero(stepped & (devices.controlled == controlled))
        for first in range(0, alike.size, AT_ONCE):
            at = alike[first : first + AT_ONCE]
            run = stepped_run(
                course, devices.some(at), starts, proportional=proportional, controlled=controlled
            )
            exact = course if course.fine is None else course.fine
            over = overloads(exact, devices.some(at), starts, critical=controlled)
            never = np.full((2, *over.shape), np.inf)
            off = never
            if controlled:
                off = np.where(run.tier_first_off_seen, run.tier_first_off, np.inf)
            down = np.where(run.first_loss_seen, run.first_loss, np.inf)
            held = np.where(run.held_seen, run.held, np.inf)
            _put(found, at, LossTimes(down, held, over, off[0], off[1]))
    return found


def depends_on_charge(course: YearCourse, devices: Devices) -> NDArray[np.bool_]:
    """Return which devices must be stepped: what happens to them depends on their charge.

    Notes
    -----
    Times in the dark that are put up with [s] make it so, too. Source: derived.
    """
    facts = course.facts
    return devices.controlled | (facts.generator is not None or facts.dark > 0.0)


def _put(into: LossTimes, at: Ints, part: LossTimes) -> None:
    for name in LossTimes.__slots__:
        getattr(into, name)[at] = getattr(part, name)


def stepped_run(
    course: YearCourse,
    devices: Devices,
    starts: Starts,
    *,
    proportional: bool,
    controlled: bool,
    account: bool = False,
    trace: list[Floats] | None = None,
) -> StepsRun:
    """Follow devices through outages in which the charge decides what happens.

    Parameters
    ----------
    course : YearCourse
    devices : Devices
        N devices [J, W], all under load control or none of them.
    starts : Starts
    proportional, controlled : bool
        The rule above the inverter's power; whether load control sheds.
    account : bool
        Whether energies are added up.
    trace : list, optional
        Receives the stored energies at the end of every step [J].

    Returns
    -------
    StepsRun
        [s, J], shape (N, S).

    Notes
    -----
    Source: the step rule of the outage engine.
    """
    facts = course.facts
    rows = durations(starts, course.step).size
    spans = stepped_spans(course, starts)
    load = _load(course, devices, starts, rows, controlled=controlled)
    on_bus, direct = _suns(course, devices, starts, rows)
    allowed = _allowed(course, starts, rows)
    if spans.size > rows:
        # The first step is cut: a solar inverter waits before it joins the bus.
        on_bus = None if on_bus is None else [0.0 * on_bus[0], *on_bus]
        load, allowed = [load[0], *load], [allowed[0], *allowed]
        direct = None if direct is None else [direct[0], *direct]

    def each(values: Floats) -> Floats:
        return values[:, None]

    capacity = each(devices.capacity)
    shed = [np.maximum(each(devices.shed[:, k]) * capacity, each(devices.floor)) for k in (0, 1)]
    rule = facts.restart
    return step_outages(
        duration=spans,
        load=load,
        source=on_bus,
        dc_source=direct,
        capacity=capacity,
        start_energy=each(devices.start) + np.zeros((1, starts.count)),
        floor=each(devices.floor),
        discharge_fixed=each(devices.fixed),
        discharge_linear=each(devices.linear),
        discharge_square=each(devices.square),
        charge_efficiency=each(devices.efficiency),
        dc_charge_efficiency=outage_defaults()["dc_charge_efficiency"].value,
        discharge_limit=each(devices.limit),
        charge_limit=each(devices.charge),
        shed_at=np.array(shed) if controlled else None,
        restore_at=np.array([one + each(devices.shed[:, 2]) * capacity for one in shed])
        if controlled
        else None,
        power_limit_rule=PROPORTIONAL if proportional else SHED_TIERS,
        restart=StepsRestart(
            mode=rule.mode,
            black_start_power=rule.least,
            black_start_delay=rule.wait,
            restart_energy=rule.fraction * capacity,
        ),
        generator=_generator(facts.generator, capacity, each(devices.floor), allowed),
        allowance=facts.dark,
        stop_when_lost=not account,
        account=account,
        trace=trace,
    )


def stepped_spans(course: YearCourse, starts: Starts) -> Floats:
    """Return the steps of an outage [s], the first cut where sun on the bus waits to join it.

    Notes
    -----
    Source: derived.
    """
    spans = durations(starts, course.step)
    wait = min(reconnect(course), float(spans[0]))
    if wait <= 0.0:
        return spans
    return np.concatenate([[wait, spans[0] - wait], spans[1:]])


def _load(
    course: YearCourse, devices: Devices, starts: Starts, rows: int, *, controlled: bool
) -> list[Floats]:
    """Return the load of each step by class, one class where nothing is shed [W]."""
    if not controlled:
        walk = walked(wrapped(course.loads(devices), rows), starts, rows)
        return [row[None] for row in walk]
    kept = course.load[devices.use].copy()
    kept[:, 2] *= (devices.tiers_off < 1)[:, None]
    kept[:, 1] *= (devices.tiers_off < 2)[:, None]
    by_class = np.ascontiguousarray(kept.transpose(1, 0, 2))
    return list(walked(wrapped(by_class, rows), starts, rows))


def _suns(
    course: YearCourse, devices: Devices, starts: Starts, rows: int
) -> tuple[list[Floats] | None, list[Floats] | None]:
    found: list[list[Floats] | None] = []
    for values in course.suns(devices):
        walk = walked(wrapped(values, rows), starts, rows) if values.any() else None
        found.append(None if walk is None else list(walk))
    return found[0], found[1]


def _allowed(course: YearCourse, starts: Starts, rows: int) -> list[NDArray[np.bool_]]:
    """Return whether a generator may run in each step, by start."""
    rule = course.facts.generator
    quiet = window_seconds(*np.array(rule.quiet).T) if rule is not None and rule.quiet else []
    begins = np.arange(course.size) * course.step % DAY
    free = np.ones(course.size, dtype=np.bool_)
    for begin, end in quiet:
        # A step that a quiet window touches is quiet.
        free &= (begins + course.step <= begin + 1e-6) | (begins >= end - 1e-6)
    return list(walked(wrapped(free, rows), starts, rows))


def _generator(
    rule: GeneratorRule | None, capacity: Floats, floor: Floats, allowed: list[NDArray[np.bool_]]
) -> GeneratorRun | None:
    if rule is None:
        return None
    return GeneratorRun(
        power=rule.power,
        start_energy=rule.start * capacity,
        # Above the floor in any case, or it would stop as soon as it had brought the bus back.
        stop_energy=np.maximum(rule.stop * capacity, floor + _LEAST_BAND * capacity),
        allowed=allowed,
        charge_limit=rule.charge,
        tank=rule.tank,
        refills=rule.refills,
        burn_fixed=rule.burn_fixed,
        burn_linear=rule.burn_linear,
    )
