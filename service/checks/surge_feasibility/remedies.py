"""What might help a motor to start, each as the same start with one thing changed."""

from __future__ import annotations

from typing import Final

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.start_case import StartCase

Floats = NDArray[np.float64]

#: Of a soft starter as its sellers claim it: share of the locked-rotor amps it lets through at
#: worst, torque that its switched start capacitor adds, seconds until it lets go.
#: Standing: common practice, sellers' claims of 0.25 to 0.50; the boost derived.
SOFT_CURRENT, SOFT_BOOST, SOFT_RAMP = 0.50, 3.4, 2.0
#: Of how a maker's word on stacking is read for the shortest ratings. Standing: derived.
UNEQUAL_SHARING: Final = 0.9


#: Place of the usual spread among the corners of what is beside a motor.
_SPREAD: Final = 2


def with_share_beside(case: StartCase, share: Floats | float) -> StartCase:
    """Return the starts with a share of the loads beside them still on [1].

    Notes
    -----
    Source: derived.
    """
    by_corner = np.reshape(share, (-1, 1))
    return case._replace(
        beside_impedance=case.beside_impedance * share,
        beside_power=case.beside_power * share,
        beside_watts=case.beside_watts * share,
        corner_impedance=case.corner_impedance * by_corner,
        corner_power=case.corner_power * by_corner,
        corner_watts=case.corner_watts * by_corner,
    )


def with_beside(case: StartCase, beside: NDArray[np.complex128]) -> StartCase:
    """Return the starts with other loads beside them.

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,) [V, A, ohm, s].
    beside : ndarray of complex, shape (L, 3, 4)
        As `starts.Changes` has it [W + j var].

    Notes
    -----
    Source: derived.
    """
    return case._replace(
        beside_impedance=beside[:, 0, 0],
        beside_power=beside[:, 1, 0],
        beside_watts=beside[:, 2, 0].real,
        corner_impedance=beside[:, 0, 1:],
        corner_power=beside[:, 1, 1:],
        corner_watts=beside[:, 2, 1:].real,
    )


def with_legs_spread(case: StartCase) -> StartCase:
    """Return the starts with the loads of unknown leg spread as usual, at every corner [1].

    Notes
    -----
    Source: derived.
    """
    impedance, power = case.corner_impedance.copy(), case.corner_power.copy()
    impedance[:, 0], power[:, 0] = impedance[:, _SPREAD], power[:, _SPREAD]
    return case._replace(corner_impedance=impedance, corner_power=power)


def with_soft_starter(
    case: StartCase, current: float = SOFT_CURRENT, boost: float = SOFT_BOOST
) -> StartCase:
    """Return the starts through a soft starter, of an equalised machine.

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,) [V, A, ohm, s].
    current : float
        Share of the locked-rotor amps [1].
    boost : float
        What its start capacitor makes of the torque at standstill [1].

    Notes
    -----
    Source: common practice: sellers' claims, not measurements.
    """
    some = np.ones_like(case.rated_volts)
    return equalised(
        case._replace(
            soft_current=some * current, soft_boost=some * boost, soft_ramp=some * SOFT_RAMP
        )
    )


def equalised(case: StartCase) -> StartCase:
    """Return the starts after a delay in which pressures became equal [1].

    Notes
    -----
    Source: derived.
    """
    load = case.load
    return case._replace(load=load._replace(pressure_at_start=np.zeros_like(load.pressure)))


def with_units(case: StartCase, before: Floats, after: Floats, sharing: Floats) -> StartCase:
    """Return the starts on another count of like units.

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,), their source of `before` units [V, A, ohm, s].
    before, after : ndarray, shape (L,)
        Counts [1].
    sharing : ndarray, shape (L,)
        Part of the ratings above continuous that the added units give, by their maker [1].

    Notes
    -----
    Continuous amps go with the count, the impedance against it; of what lies above continuous the
    added units give what the maker says.
    Source: derived.
    """
    more = (after / before)[:, None]
    continuous = case.rating_amps[:, -1:]
    surge = (case.rating_amps - continuous) * (1 + (more - 1) * sharing[:, None])
    return case._replace(
        rating_amps=continuous * more + surge,
        source_impedance=case.source_impedance * before / after,
    )


def with_conductor(case: StartCase, factor: Floats | float) -> StartCase:
    """Return the starts behind other conductors, their impedance times a factor [1].

    Notes
    -----
    Source: derived.
    """
    return case._replace(circuit_impedance=case.circuit_impedance * factor)
