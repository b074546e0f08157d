"""The bus of an inverter beside a motor: volts and amps, with a ceiling that folds volts back."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Complexes = NDArray[np.complex128]
Bools = NDArray[np.bool_]

#: Under this part of the source's volts a load of constant power becomes one of constant impedance,
#: as its own electronics let go. Standing: derived, our choice.
_POWER_FLOOR = 0.3
_NEWTON_STEPS = 40
#: Volts that differ by less are the same [1]: rounding of a root.
_SAME_VOLTS = 1e-9
#: Step, by the volts, from which on nothing moves any more [1].
_NEWTON_DONE = 1e-15


class Bus(NamedTuple):
    """A bus solved for each point.

    Attributes
    ----------
    volts : ndarray
        At the bus [V].
    amps, motor_amps : ndarray
        Of the source, and of the motor among them [A].
    over : ndarray
        How far an unlimited source would go beyond the ceiling [A]; above 0 the ceiling binds.
    solved : ndarray of bool
        False where no voltage was found.
    """

    volts: Floats
    amps: Floats
    motor_amps: Floats
    over: Floats
    solved: Bools


class Beside(NamedTuple):
    """What hangs on the bus beside the motor; every member broadcasts against the points.

    Attributes
    ----------
    impedance_va, power_va : ndarray of complex
        Load of constant impedance and of constant power, at the source's volts [W + j var].
    """

    impedance_va: Complexes
    power_va: Complexes


def bus_voltage(
    source_volts: Floats,
    source_impedance: Complexes,
    ceiling: Floats,
    motor: Complexes,
    beside: Beside,
    soft_limit: Floats,
) -> Bus:
    """Solve the bus of a source, a motor and what hangs beside it.

    Parameters
    ----------
    source_volts : ndarray
        Volts of the source without load [V].
    source_impedance : ndarray of complex
        Behind them [ohm].
    ceiling : ndarray
        Most amps of the source [A]; infinite: none.
    motor : ndarray of complex
        Admittance of the motor behind its conductors, as the bus sees it [S].
    beside : Beside
        The other loads.
    soft_limit : ndarray
        Most amps a soft starter lets the motor take [A]; infinite: none.

    Returns
    -------
    Bus

    Notes
    -----
    The load draws ``I(V) = y V + c + conj(S) / V``: admittances, the throttled motor, constant
    power. The source gives ``|V + Z I| = E``, or ``|I| = ceiling`` where that asks for less. Both
    read ``|a2 V^2 + a1 V + a0| = r V``, whose largest root is the working point: quadratic in V^2
    without c, in V without S, otherwise found by Newton's method from above.
    Source: derived, Kirchhoff's laws for phasors.
    """
    shape = np.broadcast_shapes(*(np.shape(a) for a in (source_volts, ceiling, motor, soft_limit)))
    points = _Points(
        *(
            np.broadcast_to(a, shape)
            for a in (
                source_volts,
                source_impedance,
                ceiling,
                motor,
                np.conj(beside.impedance_va) / source_volts**2,
                np.conj(beside.power_va),
            )
        )
    )
    none = np.zeros(shape, complex)
    free = _solve(points, points.motor + points.beside, none)
    throttled = free.volts * np.abs(motor) > soft_limit
    if not throttled.any():
        return free._replace(motor_amps=free.volts * np.abs(motor))
    # Only the rows that a soft starter throttles somewhere are solved again.
    rows = np.flatnonzero(throttled.reshape(len(throttled), -1).any(axis=1))
    some = _Points._make(member[rows] for member in points)
    holds = throttled[rows]
    limit = np.broadcast_to(soft_limit, shape)[rows]
    held = np.where(holds, np.minimum(limit, 1e9), 0.0) * np.exp(1j * np.angle(some.motor))
    y = np.where(holds, some.beside, some.motor + some.beside)
    again = _solve(some, y, held)
    amps = np.where(holds, np.abs(held), again.volts * np.abs(some.motor))
    found = free._replace(motor_amps=free.volts * np.abs(motor))
    for member, other in zip(found, again._replace(motor_amps=amps), strict=True):
        member[rows] = other
    return found


class _Points(NamedTuple):
    e: Floats
    z: Complexes
    ceiling: Floats
    motor: Complexes
    beside: Complexes
    power: Complexes


def _solve(points: _Points, y: Complexes, held: Complexes) -> Bus:
    """Return the bus for admittances `y` and a held current, with and without constant power."""
    found = _limited(points, y, held, points.power)
    if not np.any(points.power):
        return found
    low = ~(found.volts >= _POWER_FLOOR * points.e)
    as_impedance = points.power / (_POWER_FLOOR * points.e) ** 2
    other = _limited(points, y + as_impedance, held, np.zeros_like(points.power))
    return Bus(*(np.where(low, b, a) for a, b in zip(found, other, strict=True)))


def _limited(points: _Points, y: Complexes, held: Complexes, power: Complexes) -> Bus:
    """Return the bus of the unlimited source, or of its ceiling where that binds."""
    volts = _largest_root(1 + points.z * y, points.z * held, points.z * power, points.e)
    with_power = power / np.where(volts > 0, volts, 1.0)
    amps = np.abs(y * volts + held + with_power)
    binds = ~(amps <= points.ceiling)
    # Without a ceiling nothing goes beyond it, and an infinite distance could not be interpolated.
    endless = np.isinf(points.ceiling)
    ceiling = np.where(endless, 0.0, points.ceiling)
    over = np.where(endless, -1.0, np.where(np.isfinite(volts), amps, np.inf) - ceiling)
    if binds.any():
        folded = _largest_root(y, held, power, points.ceiling)
        # A root that asks for more volts than the source has is none: the load lets go instead.
        given = y * folded + held + power / np.where(folded > 0, folded, 1.0)
        reached = np.abs(folded + points.z * given) <= points.e * (1 + _SAME_VOLTS)
        folded = np.where(reached, folded, np.nan)
        volts = np.where(binds, folded, volts)
        amps = np.where(binds, points.ceiling, amps)
    solved = np.isfinite(volts)
    volts = np.where(solved, volts, 0.0)
    return Bus(volts, amps, np.zeros_like(amps), over, solved)


def _largest_root(a2: Complexes, a1: Complexes, a0: Complexes, r: Floats) -> Floats:
    """Return the largest V > 0 with ``|a2 V^2 + a1 V + a0| = r V``, NaN where there is none."""
    if not np.any(a1) and not np.any(a0):
        return np.asarray(r / np.abs(a2))
    four, zero = _square(a2), _square(a0)
    two = 2 * (a2 * np.conj(a0)).real + _square(a1) - r**2
    if not np.any(a1):
        return np.sqrt(_upper(four, two, zero))
    three = 2 * (a2 * np.conj(a1)).real
    quadratic = _upper(four, three, _square(a1) - r**2)
    found = np.where(quadratic > 0, quadratic, np.nan)
    if not np.any(a0):
        return found
    found = np.where(a1 == 0, np.sqrt(_upper(four, two, zero)), found)
    mixed = (a1 != 0) & (a0 != 0)
    if mixed.any():
        one = 2 * (a1 * np.conj(a0)).real
        quartic = np.stack([member[mixed] for member in (four, three, two, one, zero)])
        found[mixed] = _newton(quartic, (r / np.abs(a2))[mixed])
    return found


def _square(a: Complexes) -> Floats:
    return np.asarray(a.real**2 + a.imag**2)


def _upper(a: Floats, b: Floats, c: Floats) -> Floats:
    """Return the larger root of ``a x^2 + b x + c``, NaN where it is not real."""
    return np.asarray((-b + np.sqrt(b**2 - 4 * a * c)) / (2 * a))


def _newton(polynomial: Floats, start: Floats) -> Floats:
    """Return the root that Newton's method meets from above, NaN where it meets none."""
    slope = polynomial[:-1] * np.arange(4, 0, -1).reshape(4, *[1] * start.ndim)
    volts = 2.0 * start
    for _ in range(_NEWTON_STEPS):
        step = _horner(polynomial, volts) / _horner(slope, volts)
        volts = volts - step
        if not (np.abs(step) > _NEWTON_DONE * np.abs(volts)).any():
            break
    size = _horner(np.abs(polynomial), np.abs(volts))
    met = (np.abs(_horner(polynomial, volts)) < 1e-9 * size) & (volts > 0)
    return np.where(met, volts, np.nan)


def _horner(polynomial: Floats, x: Floats) -> Floats:
    value = polynomial[0]
    for coefficient in polynomial[1:]:
        value = value * x + coefficient
    return np.asarray(value)
