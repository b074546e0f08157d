"""The sizes that a run may have at all: what is pulled, what its cables come in, what lugs take."""

from __future__ import annotations

from typing import NamedTuple

from service.checks.conductor_sizing.parts import Part
from service.checks.conductor_sizing.request import Circuit
from service.published.cable_types import cable_types
from service.published.conductors import Material, index_of, sizes

#: Largest size that is pulled in one set. Standing: common practice, no source: beyond 500 kcmil
#: two sets are easier.
LARGEST = "500"


class SizeRange(NamedTuple):
    """Sizes by their places, both ends among them.

    Attributes
    ----------
    least, most : int
        Ends; no size is left where the first is beyond the second.
    known : bool
        Whether both ends were collected.
    """

    least: int
    most: int
    known: bool


def cable_range(way: str, material: Material) -> SizeRange | None:
    """Return the sizes that a cable comes in, None for a raceway.

    An end that was not collected does not bind and is not known. Source: table cable_types.
    """
    cable = cable_types().get(way)
    if cable is None:
        return None
    copper = material == "copper"
    least, most = (
        (cable.copper_least, cable.copper_most)
        if copper
        else (cable.aluminum_least, cable.aluminum_most)
    )
    # Sizes below the table of ampacity, as 18 AWG, bind nothing.
    first = index_of(least) if least in sizes() else 0
    last = len(sizes()) - 1 if most is None else index_of(most)
    return SizeRange(first, last, least is not None and most is not None)


def lug_least(circuit: Circuit) -> int:
    """Return the smallest size that both terminals take, by what is stated of them."""
    ends = (circuit.near.smallest, circuit.far.smallest)
    return max((index_of(end) for end in ends if end is not None), default=0)


def size_range(circuit: Circuit, parts: list[Part], material: Material) -> SizeRange:
    """Return the sizes that the whole run may have.

    A terminal that takes no less than a size asks for it along the whole run, since nothing is
    spliced up; one that takes no more may be spliced down to: see `terminal_fit`.
    """
    found = [one for part in parts if (one := cable_range(part.way, material)) is not None]
    return SizeRange(
        max([lug_least(circuit), *(one.least for one in found)]),
        min([index_of(LARGEST), *(one.most for one in found)]),
        all(one.known for one in found),
    )
