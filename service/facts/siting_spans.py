"""Lengths that must be above 0, and distances that are none below it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final, NamedTuple

from msgspec import Struct

from service.facts.siting_length import MeasuredLength
from service.facts.siting_measured import number_at
from service.facts.siting_objects import (
    Condenser,
    CornerOpening,
    GasVent,
    Opening,
    PoolEdge,
    WallEquipment,
)
from service.facts.siting_place import WayIn, WayPart
from service.facts.siting_spots import (
    Barrier,
    CoarsePlace,
    SitingGarage,
    SitingRoom,
    SitingWall,
    VehicleOpening,
)


class Spans(NamedTuple):
    """The fields of one struct."""

    above_0: tuple[str, ...] = ()
    not_below_0: tuple[str, ...] = ()


SPANS: Final[Mapping[type[Struct], Spans]] = MappingProxyType(
    {
        SitingWall: Spans(("length", "height", "eave"), ("property_line",)),
        SitingGarage: Spans(("width", "depth", "height", "vehicle_length")),
        SitingRoom: Spans(("length", "height")),
        CoarsePlace: Spans((), ("narrowest",)),
        WayPart: Spans(("length",), ("clear", "clear_right")),
        WayIn: Spans(("narrowest",)),
        VehicleOpening: Spans(("width", "height"), ("left",)),
        Barrier: Spans(("width",), ("from_wall", "left")),
        Opening: Spans(("width", "height")),
        CornerOpening: Spans(("width", "height"), ("out",)),
        GasVent: Spans((), ("out",)),
        WallEquipment: Spans(("width", "height"), ("depth",)),
        Condenser: Spans(("width", "depth", "height"), ("out",)),
        PoolEdge: Spans(("width",), ("out",)),
    }
)


def span_refusals(part: Struct, at: str) -> list[tuple[str, str]]:
    """Return (pointer, detail) of every length of one struct that is too small to be one."""
    spans = SPANS[type(part)]
    found = []
    for name in spans.above_0:
        length = getattr(part, name)
        if length is not None and _number(length) <= 0.0:
            found.append((number_at(length, f"{at}/{name}"), "Send a length above 0."))
    for name in spans.not_below_0:
        length = getattr(part, name)
        if length is not None and _number(length) < 0.0:
            found.append((number_at(length, f"{at}/{name}"), "Send a distance of 0 or more."))
    return found


def _number(length: float | MeasuredLength) -> float:
    return length.value if isinstance(length, MeasuredLength) else length
