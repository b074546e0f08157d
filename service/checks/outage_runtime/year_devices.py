"""The lanes of one case that really differ: stored energy, losses, limits, use and sun."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from service.checks.outage_runtime.cells import Cells
from service.checks.outage_runtime.lanes import CONTROL_NONE, CONTROL_USUAL, LaneTable
from service.checks.outage_runtime.year_facts import YearFacts

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]

#: Places of the sun's parameters, and of the outdoor temperature, among those of the weather.
_OF_SUN, _OUTDOOR = np.arange(3), 3
#: Variants of the loads by use, as the day profile numbers them.
VARIANTS = 6
#: What the balance of the cells through a year depends on.
_LIVES_ON = (
    "fixed",
    "linear",
    "square",
    "limit",
    "charge",
    "efficiency",
    "use",
    "tiers_off",
    "sun",
)
_CELLS = (
    "capacity",
    "start",
    "floor",
    "fixed",
    "linear",
    "square",
    "limit",
    "charge",
    "efficiency",
)
#: Usual set-points of load control, for the alternative that supposes one: normal, comfort,
#: hysteresis. Standing: common practice, no source.
USUAL_CONTROL = (0.25, 0.50, 0.10)


@dataclass(frozen=True, slots=True)
class Devices:
    """N devices in different use: energies [J], powers [W], shape (N,).

    ``use`` is the variant of the loads and the end of the weather that they follow, ``tiers_off``
    how many of the lower tiers are left out,
    ``sun`` (N, 3) the parts of the sun: losses, shade, yield. ``shed`` (N, 3) holds the set-points
    of load control as parts, -1 where there is none.
    """

    capacity: Floats
    start: Floats
    floor: Floats
    fixed: Floats
    linear: Floats
    square: Floats
    limit: Floats
    charge: Floats
    efficiency: Floats
    use: Ints
    tiers_off: Ints
    sun: Floats
    shed: Floats

    def some(self, at: NDArray[np.bool_] | Ints | slice) -> Devices:
        """Return some of the devices."""
        return Devices(*(getattr(self, name)[at] for name in self.__slots__))

    def ways(self) -> tuple[Devices, Ints]:
        """Return the devices that differ in more than stored energy, and which each one is.

        Notes
        -----
        Their energies [J] are without meaning. Source: derived.
        """
        table = np.column_stack([getattr(self, name) for name in _LIVES_ON])
        _, first, inverse = np.unique(table, axis=0, return_index=True, return_inverse=True)
        return self.some(first), inverse.reshape(-1)

    @property
    def controlled(self) -> NDArray[np.bool_]:
        """Return which of them stand under load control."""
        return np.asarray(self.shed[:, 0] >= 0)


def _sun_parts(facts: YearFacts, lanes: LaneTable) -> Floats:
    if facts.sun is None:
        return np.zeros((lanes.use.size, len(_OF_SUN)))
    ranged = np.array([facts.sun.losses, facts.sun.shading, facts.sun.yields])
    stated = all(part >= 0 for plane in facts.sun.planes for part in plane.shade)
    if stated:
        ranged[1] = 0.0
    return np.asarray(ranged[_OF_SUN[None, :], lanes.sun[:, _OF_SUN]])


def _uses(facts: YearFacts, lanes: LaneTable) -> Ints:
    """Return the variant of the loads of each lane: that of its use, in the weather of its end."""
    if len(set(facts.outdoor)) == 1:
        return lanes.use
    return np.asarray(lanes.use + VARIANTS * lanes.sun[:, _OUTDOOR])


def _control(control: Floats, lanes: LaneTable, sheddable: bool) -> Floats:
    usual = (lanes.control == CONTROL_USUAL)[None, :, None]
    chosen = np.where(usual, np.array(USUAL_CONTROL), control[:, None, :])
    works = (lanes.control != CONTROL_NONE) & sheddable
    return np.asarray(np.where(works[None, :, None], chosen, -1.0)).reshape(-1, 3)


def devices_of(
    cells: Cells, control: Floats, facts: YearFacts, lanes: LaneTable, sheddable: bool
) -> tuple[Devices, Ints]:
    """Return the devices that differ, and which of them each lane of each case is.

    Parameters
    ----------
    cells : Cells
        Battery side of C cases, shape (C, L) [J, W].
    control : ndarray, shape (C, 3)
        Load control as stated: normal, comfort, hysteresis as parts; -1: none.
    facts : YearFacts
    lanes : LaneTable
    sheddable : bool
        Whether there is anything that load control could shed.

    Notes
    -----
    Lanes that differ in nothing that acts are run once. Source: derived, own arrangement.
    """
    cases = len(control)
    table = np.column_stack(
        [
            *(getattr(cells, name).reshape(-1) for name in _CELLS),
            np.tile(_uses(facts, lanes), cases),
            np.tile(lanes.tiers_off, cases),
            np.tile(_sun_parts(facts, lanes), (cases, 1)),
            _control(control, lanes, sheddable),
        ]
    )
    unique, inverse = np.unique(table, axis=0, return_inverse=True)
    count = len(_CELLS)
    fields = {name: np.ascontiguousarray(unique[:, at]) for at, name in enumerate(_CELLS)}
    return (
        Devices(
            **fields,
            use=unique[:, count].astype(np.int64),
            tiers_off=unique[:, count + 1].astype(np.int64),
            sun=unique[:, count + 2 : count + 5],
            shed=unique[:, count + 5 :],
        ),
        inverse.reshape(-1),
    )
