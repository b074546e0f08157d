"""An energy usage feed read: the home's electricity meter chosen, the rest left out with a word."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from service.load_profile import espi_names as names
from service.load_profile.espi_feed import Feed, Resource
from service.load_profile.espi_joins import offset_of
from service.load_profile.espi_reader import read_feed
from service.load_profile.espi_series import Series, series_of
from service.load_profile.espi_values import values_of
from service.load_profile.readings import (
    FINE,
    J_PER_KWH,
    NO_READINGS,
    Metered,
    Note,
    Readings,
    Unread,
    readings,
)
from service.load_profile.refusal import refused


@dataclass(slots=True)
class _Read:
    """A series with its readings."""

    series: Series
    readings: Readings

    @property
    def rank(self) -> tuple[bool, bool, int]:
        """Return what makes it the better one: fine steps, energy before demand, more readings."""
        fine = int(np.isin(self.readings.length, FINE).sum())
        return fine * 2 > len(self.readings), not self.series.is_demand, len(self.readings)

    @property
    def energy(self) -> float:
        """Return its energy [J]."""
        return float(self.readings.energy.sum())


def read_espi(text: str, offset: int | None, default_offset: int) -> Metered:
    """Return what the feed says.

    Parameters
    ----------
    text : str
    offset : int or None
        Offset of local standard time that the request states [s], where the feed has none.
    default_offset : int
        The one assumed where neither does [s].

    Raises
    ------
    Refused
        The feed cannot be read, or holds no readings of electricity.

    Notes
    -----
    Source: ESPI 1.1, as its structure is openly documented.
    """
    feed = read_feed(text)
    notes: list[Note] = []
    unread: list[Unread] = []
    count = 0
    read: list[_Read] = []
    for series in series_of(feed):
        reason = series.why_left_out()
        if reason is not None:
            notes.append(Note("left-out-readings", f"{series.count} readings left out: {reason}."))
            continue
        made, missed, more = values_of(feed, series)
        unread += missed
        count += more
        if len(made):
            read.append(_Read(series, made))
            notes += _register_notes(series)
    if not read:
        raise _without_electricity(feed, notes, count)
    usage_point, chosen = _home(read, notes)
    stated = offset_of(feed, usage_point)
    stated = stated if stated is not None and abs(stated) <= 14 * 3600 else offset
    used = default_offset if stated is None else stated
    drawn = _best(chosen, (names.DELIVERED, names.NET), notes)
    sent = _best(chosen, (names.RECEIVED,), notes)
    if not len(drawn):
        raise refused("it holds only energy sent to the grid; send the energy delivered too")
    return Metered(
        kind="espi-xml",
        drawn=_local(drawn, used),
        sent=_local(sent, used),
        offset=used,
        offset_stated=stated is not None,
        unread=tuple(unread),
        unread_count=count,
        notes=tuple(notes),
    )


def _register_notes(series: Series) -> list[Note]:
    if not series.is_cumulative:
        return []
    words = (
        "The meter's register was read and differenced; its state was taken for the end of each "
        "time period (from memory, not verified)."
    )
    return [Note("register-differenced", words)]


def _without_electricity(feed: Feed, notes: Sequence[Note], unreadable: int) -> Exception:
    if not feed.resources:
        return refused(
            "it is XML without an energy usage feed of the ESPI namespace; "
            "send the meter's interval data as the utility exports them"
        )
    left = " ".join(note.statement for note in notes[:10])
    more = f" {unreadable} readings could not be read." if unreadable else ""
    return refused(f"it holds no readings of electricity; send the electric meter's. {left}{more}")


def _home(read: list[_Read], notes: list[Note]) -> tuple[Resource | None, list[_Read]]:
    """Return the electric meter with the most energy, and its series."""
    points = {id(one.series.usage_point): one.series.usage_point for one in read}
    by_point = {key: [r for r in read if id(r.series.usage_point) == key] for key in points}
    largest = max(by_point, key=lambda key: max(one.energy for one in by_point[key]))
    others = sum(max(r.energy for r in by_point[key]) for key in points if key != largest)
    if len(points) > 1:
        words = (
            f"{len(points)} electric meters stand in the document; the one with the most energy "
            f"is answered for. The others have {others / J_PER_KWH:.0f} kWh; send a document for "
            "each meter that feeds the home."
        )
        notes.append(Note("several-meters", words))
    return points[largest], by_point[largest]


def _best(read: list[_Read], directions: tuple[int, ...], notes: list[Note]) -> Readings:
    """Return the best series of the directions; a note says what the others were."""
    found = sorted(
        (one for one in read if one.series.direction in directions),
        key=lambda one: one.rank,
        reverse=True,
    )
    for other in found[1:]:
        words = (
            f"{len(other.readings)} readings left out: a second series of the same meter and "
            "direction, coarser, shorter or of demand."
        )
        notes.append(Note("left-out-readings", words))
    return found[0].readings if found else NO_READINGS


def _local(utc: Readings, offset: int) -> Readings:
    return readings(utc.start + offset, utc.length, utc.energy, utc.issued)
