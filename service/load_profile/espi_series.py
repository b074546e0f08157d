"""The series of a feed: which meter, which unit and direction each block's readings have."""

from __future__ import annotations

from dataclasses import dataclass, field

from service.load_profile import espi_names as names
from service.load_profile.espi_feed import Block, Feed, Resource
from service.load_profile.espi_joins import Described, Parents


@dataclass(slots=True)
class Series:
    """The blocks of one meter reading, and what its type says of them."""

    usage_point: Resource | None
    type: dict[str, int]
    blocks: list[Block] = field(default_factory=list)

    @property
    def count(self) -> int:
        """Return the number of readings."""
        return sum(block.after - block.first for block in self.blocks)

    @property
    def direction(self) -> int:
        """Return the direction of flow; delivered where the type states none."""
        return self.type.get("flowDirection", names.DELIVERED)

    @property
    def is_demand(self) -> bool:
        """Return whether the readings are watts."""
        return self.type.get("uom") == names.WATTS

    @property
    def is_cumulative(self) -> bool:
        """Return whether the readings are the state of a register."""
        return self.type.get("accumulationBehaviour") in names.CUMULATIVE

    def why_left_out(self) -> str | None:
        """Return why the series is no electric energy of the home, None where it is."""
        service = (self.usage_point.fields if self.usage_point else {}).get("kind")
        if service is not None and service != names.ELECTRICITY:
            return f"a meter of {names.SERVICES.get(service, 'another service')}, not electricity"
        if self.type.get("commodity", 0) not in names.ELECTRIC_COMMODITIES:
            return "a commodity that is not electricity"
        unit = self.type.get("uom", names.WATT_HOURS)
        if unit not in (names.WATT_HOURS, names.WATTS):
            return f"a unit that is no energy in Wh: {names.OTHER_UNITS.get(unit, f'code {unit}')}"
        if self.direction not in (names.DELIVERED, names.NET, names.RECEIVED):
            return "a direction of flow that is not delivered, received or net"
        if self.type.get("powerOfTenMultiplier", 0) not in names.MULTIPLIERS:
            return "a power of ten outside -12 to 12"
        return None


def series_of(feed: Feed) -> list[Series]:
    """Return the series of the feed in its order."""
    types = Described(feed.of("ReadingType"))
    usage_points = Parents(feed.of("UsagePoint"))
    meter_readings = Parents(feed.of("MeterReading"))
    found: dict[int, Series] = {}
    for block in feed.of("IntervalBlock"):
        meter_reading = meter_readings.of(block)
        key = meter_reading.place if meter_reading else -1
        if key not in found:
            kind = types.of(meter_reading)
            up = usage_points.of(meter_reading or block)
            found[key] = Series(up, kind.fields if kind else {})
        if isinstance(block, Block):
            found[key].blocks.append(block)
    return [series for series in found.values() if series.count]
