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
    walked,
    wrapped,
)
from service.physics.stepped_lanes import Generator, Restart, StepsRun
from service.physics.stepped_outage import step_outages
from service.published.outage_defaults import outage_defaults

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


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
            never = np.full((2, *run.held.shape), np.inf)
            off = run.tier_off if controlled else never
            _put(found, at, LossTimes(run.first_loss, run.held, run.overload, off[0], off[1]))
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

    Returns
    -------
    StepsRun
        [s, J], shape (N, S).

    Notes
    -----
    Source: the step rule of the outage engine.
    """
    facts = course.facts
    spans = durations(starts, course.step)
    load = _load(course, devices, starts, spans.size, controlled=controlled)
    on_bus, direct = _suns(course, devices, starts, spans.size)
    allowed = _allowed(course, starts, spans.size)
    wait = min(reconnect(course), float(spans[0]))
    if wait > 0.0 and on_bus is not None:
        # The first step is cut: a solar inverter waits before it joins the bus.
        spans = np.concatenate([[wait, spans[0] - wait], spans[1:]])
        on_bus = [0.0 * on_bus[0], *on_bus]
        load, allowed = [load[0], *load], [allowed[0], *allowed]
        direct = None if direct is None else [direct[0], *direct]

    def each(values: Floats) -> Floats:
        return values[:, None]

    capacity = each(devices.capacity)
    shed = [np.maximum(each(devices.shed[:, k]) * capacity, each(devices.floor)) for k in (0, 1)]
    return step_outages(
        duration=spans,
        load=load,
        source=on_bus,
        direct=direct,
        lanes=(devices.use.size, starts.count),
        capacity=capacity,
        start_energy=each(devices.start),
        floor=each(devices.floor),
        discharge_fixed=each(devices.fixed),
        discharge_linear=each(devices.linear),
        discharge_square=each(devices.square),
        charge_efficiency=each(devices.efficiency),
        direct_efficiency=outage_defaults()["dc_charge_efficiency"].value,
        discharge_limit=each(devices.limit),
        charge_limit=each(devices.charge),
        shed_at=shed if controlled else (),
        restore_at=[one + each(devices.shed[:, 2]) * capacity for one in shed]
        if controlled
        else (),
        proportional=proportional,
        restart=Restart(
            facts.restart.mode,
            facts.restart.least,
            facts.restart.wait,
            facts.restart.fraction * capacity,
        ),
        generator=_generator(facts.generator, capacity, allowed),
        allowance=facts.dark,
        stop_when_lost=not account,
        account=account,
    )


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
    rule: GeneratorRule | None, capacity: Floats, allowed: list[NDArray[np.bool_]]
) -> Generator | None:
    if rule is None:
        return None
    return Generator(
        power=rule.power,
        start_energy=rule.start * capacity,
        stop_energy=rule.stop * capacity,
        charge=rule.charge,
        allowed=allowed,
        tank=rule.tank,
        refills=rule.refills,
        burn_fixed=rule.burn_fixed,
        burn_linear=rule.burn_linear,
    )
