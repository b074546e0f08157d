"""How far each size reaches: the greatest length at which it still meets the target of drop."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import TOLERANCE

Floats = NDArray[np.float64]
Bools = NDArray[np.bool_]


class DistanceBreaks(NamedTuple):
    """Lengths up to which sizes serve.

    Attributes
    ----------
    reach : ndarray, shape (L, N)
        Greatest length of each size, one way, rounded down [m]; 0 where another constraint rules
        it out, infinite where nothing drops.
    up_to : ndarray, shape (L, N)
        Greatest length served by this size or a smaller one [m]; never falls with size. The
        smallest size for a length is the first that reaches it.
    """

    reach: Floats
    up_to: Floats


def distance_breaks(
    volts: ArrayLike,
    volts_at_load: ArrayLike,
    limit: ArrayLike,
    along: Floats,
    across: Floats,
    usable: Bools,
    step: float = 0.3048,
) -> DistanceBreaks:
    """Return the reach of every size, in closed form.

    Parameters
    ----------
    volts : array_like, broadcastable to shape (L, 1)
        At the end whose voltage is known [V].
    volts_at_load : array_like of bool, broadcastable to shape (L, 1)
        Whether that is the receiving end, as for a source that feeds into a service.
    limit : array_like, broadcastable to shape (L, 1)
        Most volts between both ends [V]; less than `volts` where those are at the sending end.
        Nothing meets a negative one.
    along, across : ndarray, shape (L, N)
        Drop in phase with the receiving end and across it for each metre [V/m].
    usable : ndarray of bool, shape (L, N)
        Whether a size meets every constraint that does not depend on length.
    step : float, optional
        Lengths are whole multiples of it, 1 ft by default [m].

    Returns
    -------
    DistanceBreaks

    Notes
    -----
    With W the receiving voltage at the limit D and the length l, ``(W + along l)^2 + (across l)^2 =
    (W + D)^2`` has one positive root. `usable` holds for every length: see
    `usable_at_any_length`.
    Source: derived, Kirchhoff's voltage law for phasors.
    """
    most = np.maximum(np.asarray(limit, np.float64), 0.0)
    receiving = np.asarray(volts, np.float64) - np.where(volts_at_load, 0.0, most)
    a, half = along**2 + across**2, receiving * along
    c = (2 * receiving + most) * most
    root = np.sqrt(half**2 + a * c)
    # Each form divides by a sum that cannot cancel; with neither drop nor limit nothing ends it.
    with np.errstate(divide="ignore", invalid="ignore"):
        length = np.where(half >= 0, c / (half + root), (root - half) / a)
    length = np.where(a == 0, np.inf, length)
    whole = np.floor((length + TOLERANCE["length"]) / step) * step
    can = usable & ~np.isnan(whole) & (np.asarray(limit) >= 0)
    reach = np.where(can, whole, 0.0)
    return DistanceBreaks(reach, np.maximum.accumulate(reach, axis=1))
