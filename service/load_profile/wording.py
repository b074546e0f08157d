"""Sentences of the answer."""

from __future__ import annotations

import math

from service.findings import Assumption, Caution
from service.load_profile.answer_parts import Doubt
from service.load_profile.cleaned import Cleaned
from service.load_profile.demand import WINDOW, Demand
from service.load_profile.readings import DAY, J_PER_KWH, Metered
from service.load_profile.summing import Figures

#: Part of the year that is filled without a doubt (common practice, no source).
_MUCH = 0.1
#: Months named one by one at most.
_NAMED = 6
_DONE_LEFT_OUT = "left out; filled in the profile by the month's median"
#: Kind of a doubtful span -> what was done with it.
DONE = {
    "beyond-service": _DONE_LEFT_OUT,
    "negative": _DONE_LEFT_OUT,
    "zero-run": _DONE_LEFT_OUT,
    "spike": "kept, since leaving out a true one would help the design",
}


def no_profile_of(made: Cleaned) -> str | None:
    """Return why there is no profile, None where there is one."""
    if made.year is not None:
        return None
    if not made.has_shape:
        return (
            "Readings longer than an hour have no shape of the day; ask for hourly data or finer."
        )
    if made.net:
        return (
            "The meter nets a source of the home, so its readings cannot stand for what the home "
            "uses; state the loads, or add the source's own production to the readings."
        )
    missing = made.missing_months
    months = ", ".join(missing) if len(missing) <= _NAMED else f"{len(missing)} of the 12 months"
    return f"No data, or less than three days, for {months}. Send a whole year."


def summary_of(figures: Figures, made: Cleaned) -> str:
    """Return the whole in a few sentences."""
    minutes = figures.interval / 60
    text = (
        f"{figures.covered / DAY:.1f} days are metered in readings of {minutes:g} min, "
        f"{figures.energy / J_PER_KWH:.0f} kWh, {figures.mean:.0f} W on average."
    )
    year = made.year
    if year is None:
        return f"{text} No profile: {no_profile_of(made)}"
    if year.filled == 0:
        return f"{text} The year is complete."
    share = math.ceil(year.filled / 87.6 * 10) / 10
    return f"{text} {share:g} % of the year is filled by medians of the same month and hour."


def demand_words(demand: Demand, figures: Figures, *, net: bool) -> str:
    """Return what the highest demand can be used for.

    Source: NFPA 70 (NEC), 2023, section 220.87 (secondary: read in public summaries).
    """
    low = math.ceil(demand.highest / 100.0) / 10
    high = math.ceil(demand.at_most / 100.0) / 10
    if net:
        return (
            f"{low:g} kW is net of a source behind the meter; the metered-demand method "
            "(NEC 220.87) is not for such a service."
        )
    if demand.length > WINDOW:
        text = (
            f"Readings of {demand.length / 60:g} min only bound the 15-minute demand that the "
            f"metered-demand method (NEC 220.87) asks for: {low:g} to {high:g} kW."
        )
    else:
        text = (
            f"The highest mean of 15 minutes is {low:g} kW by the meter's clock; a window that "
            f"starts in between can have had {high:g} kW at most."
        )
    if figures.covered < 365 * DAY:
        days = math.floor(figures.covered / DAY)
        text += f" The method (NEC 220.87) wants a year of data; {days} days are metered."
    return text


def doubts_of(metered: Metered, made: Cleaned) -> list[Doubt]:
    """Return the doubts on the data as a whole."""
    found = [Doubt(id=note.id, statement=note.statement) for note in metered.notes]
    if made.net:
        words = (
            "Energy flows back to the grid: the readings are net of a source such as solar, and "
            "the home uses more than they show."
        )
        found.append(Doubt(id="net-of-source", statement=words))
    if not made.has_shape:
        words = (
            "Most of the time is metered in readings longer than an hour; daily or monthly "
            "readings tell the energy and nothing of the hours of a day."
        )
        found.append(Doubt(id="no-day-shape", statement=words))
    if made.too_long:
        words = f"{made.too_long} readings left out: longer than an hour, or of an odd length."
        found.append(Doubt(id="left-out-readings", statement=words))
    if made.year is not None and made.year.filled > _MUCH * len(made.year.watts):
        percent = math.ceil(100 * made.year.filled / len(made.year.watts))
        words = (
            f"{percent} % of the profile is filled by medians, which have no peaks; a design on "
            "it is on the light side."
        )
        found.append(Doubt(id="much-filled", statement=words))
    if metered.unread_count:
        words = f"{metered.unread_count} readings or rows could not be read; see `unread`."
        found.append(Doubt(id="unread-readings", statement=words))
    return found


def assumptions_of(metered: Metered) -> list[Assumption]:
    """Return the defaults that entered."""
    found = []
    if not metered.offset_stated:
        found.append(
            Assumption(
                pointer="/utc_offset_hours",
                value=metered.offset / 3600,
                range=None,
                reason="common practice, no source: Pacific Standard Time; the document states "
                "no offset from UTC",
            )
        )
    if metered.clock_found is not None:
        found.append(
            Assumption(
                pointer="/daylight_saving",
                value=metered.clock_found,
                range=[False, True],
                reason="as the days in March and November show it, where the document has them; "
                "else common practice, no source: clocks are set in most of the country",
            )
        )
    return found


def cautions_of(made: Cleaned) -> list[Caution]:
    """Return the cautions of safety and scope."""
    hidden = Caution(
        id="hidden-peaks",
        text="Metered means hide the peaks of seconds and minutes: never judge starting or "
        "running power by them.",
    )
    if not made.net:
        return [hidden]
    net = Caution(
        id="net-metering",
        text="Behind a source, what the meter shows is less than what the home uses: never size "
        "a battery by it alone.",
    )
    return [hidden, net]
