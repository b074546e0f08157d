"""One outage in which nothing depends on the charge, step by step, its energies added up."""

from __future__ import annotations

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.year_course import YearCourse, reconnect
from service.checks.outage_runtime.year_devices import Devices
from service.checks.outage_runtime.year_lanes import Starts, durations
from service.published.outage_defaults import outage_defaults

Floats = NDArray[np.float64]


@dataclass(slots=True)
class Followed:
    """Where the energy of one outage went [J], what was dark and what the generator did [s].

    ``trace`` holds time [s] and stored energy [J] at every event and step.
    """

    dark_time: float = 0.0
    restarts: int = 0
    served: float = 0.0
    unserved: float = 0.0
    source_used: float = 0.0
    refused: float = 0.0
    lost_source: float = 0.0
    generator_energy: float = 0.0
    generator_time: float = 0.0
    generator_starts: int = 0
    fuel_used: float = 0.0
    refills_used: float = 0.0
    trace: list[tuple[float, float]] = field(default_factory=list)


@dataclass(slots=True)
class _Battery:
    """The numbers of one device [J, W, 1]."""

    capacity: float
    energy: float
    floor: float
    fixed: float
    linear: float
    square: float
    limit: float
    charge: float
    efficiency: float
    stored: float


def _battery(devices: Devices, device: int) -> _Battery:
    def of(name: str) -> float:
        return float(getattr(devices, name)[device])

    return _Battery(
        capacity=of("capacity"),
        energy=of("start"),
        floor=of("floor"),
        fixed=of("fixed"),
        linear=of("linear"),
        square=of("square"),
        limit=of("limit"),
        charge=of("charge"),
        efficiency=of("efficiency"),
        stored=outage_defaults()["dc_charge_efficiency"].value,
    )


def follow_straight(course: YearCourse, devices: Devices, device: int, starts: Starts) -> Followed:
    """Return one outage, the first of `starts`, of a device under no control and alone.

    Parameters
    ----------
    course : YearCourse
    devices : Devices
        [J, W].
    device : int
        Which of them.
    starts : Starts
        [s].

    Notes
    -----
    The same rule as `cells_balance` and `first_losses`, one step after the other. Source: derived.
    """
    some = devices.some(np.array([device]))
    spans = durations(starts, course.step)
    at = (starts.first + np.arange(spans.size)) % course.size
    load = course.loads(some)[0, at]
    on_bus, direct = (sun[0, at] for sun in course.suns(some))
    wait = min(reconnect(course), float(spans[0]))
    if wait > 0.0:
        spans = np.concatenate([[wait, spans[0] - wait], spans[1:]])
        load, direct = (
            load[np.maximum(np.arange(spans.size) - 1, 0)],
            np.insert(direct, 0, direct[0]),
        )
        on_bus = np.insert(on_bus, 0, 0.0)
    battery, found = _battery(devices, device), Followed()
    dark = battery.energy <= battery.floor
    found.trace.append((0.0, battery.energy))
    now = 0.0
    for span, asked, bus, cells in zip(
        spans.tolist(), load.tolist(), on_bus.tolist(), direct.tolist(), strict=True
    ):
        up = 0.0 if dark else _step(battery, found, span, asked, bus, cells, now)
        dark = up < span
        _go_dark(found, span - up, asked, bus + cells)
        now += span
        found.trace.append((now, battery.energy))
    return found


def _go_dark(found: Followed, span: float, asked: float, sun: float) -> None:
    found.dark_time += span
    found.unserved += asked * span
    found.lost_source += sun * span


def _step(
    battery: _Battery,
    found: Followed,
    span: float,
    asked: float,
    bus: float,
    cells: float,
    now: float,
) -> float:
    """Take one step of a battery whose bus is up; return how long it stays up [s]."""
    net = asked - bus
    out = min(max(net, 0.0), battery.limit)
    served = min(asked, battery.limit + bus)
    draw = (battery.square * out + battery.linear) * out + battery.fixed
    taken = min(max(-net, 0.0), battery.charge)
    drawn = draw - battery.efficiency * taken
    met = min(cells, max(drawn, 0.0))
    room = max(battery.charge - max(-drawn, 0.0), 0.0)
    filled = min((cells - met) * battery.stored, room)
    gain = filled + met - drawn
    after = battery.energy + gain * span
    lasts = span
    if gain < 0.0 and after < battery.floor - 1e-12 * battery.capacity:
        lasts = max(battery.energy - battery.floor, 0.0) / -gain
        after = battery.floor
        found.trace.append((now + lasts, after))
    rests = 0.0
    if after > battery.capacity:
        rests = span - (battery.capacity - battery.energy) / gain
        after = battery.capacity
    # A full battery takes what covers its own draw; the cells' side refuses first, then the bus.
    spilled = min(gain, filled) if rests else 0.0
    spared = (gain - spilled) / battery.efficiency if rests else 0.0
    used = (min(bus, asked) + taken + met + filled / battery.stored) * lasts
    used -= (spared + spilled / battery.stored) * rests
    found.served += served * lasts
    found.unserved += (asked - served) * lasts
    found.source_used += used
    found.refused += (bus + cells) * lasts - used
    battery.energy = after
    return lasts
