"""From what a document says to clean readings, hours and a year, and what was done on the way."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from service.load_profile.doubts import Doubtful, doubtful, is_net
from service.load_profile.hours import Hours, hours_of
from service.load_profile.overlaps import Resolved, resolved
from service.load_profile.readings import DAY, FINE, Metered, Readings
from service.load_profile.refusal import refused
from service.load_profile.typical_year import Year, months_without, year_of

#: Longest stretch of time from the first reading to the last [s].
_LONGEST = 10 * 366 * DAY


class Cleaned(NamedTuple):
    """Everything that an answer is made of.

    Attributes
    ----------
    readings : Readings
        What stands after everything that was left out.
    before : Readings
        The same before doubtful readings were left out.
    has_shape : bool
        Whether the readings are short enough to show the shape of a day.
    too_long : int
        Readings left out because they are too long beside the others.
    hours, year : Hours, Year or None
        None where there is no shape, no month without gaps, or a source is netted.
    """

    readings: Readings
    before: Readings
    sent: Readings
    resolved: Resolved
    doubtful: list[Doubtful]
    net: bool
    has_shape: bool
    too_long: int
    hours: Hours | None
    year: Year | None
    missing_months: list[str]


def cleaned(metered: Metered) -> Cleaned:
    """Return the clean readings of a document, its hours [W] and its year [W].

    Raises
    ------
    Refused
        No reading is left.

    Notes
    -----
    Source: the rules of the modules that do each step.
    """
    _refuse_unfit(metered.drawn)
    fine = np.isin(metered.drawn.length, FINE)
    time = metered.drawn.length
    has_shape = bool(2 * time[fine].sum() >= time.sum())
    sized = metered.drawn.where(fine) if has_shape else metered.drawn
    one_each = resolved(sized)
    sent = resolved(metered.sent).kept if len(metered.sent) else metered.sent
    net = is_net(one_each.kept, sent)
    found = doubtful(one_each.kept, net=net)
    standing = np.ones(len(one_each.kept), dtype=np.bool_)
    for one in found:
        standing &= ~one.which | one.stays
    clean = one_each.kept.where(standing)
    if not len(clean):
        raise refused(
            "every reading in it is doubtful: nothing is drawn, less than nothing, or more than "
            "any home's service carries; send the meter's interval data"
        )
    hours = hours_of(clean) if has_shape else None
    return Cleaned(
        readings=clean,
        before=one_each.kept,
        sent=sent,
        resolved=one_each,
        doubtful=found,
        net=net,
        has_shape=has_shape,
        too_long=len(metered.drawn) - len(sized),
        hours=hours,
        year=year_of(hours) if hours and not net else None,
        missing_months=months_without(hours) if hours else [],
    )


def _refuse_unfit(drawn: Readings) -> None:
    if not len(drawn):
        raise refused(
            "no reading in it has a length; send two readings at least, or each with its end"
        )
    if int(drawn.end.max()) - int(drawn.start.min()) > _LONGEST:
        raise refused(
            "its first and last readings lie more than ten years apart; "
            "mend their times, or send the last three years alone"
        )
