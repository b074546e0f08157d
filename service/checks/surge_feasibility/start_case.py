"""One start a lane: the motor, what it drives, what feeds it, what runs beside it."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.motor_load import MotorLoad

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]


class StartCase(NamedTuple):
    """Starts of single-phase motors, one a lane; every member has L lanes, ratings K steps.

    Attributes
    ----------
    rated_volts, locked_amps, rated_amps : ndarray, shape (L,)
        Of the motor [V, A].
    locked_power_factor, rated_power_factor, rated_slip : ndarray, shape (L,)
        Of the motor [1].
    poles : ndarray, shape (L,)
        Of the motor.
    locked_torque : ndarray, shape (L,)
        Torque at standstill and rated volts, in parts of rated torque [1].
    start_winding_out : ndarray, shape (L,)
        Speed at which the start winding helps no more [1].
    inertia : ndarray, shape (L,)
        Inertia constant on the running input [s].
    efficiency : ndarray, shape (L,)
        Shaft power by input at rated torque [1].
    load : MotorLoad
        What it drives.
    source_volts : ndarray, shape (L,)
        Without load [V].
    source_impedance, circuit_impedance : ndarray of complex, shape (L,)
        Of the source, and of the conductors to the motor and back [ohm].
    rating_seconds, rating_amps : ndarray, shape (L, K)
        Amps that hold until so long after the start; falling, the last until infinity [s, A].
    beside_impedance, beside_power : ndarray of complex, shape (L,)
        Loads that run already, of constant impedance and power, at source volts [W + j var].
    beside_watts : ndarray, shape (L,)
        Power of everything beside it, on both legs [W].
    corner_impedance, corner_power, corner_watts : ndarray, shape (L, 3)
        The same at the pessimistic and at the optimistic corner, and at the pessimistic one with
        the loads of unknown leg spread as usual [W + j var], [W].
    soft_current : ndarray, shape (L,)
        Share of the locked-rotor amps that a soft starter lets through [1]; infinite: none.
    soft_boost, soft_ramp : ndarray, shape (L,)
        Torque its start capacitor adds [1], and when it lets go [s].
    start_limit : ndarray, shape (L,)
        Time a start may take [s].
    wire_credit : ndarray of bool, shape (L,)
        Whether a wire may help by holding current down; otherwise the worse of it and none counts.
    """

    rated_volts: Floats
    locked_amps: Floats
    rated_amps: Floats
    locked_power_factor: Floats
    rated_power_factor: Floats
    rated_slip: Floats
    poles: Floats
    locked_torque: Floats
    start_winding_out: Floats
    inertia: Floats
    efficiency: Floats
    load: MotorLoad
    source_volts: Floats
    source_impedance: Complexes
    circuit_impedance: Complexes
    rating_seconds: Floats
    rating_amps: Floats
    beside_impedance: Complexes
    beside_power: Complexes
    beside_watts: Floats
    corner_impedance: Complexes
    corner_power: Complexes
    corner_watts: Floats
    soft_current: Floats
    soft_boost: Floats
    soft_ramp: Floats
    start_limit: Floats
    wire_credit: NDArray[np.bool_]


def unlimited(case: StartCase) -> StartCase:
    """Return the same starts on a source without a ceiling [A].

    Notes
    -----
    Source: derived.
    """
    none = np.full_like(case.rating_amps, np.inf)
    return case._replace(rating_seconds=none, rating_amps=none)


def beside(*cases: StartCase) -> StartCase:
    """Return the lanes of some cases one after another [V, A, ohm, s].

    Notes
    -----
    Source: derived.
    """
    loads = MotorLoad._make(np.concatenate(m) for m in zip(*(c.load for c in cases), strict=True))
    members = {
        name: np.concatenate([getattr(case, name) for case in cases])
        for name in StartCase._fields
        if name != "load"
    }
    return StartCase(load=loads, **members)


def some_lanes(case: StartCase, lanes: NDArray[np.int64]) -> StartCase:
    """Return some lanes of the starts [V, A, ohm, s].

    Notes
    -----
    Source: derived.
    """
    members = {name: getattr(case, name)[lanes] for name in StartCase._fields if name != "load"}
    return StartCase(load=MotorLoad._make(member[lanes] for member in case.load), **members)


def same_lanes(
    case: StartCase, others: Sequence[Floats]
) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Return the first of each kind of lane, and which of those every lane is like.

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,) [V, A, ohm, s].
    others : sequence of ndarray, shape (L,)
        What else tells lanes apart [1].

    Returns
    -------
    tuple of ndarray
        Places of the U lanes that differ, shape (U,), and the place among them of each, shape (L,).

    Notes
    -----
    Source: derived.
    """
    columns: list[Floats] = [*case.load, *others]
    for name in StartCase._fields:
        if name != "load":
            member = getattr(case, name)
            parts = [member.real, member.imag] if np.iscomplexobj(member) else [member]
            columns += [part.T for part in parts]
    rows = np.ascontiguousarray(np.vstack(columns).T)
    # Zeros of both signs are one, and a row is told by its bytes.
    keys = (rows + 0.0).view(np.dtype((np.void, rows.dtype.itemsize * rows.shape[1]))).ravel()
    _, first, place = np.unique(keys, return_index=True, return_inverse=True)
    return first, place
