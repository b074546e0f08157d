"""Many outages that share their steps: time is the outer loop, events are still exact."""

from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.physics.generator_run import GeneratorRun
from service.physics.outage_engine import SHED_TIERS
from service.physics.outage_steps_home import (
    Homes,
    Powers,
    generating,
    restarting,
    storage,
    thresholds,
)
from service.physics.outage_steps_march import March
from service.physics.outage_steps_run import StepsRestart, StepsRun

__all__ = ["GeneratorRun", "StepsRestart", "StepsRun", "step_outages"]

Floats = NDArray[np.float64]

_NO_RESTART = StepsRestart()


def step_outages(
    *,
    duration: ArrayLike,
    load: ArrayLike | Sequence[Floats],
    source: ArrayLike | Sequence[Floats] | None = None,
    dc_source: ArrayLike | Sequence[Floats] | None = None,
    load_scale: ArrayLike | None = None,
    source_scale: ArrayLike | None = None,
    dc_source_scale: ArrayLike | None = None,
    capacity: ArrayLike,
    start_energy: ArrayLike,
    floor: ArrayLike,
    discharge_fixed: ArrayLike,
    discharge_linear: ArrayLike,
    discharge_square: ArrayLike,
    charge_efficiency: ArrayLike,
    dc_charge_efficiency: ArrayLike = 1.0,
    discharge_limit: ArrayLike,
    charge_limit: ArrayLike,
    shed_at: ArrayLike | None = None,
    restore_at: ArrayLike | None = None,
    power_limit_rule: ArrayLike = SHED_TIERS,
    restart: StepsRestart = _NO_RESTART,
    generator: GeneratorRun | None = None,
    allowance: ArrayLike = 0.0,
    stop_when_lost: bool = False,
    account: bool = False,
    trace: list[Floats] | None = None,
) -> StepsRun:
    """Follow stored energy, bus, tiers and generator of many lanes through the same steps.

    The rule is that of `outage_engine.simulate_outage`, and so are its event times; all lanes go
    through a step together, and only those that meet an event in it are followed one by one.

    Parameters
    ----------
    duration : array_like, shape (T,)
        Length of the steps [s], not negative.
    load : array_like, shape (T, K, *lanes), or list of its T rows
        Power asked for by each class [W]; may be a strided view, and broadcasts to the lanes. A
        list is not copied: its rows have the full shape and may stand in it more than once.
        Class 0 is critical, the last one has the lowest priority.
    source, dc_source : array_like, shape (T, *lanes), or list of its T rows, optional
        AC power of a source on the bus, and DC power of one on the cells' side [W].
    load_scale, source_scale, dc_source_scale : array_like, optional
        Factors by lane on those powers [1].
    capacity, start_energy, floor : array_like
        Energy of the full battery, at the start, and at which the bus is lost [J].
    discharge_fixed, discharge_linear, discharge_square : array_like
        Draw on the cells at AC power d out: fixed [W] + linear [1] * d + square [1/W] * d**2.
    charge_efficiency, dc_charge_efficiency : array_like
        Stored energy per AC energy, in (0, 1], and per DC energy, in [0, 1], taken to charge [1].
    discharge_limit : array_like
        Largest AC power out [W].
    charge_limit : array_like
        Largest AC power in, and largest rate of stored energy where DC sun charges [W].
    shed_at, restore_at : array_like, shape (K-1, *lanes), optional
        Energy at which a tier is shed, and is back [J], as in the engine.
    power_limit_rule : array_like of int
        0: above the limit whole tiers go. 1: every class is served in proportion.
    restart : StepsRestart
        How the bus comes back without a generator.
    generator : GeneratorRun, optional
        A generator, and when it runs.
    allowance : array_like
        Time without a bus that is tolerated [s].
    stop_when_lost : bool
        Whether a lane is left as it is once its allowance is exceeded; its energies, its time
        without a bus and what it would have met later are then those up to the end of that step.
        Not heeded where energies are added up.
    account : bool
        Whether to add up energies. With DC sun or a generator that takes many times as long.
    trace : list, optional
        Receives the stored energy of all lanes at the end of every step, flat [J].

    Returns
    -------
    StepsRun
        Times [s] and energies [J] in the shape of the lanes.

    Raises
    ------
    EventBudgetExceeded
        Never for arguments in the stated ranges.

    Notes
    -----
    Arguments are not checked. Everything but `duration` broadcasts to the lanes, which have one
    axis at least.

    DC sun first carries what the inverter draws from the cells; what is left is stored at
    `dc_charge_efficiency` within the charge limit, after what the AC side charges. It never lifts
    the discharge limit. A full battery refuses DC sun first.

    While the generator runs it forms the bus: the AC source is off, the load beyond its power is
    drawn from the battery within the discharge limit, and what it has left charges. A dark bus
    comes back at once where the generator may run and carries the critical load, the tiers still on
    and the fixed draw.

    Lanes with a running generator are followed in every step, and so is every lane where energies
    are added up and there is DC sun or a generator: that costs many times the step without.

    References
    ----------
    Energy balance and order of events: derived here; the rules at the thresholds: common practice,
    no published source.
    """
    battery = storage(
        capacity=capacity,
        floor=floor,
        fixed=discharge_fixed,
        linear=discharge_linear,
        square=discharge_square,
        charge_efficiency=charge_efficiency,
        dc_efficiency=dc_charge_efficiency,
        discharge_limit=discharge_limit,
        charge_limit=charge_limit,
        sheds_tiers=np.asarray(power_limit_rule) == SHED_TIERS,
    )
    battery |= restarting(restart, battery) | generating(generator, battery)
    loads: Any = load if isinstance(load, list) else np.asarray(load, dtype=np.float64)
    rows = [_rows(source), _rows(dc_source)]
    allowed = _allowed(generator)
    scales = (_optional(load_scale), _optional(source_scale), _optional(dc_source_scale))
    levels = [np.shape(level)[1:] for level in (shed_at, restore_at) if level is not None]
    shapes = [value.shape for value in battery.values()] + levels + [loads[0].shape[1:]]
    shapes += [row[0].shape for row in (*rows, allowed) if row is not None]
    shapes += [scale.shape for scale in scales if scale is not None]
    lanes = np.broadcast_shapes((1,), np.shape(start_energy), np.shape(allowance), *shapes)
    classes, rank = len(loads[0]), len(lanes)
    if not isinstance(loads, list):
        loads = loads.reshape(loads.shape[:2] + (1,) * (rank + 2 - loads.ndim) + loads.shape[2:])
    powers = Powers(
        np.asarray(duration, dtype=np.float64), loads, rows[0], rows[1], allowed, scales, lanes
    )
    march = March(
        homes=Homes(lanes, battery),
        bounds=thresholds(shed_at, restore_at, classes - 1, rank, battery),
        powers=powers,
        start_energy=np.asarray(start_energy, dtype=np.float64),
        allowance=np.asarray(allowance, dtype=np.float64),
        stop_when_lost=stop_when_lost,
        account=account,
        trace=trace,
    )
    march.run()
    return march.answer(generator)


def _rows(values: ArrayLike | Sequence[Floats] | None) -> Any:
    """Return the rows of the steps: a list as it is, anything else as an array."""
    if values is None or isinstance(values, list):
        return values
    return np.asarray(values, dtype=np.float64)


def _allowed(generator: GeneratorRun | None) -> Any:
    if generator is None or isinstance(generator.allowed, list):
        return None if generator is None else generator.allowed
    return np.asarray(generator.allowed, dtype=np.bool_)


def _optional(values: ArrayLike | None) -> Floats | None:
    return None if values is None else np.asarray(values, dtype=np.float64)
