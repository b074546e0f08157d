"""One reading for every instant: of those that overlap, the one issued last stands."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.load_profile.readings import Mask, Readings


class Resolved(NamedTuple):
    """Readings that overlap nowhere, in order of time, and what gave way to them."""

    kept: Readings
    duplicates: Readings
    replaced: Readings


def resolved(given: Readings) -> Resolved:
    """Return the readings of which no two overlap, and those that gave way.

    Parameters
    ----------
    given : Readings
        In any order; start and length [s], energy [J], time of issue [s].

    Notes
    -----
    Source: own rule, common practice. The reading issued later stands; among equals the shorter
    one, then the one further down the document.
    """
    order = np.lexsort((np.arange(len(given)), -given.length, given.issued, given.start))
    ordered = given.where(order)
    last = np.append(ordered.start[1:] != ordered.start[:-1], True)
    standing = np.flatnonzero(last)[np.searchsorted(np.flatnonzero(last), np.arange(len(given)))]
    same = (
        ~last
        & (ordered.length == ordered.length[standing])
        & (ordered.energy == ordered.energy[standing])
    )
    kept = ordered.where(last)
    over = _overlapped(kept)
    gave_way = [ordered.where(~last & ~same), kept.where(over)]
    return Resolved(kept.where(~over), ordered.where(same), _joined(gave_way))


def _joined(parts: list[Readings]) -> Readings:
    whole = Readings(
        np.concatenate([p.start for p in parts]),
        np.concatenate([p.length for p in parts]),
        np.concatenate([p.energy for p in parts]),
        np.concatenate([p.issued for p in parts]),
    )
    return whole.where(np.argsort(whole.start, kind="stable"))


def _overlapped(ordered: Readings) -> Mask:
    """Return which readings give way, of readings with different starts in order of time."""
    gives_way = np.zeros(len(ordered), dtype=np.bool_)
    if not np.any(ordered.end[:-1] > ordered.start[1:]):
        return gives_way
    starts, ends = ordered.start.tolist(), ordered.end.tolist()
    worth = list(zip(ordered.issued.tolist(), (-ordered.length).tolist(), strict=True))
    standing: list[int] = []
    for place, start in enumerate(starts):
        while standing and ends[standing[-1]] > start and worth[place] >= worth[standing[-1]]:
            gives_way[standing.pop()] = True
        if standing and ends[standing[-1]] > start:
            gives_way[place] = True
        else:
            standing.append(place)
    return gives_way
