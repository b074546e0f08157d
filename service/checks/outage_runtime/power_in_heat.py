"""How the running power stands on the hottest days, when heat leaves a part of the units' power."""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.battery_parameters import pick, power_factor_of_heat
from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.verdict import (
    CONDITIONAL,
    FAIL,
    PASS,
    UNDETERMINED,
    power_verdicts,
)
from service.quantities.units import si

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
_WINTER = 1


def parts_left(request: OutageRuntimeRequest) -> tuple[float, float, float] | None:
    """Return the parts of the power that is counted otherwise: high, low and worst end [1].

    Notes
    -----
    Air at the unit that was stated takes power off already: of two counts of one heat the lesser
    part is left. None where no heat was stated. Source: derived.
    """
    heat = request.heat_derating
    if heat is None:
        return None
    kelvin = si(pick(request.battery.ambient, "ambient_degf").value, "degF")
    counted = float(power_factor_of_heat(kelvin))
    ends = (heat.power_percent_high, heat.power_percent_low, heat.worst)
    high, low, worst = (min(end / 100.0, counted) / counted for end in ends)
    return high, low, worst


def heat_ranks(
    request: OutageRuntimeRequest, one: Floats, total: Floats, limit: Floats, season: Ints
) -> Ints:
    """Return the verdicts of the running power on the hottest days.

    Parameters
    ----------
    request : OutageRuntimeRequest
    one, total : ndarray, shape (2, N, 3)
        As `power_verdicts` takes them [W].
    limit : ndarray, shape (2, N)
        Continuous power of all units before the heat [W].
    season : ndarray of int, shape (2,)
        0 summer, 1 winter: in winter heat takes nothing.

    Returns
    -------
    ndarray of int, shape (2, N)

    Notes
    -----
    ``fail``: not carried at the high end of the estimate either. ``undetermined``: not at its low
    end. A worst end that is worse makes it ``conditional`` at best. Source: derived, the words of
    the heat check.
    """
    parts = parts_left(request)
    if parts is None:
        return np.full(limit.shape, PASS)
    high, low, worst = (power_verdicts(one, total, limit * part) for part in parts)
    within = np.where(low == FAIL, UNDETERMINED, np.minimum(high, low))
    found = np.where(high == FAIL, FAIL, within)
    found = np.where(worst < found, np.minimum(found, CONDITIONAL), found)
    return np.asarray(np.where((season == _WINTER)[:, None], PASS, found))
