"""Course of an outage on a battery: event times are solved, not stepped."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.physics.outage_lanes import Lanes
from service.physics.outage_rounds import Converter, Firsts, Rounds
from service.physics.outage_run import EventBudgetExceeded, OutageRun
from service.physics.outage_schedule import Schedule
from service.physics.outage_sources import SourcedRounds
from service.physics.outage_trace import Trace

__all__ = ["PROPORTIONAL", "SHED_TIERS", "EventBudgetExceeded", "OutageRun", "simulate_outage"]

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

SHED_TIERS = 0
PROPORTIONAL = 1


def simulate_outage(
    *,
    duration: ArrayLike,
    load: ArrayLike,
    source: ArrayLike | None = None,
    generator: ArrayLike | None = None,
    capacity: ArrayLike,
    start_energy: ArrayLike,
    floor: ArrayLike,
    discharge_fixed: ArrayLike,
    discharge_linear: ArrayLike,
    discharge_square: ArrayLike,
    charge_efficiency: ArrayLike,
    discharge_limit: ArrayLike,
    charge_limit: ArrayLike,
    shed_at: ArrayLike | None = None,
    restore_at: ArrayLike | None = None,
    power_limit_rule: ArrayLike = SHED_TIERS,
    black_start_power: ArrayLike | None = None,
    black_start_delay: ArrayLike | None = None,
    generator_excludes_source: bool = True,
    trace: bool = False,
) -> OutageRun:
    """Follow stored energy, bus and tiers of load through an outage, exact in every event time.

    Power is constant within an interval; so is the rate of stored energy between two events, and
    each event time is a division. Use mean powers, which preserve energy.

    Parameters
    ----------
    duration : array_like, shape (T,) or (T, N)
        Length of the intervals [s], not negative, T at least 1.
    load : array_like, shape (T, K, N) or (T, K, 1)
        Power asked for by each class [W], not negative. Class 0 is critical and never shed; the
        last class has the lowest priority.
    source, generator : array_like, shape (T, N) or (T, 1), optional
        AC power of a source on the bus (sun), and AC power that a generator can give [W].
    capacity, start_energy, floor : array_like, shape (N,)
        Energy of the full battery, at the start, and at which the bus is lost [J]; the latter two
        in [0, capacity].
    discharge_fixed, discharge_linear, discharge_square : array_like, shape (N,)
        Draw on the cells at AC power d out: fixed [W] + linear [1] * d + square [1/W] * d**2. The
        fixed draw flows whenever the bus is up. None is negative; linear is above 0.
    charge_efficiency : array_like, shape (N,)
        Stored energy per AC energy taken [1], in (0, 1]. At charging power c the energy rises by
        efficiency * c - fixed.
    discharge_limit, charge_limit : array_like, shape (N,)
        Largest AC power out and in [W], not negative; may be infinite.
    shed_at, restore_at : array_like, shape (K-1, N), optional
        Energy at or below which a tier is shed while discharging, and at or above which it is back
        while charging or held full [J]; shed_at in [floor, capacity], restore_at above it. Absent
        or minus infinity: energy never sheds the tier.
    power_limit_rule : array_like of int, shape (N,), optional
        0: above the limit whole tiers go, the lowest priority first, only while it lasts.
        1: every class is served in proportion.
    black_start_power, black_start_delay : array_like, shape (N,), optional
        Least source power for a black start [W], absent or infinite: none; and how long it must
        have lasted since the bus was lost [s], absent: 0.
    generator_excludes_source : bool, optional
        Whether the source is off while there is generator power.
    trace : bool, optional
        Whether to record every event and interval end; meant for few lanes.

    Returns
    -------
    OutageRun
        Times [s] and energies [J] by lane.

    Raises
    ------
    EventBudgetExceeded
        Never for arguments as above.

    Notes
    -----
    Arguments are not checked: they must be finite where nothing else is said, and in the stated
    ranges. The answer then holds no NaN. What is the same for all lanes may have a last axis of
    length 1, or none.

    A lane starts without bus if its energy is not above the floor, and with tier k on if its energy
    is above `shed_at`. What falls due at one instant: shedding goes before the loss of the bus,
    restoring before standing full, the interval's end before either, among sheds the lowest
    priority, among restores the highest. Tiers are shed and restored one at a time, so that the
    second stays where the first has turned discharge into charge. A tier whose restore level does
    not stand above its shed level stays off once it is off.

    Without bus nothing is served, drawn or stored, and the source is off. The bus comes back when
    what source and generator give covers the critical load, the tiers still on and the fixed draw;
    a source alone must have stood at the least power for the delay, too. Tiers that were shed
    before stay off. A full battery is held full as long as the surplus covers the fixed draw.

    Cost grows with T plus the largest number of events of a lane; with a source that number grows
    as the energy it lifts over the narrowest band from `shed_at` to `restore_at`.

    References
    ----------
    Energy balance and order of events: derived here. Shedding by state of charge with hysteresis,
    loss of the grid-forming inverter at the floor and black start by the source: common practice,
    no published source.
    """
    spans = np.asarray(duration)
    load = np.asarray(load)
    lanes = _count_lanes(
        *(capacity, start_energy, floor, discharge_fixed, discharge_linear, discharge_square),
        *(charge_efficiency, discharge_limit, charge_limit, shed_at, restore_at),
        *(power_limit_rule, black_start_power, black_start_delay, load, source, generator),
        spans if spans.ndim > 1 else None,
    )

    def each(values: ArrayLike) -> Floats:
        return np.broadcast_to(np.asarray(values, dtype=np.float64), (lanes,))

    schedule = Schedule(spans, load, source, generator, lanes, generator_excludes_source)
    tiers = (load.shape[1] - 1, lanes)
    state = Lanes(
        capacity=each(capacity),
        start_energy=each(start_energy),
        floor=each(floor),
        shed_at=_levels(shed_at, -np.inf, tiers),
        restore_at=_levels(restore_at, np.inf, tiers),
        fixed=each(discharge_fixed),
        climbs=schedule.sourced,
    )
    converter = Converter(
        fixed=each(discharge_fixed),
        linear=each(discharge_linear),
        square=each(discharge_square),
        charge_efficiency=each(charge_efficiency),
        discharge_limit=each(discharge_limit),
        charge_limit=each(charge_limit),
        sheds_tiers=np.broadcast_to(np.asarray(power_limit_rule) == SHED_TIERS, (lanes,)),
    )
    record = Trace(state) if trace else None
    if not schedule.sourced:
        alone = Rounds(schedule, state, converter, record)
        alone.run()
        return _answer(alone, None)
    least = each(np.inf if black_start_power is None else black_start_power)
    delay = each(0.0 if black_start_delay is None else black_start_delay)
    sourced = SourcedRounds(schedule, state, converter, record, least, delay)
    sourced.run()
    return _answer(sourced, sourced)


def _count_lanes(*values: ArrayLike | None) -> int:
    """Length of the last axis that the arguments share."""
    widths = [np.shape(one)[-1:] for one in values if one is not None]
    return int(np.broadcast_shapes((1,), *widths)[0])


def _levels(values: ArrayLike | None, absent: float, shape: tuple[int, int]) -> Floats:
    given = absent if values is None else values
    return np.broadcast_to(np.asarray(given, dtype=np.float64), shape)


def _answer(rounds: Rounds, sourced: SourcedRounds | None) -> OutageRun:
    lanes, end = rounds.lanes, rounds.schedule.horizon

    def time(firsts: Firsts) -> Floats:
        return np.where(firsts.seen, firsts.time, end)

    off, drop = time(rounds.first_off), time(rounds.first_drop)
    full = sourced.full if sourced else Firsts(1, len(end))
    trace = rounds.trace
    return OutageRun(
        first_loss=off[0],
        first_loss_seen=rounds.first_off.seen[0],
        tier_first_off=np.minimum(off[1:], drop),
        tier_first_off_seen=rounds.first_off.seen[1:] | rounds.first_drop.seen,
        tier_first_off_energy=off[1:],
        tier_first_off_energy_seen=rounds.first_off.seen[1:],
        tier_first_off_power=drop,
        tier_first_off_power_seen=rounds.first_drop.seen,
        down_time=sourced.down_time if sourced else rounds.dark,
        restarts=lanes.restarts,
        served=rounds.served,
        unserved=rounds.unserved,
        source_used=sourced.source_used if sourced else np.zeros_like(end),
        curtailed=sourced.curtailed if sourced else np.zeros_like(end),
        lost_source=sourced.lost_source if sourced else np.zeros_like(end),
        generator_used=sourced.generator_used if sourced else np.zeros_like(end),
        conversion_loss=rounds.loss,
        end_energy=lanes.energy,
        min_energy=sourced.min_energy if sourced else lanes.energy.copy(),
        power_limited_time=rounds.limited_time,
        first_power_limit=time(rounds.first_limit)[0],
        first_power_limit_seen=rounds.first_limit.seen[0],
        overload=rounds.first_overload.seen[0],
        first_overload=time(rounds.first_overload)[0],
        first_down=time(rounds.first_down)[0],
        first_down_seen=rounds.first_down.seen[0],
        full_first=time(full)[0],
        full_first_seen=full.seen[0],
        end_time=end,
        events=rounds.events,
        rounds=rounds.rounds,
        trace_time=trace.time if trace else [],
        trace_energy=trace.energy if trace else [],
        trace_event=trace.event if trace else [],
        trace_tier=trace.tier if trace else [],
    )
