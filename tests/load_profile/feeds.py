"""Energy usage feeds of invented homes, built piece by piece."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

ATOM = "http://www.w3.org/2005/Atom"
ESPI = "http://naesb.org/espi"
PACIFIC = -28_800
#: 2025-01-01T00:00:00-08:00.
NEW_YEAR = 1_735_718_400

DELIVERED_WH = {"uom": 72, "flowDirection": 1, "accumulationBehaviour": 4}

Reading = tuple[int | None, int | None, float | str]


def reading(start: int | None, length: int | None, value: float | str) -> str:
    """Return one reading; a time that is None is not written."""
    begin = "" if start is None else f"<start>{start}</start>"
    lasting = "" if length is None else f"<duration>{length}</duration>"
    period = f"<timePeriod>{lasting}{begin}</timePeriod>" if begin or lasting else ""
    return f"<IntervalReading>{period}<value>{value}</value></IntervalReading>"


def block(readings: Iterable[Reading], start: int | None = None, duration: int = 86_400) -> str:
    """Return one interval block."""
    interval = (
        ""
        if start is None
        else f"<interval><duration>{duration}</duration><start>{start}</start></interval>"
    )
    inside = "".join(reading(*one) for one in readings)
    return f'<IntervalBlock xmlns="{ESPI}">{interval}{inside}</IntervalBlock>'


def usage_point(kind: int | None = 0) -> str:
    """Return a usage point of a service."""
    service = "" if kind is None else f"<ServiceCategory><kind>{kind}</kind></ServiceCategory>"
    return f'<UsagePoint xmlns="{ESPI}">{service}</UsagePoint>'


def reading_type(**fields: int) -> str:
    """Return a reading type with the fields given."""
    inside = "".join(f"<{name}>{value}</{name}>" for name, value in fields.items())
    return f'<ReadingType xmlns="{ESPI}">{inside}</ReadingType>'


def local_time(offset: int = PACIFIC) -> str:
    """Return the local time parameters with the rules of the United States."""
    return (
        f'<LocalTimeParameters xmlns="{ESPI}"><dstEndRule>B40E2000</dstEndRule>'
        "<dstOffset>3600</dstOffset><dstStartRule>360E2000</dstStartRule>"
        f"<tzOffset>{offset}</tzOffset></LocalTimeParameters>"
    )


METER_READING = f'<MeterReading xmlns="{ESPI}"/>'


def entry(
    content: str,
    own: str = "",
    up: str = "",
    related: Sequence[str] = (),
    updated: str = "2026-01-02T00:00:00Z",
) -> str:
    """Return an entry with its links."""
    links = [("self", own), ("up", up), *(("related", one) for one in related)]
    written = "".join(f'<link rel="{rel}" href="{href}"/>' for rel, href in links if href)
    return (
        f"<entry>{written}<title>of an invented home</title><content>{content}</content>"
        f"<published>{updated}</published><updated>{updated}</updated></entry>"
    )


def feed(*entries: str) -> str:
    """Return the feed of the entries."""
    return f'<?xml version="1.0" encoding="UTF-8"?><feed xmlns="{ATOM}">{"".join(entries)}</feed>'


def meter(
    blocks: Sequence[str],
    name: str = "1",
    service: int | None = 0,
    updated: Sequence[str] | None = None,
    type_fields: Mapping[str, int] = DELIVERED_WH,
) -> str:
    """Return the entries of one meter, joined by links, without local time parameters."""
    point, read, type_ = f"up/{name}", f"up/{name}/mr/1", f"rt/{name}"
    times = updated or ["2026-01-02T00:00:00Z"] * len(blocks)
    return "".join(
        (
            entry(usage_point(service), point, "up", [f"{point}/mr"]),
            entry(METER_READING, read, f"{point}/mr", [f"{read}/ib", type_]),
            entry(reading_type(**type_fields), type_, "rt"),
            *(
                entry(one, f"{read}/ib/{place}", f"{read}/ib", updated=time)
                for place, (one, time) in enumerate(zip(blocks, times, strict=True))
            ),
        )
    )


def plain_feed(readings: Sequence[Reading], offset: int = PACIFIC, **type_fields: int) -> str:
    """Return the feed of one electric meter with one block, delivered Wh unless said."""
    fields = {**DELIVERED_WH, **type_fields}
    return feed(entry(local_time(offset), "ltp/1"), meter([block(readings)], type_fields=fields))


def steps(count: int, length: int = 3600, start: int = NEW_YEAR, value: int = 500) -> list[Reading]:
    """Return readings that follow each other, all of one value but for a small daily shape."""
    return [
        (start + i * length, length, value + (start // 3600 + i * length // 3600) % 24 * 10)
        for i in range(count)
    ]
