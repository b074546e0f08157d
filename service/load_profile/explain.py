"""Clean readings in the answer's units and words."""

from __future__ import annotations

import math

from msgspec import UNSET

from service.check import Includes
from service.load_profile.answer import LoadProfileAnswer
from service.load_profile.answer_parts import (
    DayShape,
    Demand,
    Directions,
    MonthEnergy,
    Profile,
    Span,
    Statistics,
    UnreadPart,
)
from service.load_profile.cleaned import Cleaned
from service.load_profile.demand import WINDOW, demand_of
from service.load_profile.doubts import sums
from service.load_profile.readings import DAY, HOUR, J_PER_KWH, Metered
from service.load_profile.spans import LISTED, span, spans_of, time_text
from service.load_profile.summing import Figures, figures_of, gaps_of, months_of
from service.load_profile.typical_year import Year, shapes_of
from service.load_profile.wording import (
    DONE,
    assumptions_of,
    cautions_of,
    demand_words,
    doubts_of,
    no_profile_of,
    summary_of,
)


def explained(
    metered: Metered, made: Cleaned, reference: str | None, includes: Includes
) -> LoadProfileAnswer:
    """Return the answer."""
    offset = metered.offset
    figures = figures_of(made.readings)
    drawn, sent = sums(made.before, made.sent)
    gaps, gap_count, gap_hours = _gaps(made, offset)
    return LoadProfileAnswer(
        summary=summary_of(figures, made),
        document_kind=metered.kind,
        statistics=_statistics(figures, offset),
        directions=Directions(drawn_kwh=drawn, sent_kwh=sent, net_of_a_source=made.net),
        demand=_demand(made, figures, offset),
        months=_months(made),
        gap_count=gap_count,
        gap_hours=gap_hours,
        gaps=gaps,
        repaired=_repaired(made, offset),
        doubtful=_doubtful(made, offset),
        unread_count=metered.unread_count,
        unread=[UnreadPart(place=u.place, reason=u.reason) for u in metered.unread[:20]],
        doubts=doubts_of(metered, made),
        profile=_profile(made.year, offset),
        no_profile=no_profile_of(made),
        assumptions=assumptions_of(metered),
        cautions=cautions_of(made),
        reference=reference,
        day_shapes=_day_shapes(made) if "day_shapes" in includes else UNSET,
    )


def _statistics(figures: Figures, offset: int) -> Statistics:
    kwh = figures.energy / J_PER_KWH
    return Statistics(
        readings=figures.readings,
        first_start=time_text(figures.first, offset),
        last_start=time_text(figures.last, offset),
        interval_minutes=figures.interval / 60,
        days_covered=figures.covered / DAY,
        energy_kwh=kwh,
        energy_kwh_per_year=kwh * 365 * DAY / figures.covered,
        min_w=figures.least,
        mean_w=figures.mean,
        p95_w=figures.p95,
        max_w=figures.most,
    )


def _demand(made: Cleaned, figures: Figures, offset: int) -> Demand | None:
    if not made.has_shape:
        return None
    found = demand_of(made.readings)
    return Demand(
        at_least_kw=found.highest / 1000,
        at_most_kw=found.at_most / 1000,
        start=time_text(found.start, offset),
        window_minutes=found.length / 60,
        is_15_minutes=found.length == WINDOW,
        days_covered=figures.covered / DAY,
        statement=demand_words(found, figures, net=made.net),
    )


def _months(made: Cleaned) -> list[MonthEnergy]:
    return [
        MonthEnergy(
            month=f"{1970 + month.place // 12}-{month.place % 12 + 1:02d}",
            kwh=month.kwh,
            metered_percent=100 * month.share,
        )
        for month in months_of(made.readings)
    ]


def _gaps(made: Cleaned, offset: int) -> tuple[list[Span], int, float]:
    begins, ends = gaps_of(made.before)
    done = "filled in the profile by the month's median" if made.year else "left open"
    listed = [
        span("gap", begin, end, offset, 0, done)
        for begin, end in zip(begins[:LISTED].tolist(), ends[:LISTED].tolist(), strict=True)
    ]
    return listed, len(begins), float((ends - begins).sum()) / HOUR


def _repaired(made: Cleaned, offset: int) -> list[Span]:
    gone = made.resolved
    return [
        *spans_of(gone.replaced, "reissued", offset, "the reading issued last stands"),
        *spans_of(gone.duplicates, "duplicate", offset, "counted once"),
    ]


def _doubtful(made: Cleaned, offset: int) -> list[Span]:
    return [
        one
        for found in made.doubtful
        for one in spans_of(made.before.where(found.which), found.kind, offset, DONE[found.kind])
    ]


def _profile(year: Year | None, offset: int) -> Profile | None:
    if year is None:
        return None
    return Profile(
        watts=year.watts.tolist(),
        kwh=float(year.watts.sum()) / 1000,
        first=time_text(year.first_hour * HOUR, offset),
        last=time_text(year.last_hour * HOUR, offset),
        filled_hours=year.filled,
        filled_percent=year.filled / len(year.watts) * 100,
        partly_metered_hours=year.partly,
    )


def _day_shapes(made: Cleaned) -> list[DayShape]:
    if made.hours is None:
        return []
    shapes = shapes_of(made.hours, median=False).tolist()
    return [
        DayShape(month=month, watts=[None if math.isnan(w) else w for w in day])
        for month, day in enumerate(shapes, start=1)
        if not all(map(math.isnan, day))
    ]
