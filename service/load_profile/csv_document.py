"""A CSV export read: wall times made standard, lengths found, both directions of flow."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from service.load_profile.csv_rows import Rows, read_rows
from service.load_profile.readings import (
    DAY,
    FINE,
    HOUR,
    NO_READINGS,
    Floats,
    Mask,
    Metered,
    Note,
    Readings,
    Whole,
    readings,
)
from service.load_profile.refusal import refused
from service.load_profile.wall_clock import standard_time


def read_csv(text: str, offset: int | None, default_offset: int, saving: bool | None) -> Metered:
    """Return what the export says.

    Parameters
    ----------
    text : str
    offset : int or None
        Offset of local standard time from UTC that the request states [s].
    default_offset : int
        The one assumed where it states none [s].
    saving : bool or None
        Whether the export's clock is set twice a year; None: as the export shows it.

    Raises
    ------
    Refused
        It is no export that can be read, or holds no readings.

    Notes
    -----
    Source: layouts of exports as they are seen, common practice.
    """
    rows = read_rows(text)
    if not any(used == used for used in rows.used):
        more = f" {rows.unread_count} rows could not be read." if rows.unread_count else ""
        raise refused(
            "it heads columns and holds no readings of electricity drawn under them; "
            f"send the rows too.{more}"
        )
    used_offset = default_offset if offset is None else offset
    wall, written = _wall(rows, used_offset)
    columns = _Columns(wall, np.array(rows.end, dtype=np.int64), np.array(rows.is_power))
    used, given = np.array(rows.used), np.array(rows.sent)
    drawn, skipped, is_set = columns.readings_of(used, False if written else saving)
    sent, _, _ = columns.readings_of(given, is_set)
    return Metered(
        kind="csv",
        drawn=drawn,
        sent=sent,
        offset=used_offset,
        offset_stated=offset is not None,
        clock_found=is_set if saving is None and not written else None,
        unread=tuple(rows.unread),
        unread_count=rows.unread_count,
        notes=tuple(_notes(rows, skipped)),
    )


@dataclass(frozen=True, slots=True)
class _Columns:
    """Times of all rows, and which of them state power."""

    wall: Whole
    end: Whole
    is_power: Mask

    def readings_of(self, values: Floats, saving: bool | None) -> tuple[Readings, int, bool]:
        """Return the readings of one column, how many the clock skipped, whether it is set."""
        stated = ~np.isnan(values)
        if not stated.any():
            return NO_READINGS, 0, bool(saving)
        wall, value = self.wall[stated], values[stated]
        length = _lengths(wall, self.end[stated])
        start, skipped, is_set = standard_time(wall, value == 0.0, saving)
        energy = value * np.where(self.is_power[stated], length, 1)
        made = readings(start, length, energy).where(~skipped & (length > 0))
        return made, int(skipped.sum()), is_set


def _notes(rows: Rows, skipped: int) -> list[Note]:
    notes = []
    if skipped:
        words = (
            f"{skipped} readings left out: they stand in the hour that the clock skips in March."
        )
        notes.append(Note("left-out-readings", words))
    if rows.other_services:
        words = f"{rows.other_services} sections or rows left out: no electricity."
        notes.append(Note("left-out-readings", words))
    return notes


def _wall(rows: Rows, offset: int) -> tuple[Whole, bool]:
    """Return the times, and whether they are standard time already, from written offsets."""
    start = np.array(rows.start, dtype=np.int64)
    if any(o is None for o in rows.offset):
        return start, False
    return start - np.array(rows.offset, dtype=np.int64) + offset, True


def _lengths(wall: Whole, end: Whole) -> Whole:
    """Return the length of each reading [s], by its end, else by the usual step to the next.

    Ends may be the last minute or second of the reading, and the clock may be set within it; both
    are seen by the usual length. Common practice, no source.
    """
    written = np.where(end >= 0, end - np.array(wall), 0)
    for inside in (60, 1):
        nearly = (written > 0) & np.isin(written + inside, (*FINE, DAY)) & ~np.isin(written, FINE)
        written = np.where(nearly, written + inside, written)
    usual = _usual(written[(end >= 0) & (written > 0)])
    if usual == 0:
        times = np.unique(wall)
        usual = _usual(times[1:] - times[:-1])
    fitting = np.isin(written, (usual, usual + HOUR, usual - HOUR)) | (written <= 0)
    return np.where(fitting, usual, written).astype(np.int64)


def _usual(lengths: Whole) -> int:
    if len(lengths) == 0:
        return 0
    values, counts = np.unique(lengths, return_counts=True)
    return int(values[np.argmax(counts)])
