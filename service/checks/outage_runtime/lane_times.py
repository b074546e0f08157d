"""What happens in every lane: straight down, or through the outage engine under load control."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.lane_inputs import LaneInputs
from service.physics.outage_engine import simulate_outage
from service.physics.outage_run import OutageRun
from service.physics.run_down import run_down

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class LaneTimes:
    """What happened in N lanes; times [s] are infinite where it never did, energies [J].

    ``overload`` is when what cannot be shed asks for more than the inverter carries.
    """

    down: Floats
    overload: Floats
    limited: Floats
    normal_off: Floats
    comfort_off: Floats
    served: Floats
    loss: Floats
    end_energy: Floats


def run_lanes(inputs: LaneInputs) -> LaneTimes:
    """Run every lane: those with load control through the engine, the others straight down.

    Notes
    -----
    Times [s], energies [J]. Without load control nothing is shed by itself: every kept tier hangs
    on the bus like the critical one. Source: the step rule of the outage engine.
    """
    found = LaneTimes(*(np.full(inputs.case.size, np.inf) for _ in LaneTimes.__slots__))
    for at, run in (
        (np.flatnonzero(~inputs.controlled), _straight_down),
        (np.flatnonzero(inputs.controlled), _by_engine),
    ):
        if at.size:
            part = run(inputs, at)
            for name in LaneTimes.__slots__:
                getattr(found, name)[at] = getattr(part, name)
    return found


def _straight_down(inputs: LaneInputs, at: Ints) -> LaneTimes:
    load = inputs.tiers(at).sum(axis=1)
    walks = inputs.walk_of[at]
    run = run_down(
        duration=inputs.duration[:, walks],
        load=load[np.arange(at.size), inputs.interval[:, walks]],
        capacity=inputs.cell("capacity", at),
        start_energy=inputs.cell("start", at),
        floor=inputs.cell("floor", at),
        fixed=inputs.cell("fixed", at),
        linear=inputs.cell("linear", at),
        square=inputs.cell("square", at),
        limit=inputs.cell("limit", at),
    )
    never = np.full(at.size, np.inf)
    return LaneTimes(
        down=run.down,
        overload=run.limited,
        limited=run.limited,
        normal_off=never,
        comfort_off=never,
        served=run.served,
        loss=run.loss,
        end_energy=run.end_energy,
    )


def _by_engine(inputs: LaneInputs, at: Ints) -> LaneTimes:
    run = engine_run(inputs, at)

    def first(time: Floats, seen: NDArray[np.bool_]) -> Floats:
        return np.where(seen, time, np.inf)

    off = first(run.tier_first_off, run.tier_first_off_seen)
    return LaneTimes(
        down=first(run.first_down, run.first_down_seen),
        overload=first(run.first_overload, run.overload),
        limited=first(run.first_power_limit, run.first_power_limit_seen),
        normal_off=off[0],
        comfort_off=off[1],
        served=run.served.sum(axis=0),
        loss=run.conversion_loss,
        end_energy=run.end_energy,
    )


def engine_run(inputs: LaneInputs, at: Ints, trace: bool = False) -> OutageRun:
    """Run some lanes through the outage engine.

    Parameters
    ----------
    inputs : LaneInputs
        Of all lanes [s, W, J].
    at : ndarray of int, shape (N,)
        Which lanes, in the flat order.
    trace : bool
        Whether the course is recorded.

    Notes
    -----
    Source: the step rule of the outage engine.
    """
    tiers = inputs.tiers(at)
    plain = ~inputs.controlled[at]
    tiers[plain, 0] = tiers[plain].sum(axis=1)
    tiers[plain, 1:] = 0.0
    walks = inputs.walk_of[at]
    load = tiers[np.arange(at.size)[None, :], :, inputs.interval[:, walks]]
    floor = inputs.cell("floor", at)
    shed = np.where(plain, floor, inputs.shed[:, at])
    back = np.where(plain, inputs.cell("capacity", at), inputs.back[at])
    return simulate_outage(
        duration=inputs.duration[:, walks],
        load=load.transpose(0, 2, 1),
        capacity=inputs.cell("capacity", at),
        start_energy=inputs.cell("start", at),
        floor=floor,
        discharge_fixed=inputs.cell("fixed", at),
        discharge_linear=inputs.cell("linear", at),
        discharge_square=inputs.cell("square", at),
        charge_efficiency=inputs.cell("efficiency", at),
        discharge_limit=inputs.cell("limit", at),
        charge_limit=inputs.cell("charge", at),
        shed_at=shed,
        restore_at=shed + back,
        power_limit_rule=inputs.proportional[at].astype(np.int64),
        trace=trace,
    )
