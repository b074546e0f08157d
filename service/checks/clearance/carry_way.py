"""Whether the heaviest piece of a unit comes through the narrowest place of its way."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from service.quantities.comparison import TOLERANCE, reaches

#: A piece this little above the limit of a band still is of the band [kg]. Our choice.
_SAME_MASS = 1e-9


class CarryWay(NamedTuple):
    """How a piece passes, each in the broadcast shape of the inputs.

    Attributes
    ----------
    needed_width : ndarray
        Of the way: the piece turned to its narrower side and the room for hands, or the truck [m].
    width_margin, height_margin : ndarray
        What the way has over what is needed; negative: what is missing [m].
    passes : ndarray of bool
        In width and height; equality passes.
    """

    needed_width: NDArray[np.float64]
    width_margin: NDArray[np.float64]
    height_margin: NDArray[np.float64]
    passes: NDArray[np.bool_]


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


def carry_way(
    width: ArrayLike,
    height: ArrayLike,
    piece: tuple[ArrayLike, ArrayLike, ArrayLike],
    hand_room: ArrayLike,
    truck_width: ArrayLike = 0.0,
) -> CarryWay:
    """Compare the narrowest place of a way with the piece that is carried through it upright.

    Parameters
    ----------
    width, height : array_like
        Clear width and height of the narrowest place; an infinite height: open above [m].
    piece : tuple of array_like
        Width, height and depth of the heaviest piece as it is carried [m].
    hand_room : array_like
        What the way has over the piece for hands and corners [m].
    truck_width : array_like, optional
        Of what the piece is rolled on; 0: it is carried [m].

    Returns
    -------
    CarryWay
        [m].

    Notes
    -----
    Upright, since many makers forbid to lay a battery down. A corner of the way is not in it.
    Source: common practice, no source, for the room for hands and the truck; the rest is derived.
    """
    across, tall, deep = (np.asarray(side, dtype=np.float64) for side in piece)
    needed = np.maximum(np.minimum(across, deep) + np.asarray(hand_room), truck_width)
    needed = np.asarray(needed, dtype=np.float64)
    wide, high = np.asarray(width, dtype=np.float64), np.asarray(height, dtype=np.float64)
    return CarryWay(
        needed_width=needed,
        width_margin=np.asarray(wide - needed),
        height_margin=np.asarray(high - tall),
        passes=reaches(wide, needed, "length") & reaches(high, tall, "length"),
    )


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
