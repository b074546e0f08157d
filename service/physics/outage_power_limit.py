"""What the inverter drops when the loads ask for more than it carries."""

from typing import Final

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]

POWER_TOLERANCE: Final = 1e-6
"""Power by which a load may pass the limit through rounding of sums alone [W] (own choice)."""


def add_classes(power: Floats, total: Floats) -> None:
    """Sum power over the classes, always in the same order, however many lanes there are.

    Parameters
    ----------
    power : ndarray, shape (K, N)
        Power by class [W].
    total : ndarray, shape (N,)
        Receives the sum [W].

    Notes
    -----
    Source: arithmetic.
    """
    if len(power) == 1:
        np.copyto(total, power[0])
        return
    np.add(power[0], power[1], out=total)
    for row in power[2:]:
        np.add(total, row, out=total)


def apply_power_limit(
    limited: Flags,
    sheds_tiers: Flags,
    wanted: Floats,
    total: Floats,
    net: Floats,
    supply: Floats | None,
    limit: Floats,
) -> Flags:
    """Reduce the served power of the limited lanes, in place.

    Parameters
    ----------
    limited : ndarray of bool, shape (N,)
        Lanes whose net demand passes the limit.
    sheds_tiers : ndarray of bool, shape (N,)
        True: whole tiers go, the last class first, until the rest fits; what critical load alone
        asks for beyond the limit is not served. False: every class is served in proportion.
    wanted : ndarray, shape (K, N)
        Power asked for by the classes that are on [W]; becomes the power served.
    total, net : ndarray, shape (N,)
        Sum of `wanted`, and that less the supply [W]; kept up to date.
    supply : ndarray, shape (N,), or None
        Power of source and generator [W]; None where there is neither.
    limit : ndarray, shape (N,)
        Continuous AC power of the inverters [W].

    Returns
    -------
    ndarray of bool, shape (K-1, N)
        Tiers with load that were dropped whole.

    Notes
    -----
    Source: common practice, no published source. Dropped tiers are back as soon as they fit.
    """
    dropped = np.zeros((wanted.shape[0] - 1, wanted.shape[1]), dtype=np.bool_)
    over = limited & sheds_tiers
    for k in range(wanted.shape[0] - 1, 0, -1):
        np.greater(wanted[k], 0.0, out=dropped[k - 1])
        dropped[k - 1] &= over
        np.copyto(wanted[k], 0.0, where=over)
        add_classes(wanted, total)
        np.copyto(net, total if supply is None else total - supply)
        over &= net > limit + POWER_TOLERANCE
    over |= limited & ~sheds_tiers
    if np.count_nonzero(over):
        carried = limit if supply is None else limit + supply
        share = np.divide(carried, total, out=np.ones_like(total), where=over)
        np.multiply(wanted, share, out=wanted)
        np.copyto(total, carried, where=over)
        np.copyto(net, limit, where=over)
    return dropped
