"""Parts of the answer of load-profile."""

from __future__ import annotations

from typing import Annotated

from msgspec import Struct

from service.quantities.fields import out, said


class Statistics(Struct, kw_only=True, forbid_unknown_fields=True):
    """Figures of the readings that stand after cleaning."""

    readings: Annotated[int, said("How many readings stand.", example=8760)]
    first_start: Annotated[
        str, said("Begin of the first reading.", example="2011-01-01T00:00:00-08:00")
    ]
    last_start: Annotated[
        str, said("Begin of the last reading.", example="2011-12-31T23:00:00-08:00")
    ]
    interval_minutes: Annotated[
        float, out("min", "Usual length of a reading.", example=60.0, decimals=2)
    ]
    days_covered: Annotated[
        float, out("d", "Time that is metered.", example=365.0, decimals=3, rounding="down")
    ]
    energy_kwh: Annotated[
        float, out("kWh", "Energy of all readings.", example=8343.306, decimals=3)
    ]
    energy_kwh_per_year: Annotated[
        float,
        out("kWh", "The same scaled to 365 days of time metered.", example=8343.306, decimals=1),
    ]
    min_w: Annotated[float, out("W", "Lowest mean power of a reading.", example=508.0, decimals=1)]
    mean_w: Annotated[
        float, out("W", "Mean power over the time metered.", example=952.4, decimals=1)
    ]
    p95_w: Annotated[
        float, out("W", "Power that 95 % of the readings stay under.", example=1496.1, decimals=1)
    ]
    max_w: Annotated[
        float, out("W", "Highest mean power of a reading.", example=2370.0, decimals=1)
    ]


class Directions(Struct, kw_only=True, forbid_unknown_fields=True):
    """Energy in both directions."""

    drawn_kwh: Annotated[float, out("kWh", "Drawn from the grid.", example=8343.306, decimals=3)]
    sent_kwh: Annotated[float, out("kWh", "Sent to the grid.", example=0.0, decimals=3)]
    net_of_a_source: Annotated[
        bool,
        said("Whether a source behind the meter hides part of the home's use.", example=False),
    ]


class Demand(Struct, kw_only=True, forbid_unknown_fields=True):
    """The highest demand of the readings, and what it is worth."""

    at_least_kw: Annotated[
        float,
        out(
            "kW",
            "Highest mean of a reading, or of 15 minutes where readings are shorter.",
            example=2.37,
            decimals=3,
            rounding="up",
        ),
    ]
    at_most_kw: Annotated[
        float,
        out(
            "kW",
            "The most that the mean of any 15 minutes can have been, by neighbouring readings.",
            example=18.948,
            decimals=3,
            rounding="up",
        ),
    ]
    start: Annotated[str, said("Begin of the highest.", example="2011-08-28T17:00:00-08:00")]
    window_minutes: Annotated[
        float, out("min", "Length of what it is the mean of.", example=60.0, decimals=2)
    ]
    is_15_minutes: Annotated[
        bool, said("Whether it is a mean of 15 minutes, as the method asks.", example=False)
    ]
    days_covered: Annotated[
        float, out("d", "Time that was metered.", example=365.0, decimals=3, rounding="down")
    ]
    statement: Annotated[
        str,
        said(
            "What it can be used for.",
            example="Hourly readings only bound the 15-minute demand: 2.4 to 19.0 kW.",
        ),
    ]


class MonthEnergy(Struct, kw_only=True, forbid_unknown_fields=True):
    """One calendar month."""

    month: Annotated[str, said("Year and month.", example="2011-01")]
    kwh: Annotated[float, out("kWh", "Energy of its readings.", example=733.834, decimals=3)]
    metered_percent: Annotated[
        float,
        out("%", "Part of it that is metered.", example=100.0, decimals=1, rounding="down"),
    ]


class Span(Struct, kw_only=True, forbid_unknown_fields=True):
    """A stretch of time, what is the matter with it and what was done."""

    kind: Annotated[str, said("Id of what it is, listed by /v1/reference/ids.", example="gap")]
    start: Annotated[str, said("Begin.", example="2011-01-01T04:00:00-08:00")]
    end: Annotated[str, said("End.", example="2011-01-01T12:00:00-08:00")]
    hours: Annotated[float, out("h", "From begin to end.", example=8.0, decimals=3)]
    readings: Annotated[int, said("Readings in it; 0 in a gap.", example=0)]
    done: Annotated[
        str, said("What was done.", example="filled in the profile by the month's median")
    ]


class UnreadPart(Struct, kw_only=True, forbid_unknown_fields=True):
    """Something that could not be read; its content is never shown."""

    place: Annotated[str, said("Where it stands in the document.", example="line 12")]
    reason: Annotated[
        str, said("Why it could not be read.", example="its value is no number of a meter")
    ]


class Doubt(Struct, kw_only=True, forbid_unknown_fields=True):
    """A remark on the data as a whole."""

    id: Annotated[str, said("Id of the doubt.", example="several-meters")]
    statement: Annotated[
        str, said("The doubt in a sentence.", example="2 electric meters stand in the document.")
    ]


class Profile(Struct, kw_only=True, forbid_unknown_fields=True):
    """A year of 365 days in local standard time; hour i is [i, i + 1)."""

    watts: Annotated[
        list[float],
        out(
            "W",
            "8760 hourly means from 1 January, 0 o'clock; pass them on as the use "
            '{"kind": "interval_profile", "watts": [...]}.',
            example=[952.4],
            decimals=1,
        ),
    ]
    kwh: Annotated[float, out("kWh", "Energy of the year.", example=8343.306, decimals=3)]
    first: Annotated[
        str, said("Begin of the first hour that was metered.", example="2011-01-01T00:00:00-08:00")
    ]
    last: Annotated[
        str, said("Begin of the last hour that was metered.", example="2011-12-31T23:00:00-08:00")
    ]
    filled_hours: Annotated[
        int, said("Hours filled by the median of their month and hour of day.", example=0)
    ]
    filled_percent: Annotated[
        float, out("%", "Part of the year that was filled.", example=0.0, decimals=2, rounding="up")
    ]
    partly_metered_hours: Annotated[
        int, said("Hours of which at least half, not all, was metered.", example=0)
    ]


class DayShape(Struct, kw_only=True, forbid_unknown_fields=True):
    """The mean day of one month of the year, of all years metered."""

    month: Annotated[int, said("Month, 1 to 12.", example=1)]
    watts: Annotated[
        list[float | None],
        out(
            "W",
            "24 means by hour of day in local standard time; null: never metered.",
            example=[810.2],
            decimals=1,
        ),
    ]
