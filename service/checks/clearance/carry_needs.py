"""How many people the heaviest piece of a unit takes, and whether its help rolls."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import TOLERANCE

#: A piece this little above the limit of a band still is of the band [kg]. Our choice.
_SAME_MASS = 1e-9


class CarryNeeds(NamedTuple):
    """What carrying takes, each in the broadcast shape of the inputs.

    Attributes
    ----------
    band : ndarray of int
        Place of the band of mass, from 0.
    persons : ndarray of int
        People that carry it [1].
    rolls : ndarray of bool
        The help of the band can be rolled there: no step, and no steeper than it allows.
    enough : ndarray of bool
        There are as many people at hand.
    """

    band: NDArray[np.int64]
    persons: NDArray[np.int64]
    rolls: NDArray[np.bool_]
    enough: NDArray[np.bool_]


def carry_needs(
    mass: ArrayLike,
    steps: ArrayLike,
    slope: ArrayLike,
    people: ArrayLike,
    limits: Sequence[float],
    persons: Sequence[int],
    persons_on_steps: Sequence[int],
    slopes: Sequence[float],
) -> CarryNeeds:
    """Return how many people the heaviest piece takes.

    Parameters
    ----------
    mass : array_like
        Of the piece; NaN: not known, the heaviest band [kg].
    steps : array_like of int
        On the way [1].
    slope : array_like
        Steepest part of the way, rise over run [1].
    people : array_like of int
        At hand [1].
    limits : sequence of float, shape (bands,)
        Largest mass of each band, rising, the last infinite [kg].
    persons, persons_on_steps : sequence of int, shape (bands,)
        On a way where the help of the band rolls, and where it does not [1].
    slopes : sequence of float, shape (bands,)
        Steepest way on which the help of the band rolls [1]; NaN where nothing is rolled.

    Returns
    -------
    CarryNeeds

    Notes
    -----
    A way too steep for the help takes the people that steps take.
    Source: common practice, no source; the bands are the caller's.
    """
    heavy = np.asarray(mass, dtype=np.float64)
    band = np.searchsorted(np.asarray(limits, dtype=np.float64), heavy - _SAME_MASS, side="left")
    # An unknown mass sorts behind the last band: it is taken as the heaviest.
    band = np.minimum(band, len(limits) - 1)
    stepped = np.asarray(steps) > 0
    incline = np.asarray(slope, dtype=np.float64)
    steepest = np.asarray(slopes, dtype=np.float64)[band]
    steep = incline > steepest + TOLERANCE["fraction"]
    hard = stepped | steep
    needed = np.where(hard, np.asarray(persons_on_steps)[band], np.asarray(persons)[band])
    return CarryNeeds(
        band=np.asarray(np.broadcast_to(band, needed.shape), dtype=np.int64),
        persons=np.asarray(needed, dtype=np.int64),
        rolls=np.asarray(~stepped & (incline <= steepest + TOLERANCE["fraction"])),
        enough=np.asarray(np.asarray(people) >= needed),
    )
