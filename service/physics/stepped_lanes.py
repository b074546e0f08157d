"""Parameters and state of lanes that step together, and what comes out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.physics.outage_lanes import ENERGY_TOLERANCE
from service.physics.outage_power_limit import POWER_TOLERANCE

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
Ints = NDArray[np.int64]

NEVER, BLACK_START, DC_RESTART = range(3)


@dataclass(frozen=True, slots=True)
class Restart:
    """What brings the bus back after the battery ran down.

    Attributes
    ----------
    mode : int
        0 never; 1 black start by the sun on the AC bus; 2 restart after DC charging.
    power : float
        Least sun for a black start [W].
    delay : float
        How long it must have lasted [s].
    energy : array_like
        Stored energy at which a DC restart turns the bus on [J].
    """

    mode: int
    power: float
    delay: float
    energy: ArrayLike


@dataclass(frozen=True, slots=True)
class Generator:
    """A generator that starts and stops by the charge.

    Attributes
    ----------
    power : float
        What loads and charging may take together [W].
    start_energy, stop_energy : array_like
        Stored energy at or below which it starts, and at or above which it stops [J].
    charge : float
        Largest power at which it charges [W].
    allowed : sequence of T ndarray of bool, broadcastable to the lanes
        Whether it may run in each step.
    tank, refills : float
        Fuel at the start, in its own unit, and how often that is filled up again.
    burn_fixed, burn_linear : float
        Fuel a second while it runs, and a joule given.
    """

    power: float
    start_energy: ArrayLike
    stop_energy: ArrayLike
    charge: float
    allowed: Sequence[Flags]
    tank: float
    refills: float
    burn_fixed: float
    burn_linear: float


@dataclass(frozen=True, slots=True)
class StepsRun:
    """What happened; arrays have the shape of the lanes, times [s], energies [J].

    Attributes
    ----------
    held : ndarray
        When more than the allowance was dark; infinite where it never was.
    first_loss : ndarray
        When the bus was first lost; infinite where it never was.
    tier_off : ndarray, shape (K-1, *lanes)
        When a tier that draws power was first off by charge or by power; infinite: never.
    limited, overload : ndarray
        When the inverter's limit was first met, and when what cannot be shed first passed it.
    dark_time : ndarray
        Time without bus.
    restarts : ndarray of int
    end_energy : ndarray
    served, unserved, source_used, refused, lost_source, conversion_loss : ndarray
        Energies; 0 unless they were accounted for. `refused` is sun that a full battery or its
        limit turned away, `lost_source` sun without bus, or beside a generator.
    generator_energy, generator_time, fuel_used : ndarray
    generator_starts, refills_used : ndarray
    trace : list of tuple
        Time and energy of lane 0 after every event, where accounted for.
    """

    held: Floats
    first_loss: Floats
    tier_off: Floats
    limited: Floats
    overload: Floats
    dark_time: Floats
    restarts: Ints
    end_energy: Floats
    served: Floats
    unserved: Floats
    source_used: Floats
    refused: Floats
    lost_source: Floats
    conversion_loss: Floats
    generator_energy: Floats
    generator_time: Floats
    generator_starts: Ints
    fuel_used: Floats
    refills_used: Floats
    trace: list[tuple[float, float]]


@dataclass(frozen=True, slots=True)
class Engine:
    """A generator, its levels by lane."""

    power: float
    start: Floats
    stop: Floats
    charge: float
    tank: float
    refills: float
    burn_fixed: float
    burn_linear: float


@dataclass(frozen=True, slots=True)
class StepDevice:
    """Parameters of N lanes, flat; see `step_outages`."""

    lanes: tuple[int, ...]
    classes: int
    capacity: Floats
    floor: Floats
    fixed: Floats
    linear: Floats
    square: Floats
    efficiency: Floats
    limit: Floats
    most: Floats
    charge: Floats
    leave: Floats
    back: Floats
    proportional: Flags
    direct_efficiency: float
    restart: Restart | None
    restart_energy: Floats
    generator: Engine | None
    allowance: float
    tolerance: Floats

    @property
    def count(self) -> int:
        """Return the number of lanes."""
        return int(self.capacity.size)

    @property
    def restarts(self) -> bool:
        """Return whether anything can bring a lost bus back."""
        return self.generator is not None or (
            self.restart is not None and self.restart.mode != NEVER
        )


def flat_device(
    lanes: tuple[int, ...],
    classes: int,
    *,
    capacity: ArrayLike,
    floor: ArrayLike,
    fixed: ArrayLike,
    linear: ArrayLike,
    square: ArrayLike,
    efficiency: ArrayLike,
    limit: ArrayLike,
    charge: ArrayLike,
    shed_at: Sequence[ArrayLike],
    restore_at: Sequence[ArrayLike],
    proportional: ArrayLike,
    direct_efficiency: float,
    restart: Restart | None,
    generator: Generator | None,
    allowance: float,
) -> StepDevice:
    """Return the parameters of lanes, each an array of its own; units as in `step_outages`.

    Notes
    -----
    A band from shedding to restoring that rounding could jump is none: such a tier stays off once
    it is off. Source: derived, as in the outage engine.
    """

    def each(values: ArrayLike) -> Floats:
        found = np.broadcast_to(np.asarray(values, dtype=np.float64), lanes)
        return np.ascontiguousarray(found).reshape(-1)

    top, low, most = each(capacity), each(floor), each(limit)
    tolerance = ENERGY_TOLERANCE * top
    tiers = classes - 1
    leave = [each(one) for one in shed_at] or [np.full(top.size, -np.inf)] * tiers
    back = [np.minimum(each(one), top) for one in restore_at] or [np.full(top.size, np.inf)] * tiers
    wide = [np.where(b - a > 4.0 * tolerance, b, np.inf) for a, b in zip(leave, back, strict=True)]
    return StepDevice(
        lanes=lanes,
        classes=classes,
        capacity=top,
        floor=low,
        fixed=each(fixed),
        linear=each(linear),
        square=each(square),
        efficiency=each(efficiency),
        limit=most,
        most=most + POWER_TOLERANCE,
        charge=each(charge),
        leave=np.array(leave).reshape(tiers, top.size),
        back=np.array(wide).reshape(tiers, top.size),
        proportional=np.broadcast_to(np.asarray(proportional), lanes).reshape(-1),
        direct_efficiency=direct_efficiency,
        restart=restart,
        restart_energy=each(np.inf if restart is None else restart.energy),
        generator=None if generator is None else _engine(generator, each),
        allowance=allowance,
        tolerance=tolerance,
    )


def _engine(generator: Generator, each: object) -> Engine:
    assert callable(each)
    return Engine(
        generator.power,
        each(generator.start_energy),
        each(generator.stop_energy),
        generator.charge,
        generator.tank,
        generator.refills,
        generator.burn_fixed,
        generator.burn_linear,
    )


class StepState:
    """State of N lanes between two steps, and what was noted on the way."""

    def __init__(
        self, device: StepDevice, start: Floats, *, stop_when_lost: bool, account: bool
    ) -> None:
        count, tiers = device.count, device.classes - 1
        self.device = device
        self.stop_when_lost, self.account = stop_when_lost, account
        self.energy = np.minimum(start, device.capacity)
        self.up = self.energy > device.floor
        self.kept = self.energy > device.leave
        self.on = np.zeros((tiers + 1, count))
        self.running = np.zeros(count, dtype=np.bool_)
        engine = device.generator
        self.fuel = np.full(count, 0.0 if engine is None else engine.tank)
        self.refills = np.full(count, 0.0 if engine is None else engine.refills)
        self.waited = np.zeros(count)
        self.dark = np.zeros(count)
        self.held = np.full(count, np.inf)
        self.first_loss = np.where(self.up, np.inf, 0.0)
        self.off = np.full((tiers, count), np.inf)
        self.off_seen = np.zeros((tiers, count), dtype=np.bool_)
        self.limited = np.full(count, np.inf)
        self.overload = np.full(count, np.inf)
        self.restarts = np.zeros(count, dtype=np.int64)
        self.starts = np.zeros(count, dtype=np.int64)
        self.sums = {name: np.zeros(count) for name in SUMS}
        self.alive = np.ones(count, dtype=np.bool_)
        self.dead_since = np.full(count, np.inf)
        self.reach_low = np.empty(count)
        self.next_high = np.empty(count)
        self.trace: list[tuple[float, float]] = [(0.0, float(self.energy[0]))] if account else []
        self.any_down = not bool(self.up.all())
        if self.any_down:
            down = np.flatnonzero(~self.up)
            self.retire(down, np.zeros(down.size), 0.0)
        self.unseen_off = not bool(self.kept.all())
        self.settle(np.arange(count))

    def retire(self, at: Ints, lost: Floats, now: float) -> None:
        """Take lanes out that lost their bus at `lost` and that nothing brings back [s]."""
        device = self.device
        if device.restarts:
            return
        self.held[at] = np.minimum(self.held[at], lost + device.allowance)
        # Accounted lanes go on in the dark, so that what is not served is added up.
        if not self.account:
            self.dead_since[at] = np.where(self.alive[at], now, self.dead_since[at])
            self.alive[at] = False

    def settle(self, at: Ints) -> None:
        """Work out what is on and which thresholds come next in some lanes."""
        device = self.device
        up = self.up[at]
        self.on[0, at] = up
        low = np.where(up, device.floor[at], -np.inf)
        high = np.full(at.size, np.inf)
        for k in range(device.classes - 1):
            kept = self.kept[k, at]
            self.on[k + 1, at] = up & kept
            low = np.where(up & kept, np.maximum(low, device.leave[k, at]), low)
            high = np.where(up & ~kept, np.minimum(high, device.back[k, at]), high)
        engine = device.generator
        if engine is not None:
            running = self.running[at]
            low = np.where(up & ~running, np.maximum(low, engine.start[at]), low)
            high = np.where(running, np.minimum(high, engine.stop[at]), high)
        self.reach_low[at] = low - device.tolerance[at]
        self.next_high[at] = high

    def run(self, lanes: tuple[int, ...], horizon: float) -> StepsRun:
        """Return what happened, in the shape of the lanes."""

        def shaped(values: NDArray[np.float64]) -> Floats:
            return values.reshape(*values.shape[:-1], *lanes)

        gone = np.isfinite(self.dead_since) & ~self.alive
        dark = self.dark + np.where(gone, horizon - np.where(gone, self.dead_since, 0.0), 0.0)
        held = np.where(self.held < horizon, self.held, np.inf)
        sums = {name: shaped(values) for name, values in self.sums.items()}
        return StepsRun(
            held=shaped(held),
            first_loss=shaped(self.first_loss),
            tier_off=shaped(self.off),
            limited=shaped(self.limited),
            overload=shaped(self.overload),
            dark_time=shaped(dark),
            restarts=self.restarts.reshape(lanes),
            end_energy=shaped(self.energy),
            generator_starts=self.starts.reshape(lanes),
            refills_used=shaped(
                np.zeros(self.refills.size)
                if self.device.generator is None
                else self.device.generator.refills - self.refills
            ),
            trace=self.trace,
            **sums,
        )


#: Sums that are kept where a run is accounted for.
SUMS = (
    "served",
    "unserved",
    "source_used",
    "refused",
    "lost_source",
    "conversion_loss",
    "generator_energy",
    "generator_time",
    "fuel_used",
)
