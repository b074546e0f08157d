"""Readings that no home has, or hardly any: which are left out, which stay and are named.

All thresholds are common practice, no source; each is on the side that leaves the load high.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.load_profile.readings import HOUR, J_PER_KWH, Mask, Readings

#: Mean power that no home's service carries, above 400 A at 240 V [W].
BEYOND_SERVICE_W = 100_000.0
#: A spike is this many times the 99th percentile, and above this power [W].
_SPIKE_TIMES = 10.0
_SPIKE_W = 5_000.0
#: A home that draws nothing at all for longer has no meter on its load, or no power [s].
_ZERO_RUN = 3 * HOUR
#: Energy sent to the grid that counts as a source behind the meter, as a share of that drawn.
_SENT_SHARE = 0.001


class Doubtful(NamedTuple):
    """The doubtful readings of one kind, and whether they stay in the data."""

    kind: str
    which: Mask
    stays: bool


def is_net(drawn: Readings, sent: Readings) -> bool:
    """Return whether the meter nets a source of the home: energy flows back to the grid.

    Notes
    -----
    Source: own rule, common practice: more than 0.1 % of the energy drawn [J] is sent.
    """
    back = float(-drawn.energy[drawn.energy < 0.0].sum()) + float(sent.energy.sum())
    taken = float(drawn.energy[drawn.energy > 0.0].sum())
    return back > _SENT_SHARE * taken


def sums(drawn: Readings, sent: Readings) -> tuple[float, float]:
    """Return the energy drawn from the grid and the energy sent to it [kWh]. Source: addition."""
    taken = float(drawn.energy[drawn.energy > 0.0].sum())
    back = float(-drawn.energy[drawn.energy < 0.0].sum()) + float(sent.energy.sum())
    return taken / J_PER_KWH, back / J_PER_KWH


def doubtful(made: Readings, *, net: bool) -> list[Doubtful]:
    """Return the doubtful readings by kind; those of power beyond any service first.

    Parameters
    ----------
    made : Readings
        Without overlaps, in order of time.
    net : bool
        Whether the meter nets a source: then nothing drawn, or less than nothing, is no doubt.

    Notes
    -----
    Source: own thresholds [W], common practice.
    """
    power = made.power
    beyond = np.abs(power) > BEYOND_SERVICE_W
    found = [Doubtful("beyond-service", beyond, stays=False)]
    if not net:
        found.append(Doubtful("negative", (power < 0.0) & ~beyond, stays=False))
        found.append(Doubtful("zero-run", _zero_runs(made), stays=False))
    usual = power[~beyond]
    if len(usual):
        limit = max(_SPIKE_W, _SPIKE_TIMES * float(np.percentile(usual, 99)))
        found.append(Doubtful("spike", (power > limit) & ~beyond, stays=True))
    return [one for one in found if one.which.any()]


def _zero_runs(made: Readings) -> Mask:
    """Return the readings in unbroken runs of nothing that are long enough to doubt."""
    zero: Mask = made.energy == 0.0
    broken = np.append(True, made.start[1:] != made.end[:-1])
    begins = zero & (broken | np.append(True, ~zero[:-1]))
    run = np.cumsum(begins) - 1
    if not zero.any():
        return zero
    lasting = np.bincount(run[zero], weights=made.length[zero])
    long_enough: Mask = lasting[np.maximum(run, 0)] >= _ZERO_RUN
    return zero & long_enough
