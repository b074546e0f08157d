"""The versions of every start that are tried: as it stands, and each remedy by itself."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from service.checks.surge_feasibility.judged_start import (
    Corners,
    Judged,
    Known,
    judge,
    largest_share_beside,
    words_of,
)
from service.checks.surge_feasibility.nominal_start import VoltageLimits
from service.checks.surge_feasibility.remedies import (
    equalised,
    with_beside,
    with_conductor,
    with_legs_spread,
    with_soft_starter,
    with_units,
)
from service.checks.surge_feasibility.start_case import StartCase
from service.checks.surge_feasibility.start_outcome import COUNTED_FOLDED, LIGHTS_DIP, TRIPS
from service.checks.surge_feasibility.starts import Changes

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Impedance of a wire two sizes larger, as a part [1]: three sizes halve it. Standing: derived, the
#: geometric series of the American wire gauge (ASTM B258).
LARGER_WIRE = 2.0 ** (-2.0 / 3.0)

BARE = "as-it-stands"
SPREAD = "legs-spread"
UNEQUALISED = "not-equalised"
SHED = "others-off"
SEQUENCED = "largest-first"
SOFT = "soft-starter"
SOFT_SHED = "soft-starter-others-off"
UNIT = "one-more-unit"
WIRE = "larger-wire"


class Solved(NamedTuple):
    """Every version of every start.

    Attributes
    ----------
    of : dict
        Version -> words, and the start with its corners.
    share : ndarray
        Part of what runs beside with which a motor starts; below 0: not even alone; NaN: not
        looked for [1].
    beyond : dict
        What the source does beyond its ratings -> words of the start as it stands then.
    """

    of: dict[str, tuple[Judged, Corners]]
    share: Floats
    beyond: dict[int, Ints]

    def lanes(self, lanes: slice) -> Solved:
        """Return some lanes."""
        of = {name: (words.lanes(lanes), c.lanes(lanes)) for name, (words, c) in self.of.items()}
        beyond = {code: words[lanes] for code, words in self.beyond.items()}
        return Solved(of, self.share[lanes], beyond)


def solved(
    case: StartCase, known: Known, limits: VoltageLimits, changes: Changes, *, shown: bool
) -> Solved:
    """Return the versions of some starts: those that are shown too, or the verdict's alone.

    Parameters
    ----------
    case : StartCase
        The starts, shape (L,) [V, A, ohm, s].
    known, limits, changes : Known, VoltageLimits, Changes
        Of them, shape (L,) [A, s, 1].
    shown : bool
        False: no more than what a verdict is made of, as reruns need.

    Returns
    -------
    Solved

    Notes
    -----
    Source: derived.
    """
    # What helps is tried with the circuits of unknown leg spread as usual: the way says so.
    spread = with_legs_spread(case)
    unequalised = equalised(spread)
    unequalised = unequalised._replace(
        load=unequalised.load._replace(pressure_at_start=changes.pressed)
    )
    softened = _softened(spread, changes)
    tried = {
        BARE: case,
        SPREAD: spread,
        SHED: with_legs_spread(with_beside(case, changes.shed)),
        SOFT: softened,
        UNEQUALISED: unequalised,
    }
    share = np.full(len(case.rated_volts), np.nan)
    if not shown:
        return Solved(judge(tried, limits, known), share, {})
    tried |= {
        SEQUENCED: with_legs_spread(with_beside(case, changes.first)),
        SOFT_SHED: with_legs_spread(with_beside(softened, changes.shed)),
        UNIT: with_units(spread, changes.units, changes.units + 1, changes.sharing),
        WIRE: with_conductor(spread, LARGER_WIRE),
    }
    found = judge(tried, limits, known)
    words = {name: judged.word for name, (judged, _) in found.items()}
    open_ = (words[SPREAD] < LIGHTS_DIP) & (words[SHED] >= LIGHTS_DIP)
    if open_.any():
        share = np.where(open_, largest_share_beside(spread, limits, known), np.nan)
    beyond = {
        code: words_of(
            found[BARE][1], limits, known._replace(beyond=np.full_like(known.beyond, code))
        ).word
        for code in (COUNTED_FOLDED, TRIPS)
    }
    return Solved(found, share, beyond)


def _softened(case: StartCase, changes: Changes) -> StartCase:
    """Return the starts through a soft starter, where one could be fitted."""
    soft = with_soft_starter(case)
    return case._replace(
        soft_current=np.where(changes.soft, soft.soft_current, case.soft_current),
        soft_boost=np.where(changes.soft, soft.soft_boost, case.soft_boost),
        soft_ramp=np.where(changes.soft, soft.soft_ramp, case.soft_ramp),
    )
