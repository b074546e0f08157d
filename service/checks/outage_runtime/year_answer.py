"""The part of the answer that stands only where the outage is a matter of the date."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Struct, UnsetType

from service.quantities.fields import out, said

StartWord = Literal["start_charge", "full"]
WeatherWord = Literal["typical_year", "design_day", "extreme_day"]


class ClimateUsed(Struct, kw_only=True, forbid_unknown_fields=True):
    """The typical year that answered, and how far it stands for the home."""

    site: Annotated[
        str,
        said("Id of the climate site; own_year: the caller's values.", example="palm_springs"),
    ]
    name: Annotated[str, said("Its name.", example="Palm Springs")]
    chosen_by: Annotated[
        Literal["A", "B", "C", "named", "county", "zone", "own"],
        said(
            "Tier of the match, or how the site was named.",
            example="A",
        ),
    ]
    distance_mi: Annotated[
        float | None,
        out("mi", "Distance from the home; null: not known.", example=9.9, rounding="up"),
    ]
    elevation_difference_ft: Annotated[
        float | None,
        out("ft", "Difference in elevation; null: not known.", example=230.0, rounding="up"),
    ]
    sun_low_percent: Annotated[
        float,
        out("%", "Low end of the year's sun against these data.", example=-9.0, decimals=1),
    ]
    sun_high_percent: Annotated[
        float,
        out("%", "High end of the year's sun against these data.", example=19.0, decimals=1),
    ]
    temperature_error_f: Annotated[
        float | None,
        out(
            "degF",
            "How far a hot hour may lie off, in nine of ten places; null: not known.",
            example=9.0,
            decimals=1,
            rounding="up",
        ),
    ]
    statement: Annotated[
        str, said("In one sentence.", example="Palm Springs, 9.9 mi away, same terrain.")
    ]


class ShareCarried(Struct, kw_only=True, forbid_unknown_fields=True):
    """Share of all start hours of the year that is carried for a time."""

    hours: Annotated[float, out("h", "How long.", example=24.0)]
    from_start_percent: Annotated[
        float,
        out(
            "%",
            "Share carried from the start charge.",
            example=97.3,
            decimals=2,
            rounding="down",
        ),
    ]
    from_full_percent: Annotated[
        float,
        out("%", "Share carried from full.", example=100.0, decimals=2, rounding="down"),
    ]


class HeldPercentile(Struct, kw_only=True, forbid_unknown_fields=True):
    """Hours that all but a part of the start hours are held."""

    percent: Annotated[
        float, out("%", "Part of the start hours that is held shorter.", example=5.0)
    ]
    from_start_hours: Annotated[
        float, out("h", "From the start charge.", example=14.2, rounding="down")
    ]
    from_full_hours: Annotated[float, out("h", "From full.", example=38.0, rounding="down")]
    at_least: Annotated[
        bool, said("Whether either is a floor: the simulation ended before.", example=False)
    ]


class WorstStart(Struct, kw_only=True, forbid_unknown_fields=True):
    """The start hour of the year that is held shortest."""

    start: Annotated[StartWord, said("Charge at the start.", example="start_charge")]
    month: Annotated[int, said("Month, 1 to 12.", example=12)]
    day: Annotated[int, said("Day of the month.", example=21)]
    hour: Annotated[int, said("Local hour of standard time.", example=17)]
    held_hours: Annotated[float, out("h", "Hours held.", example=9.4, rounding="down")]
    at_least: Annotated[bool, said("Whether the hours are a floor.", example=False)]
    why: Annotated[str, said("What makes it the worst.", example="Little sun, much load.")]


class PoorSpell(Struct, kw_only=True, forbid_unknown_fields=True):
    """The three days in a row with the least sun, and how an outage fares that meets them.

    It starts at the stated hour of the first day, or of the day before where that is past noon.
    """

    month: Annotated[int, said("Month of its first day.", example=1)]
    day: Annotated[int, said("Day of the month.", example=6)]
    sun_kwh_a_day: Annotated[
        float, out("kWh", "Sun to be had a day.", example=4.1, rounding="down")
    ]
    year_kwh_a_day: Annotated[float, out("kWh", "Mean of the year.", example=17.9, rounding="down")]
    from_start_hours: Annotated[
        float, out("h", "Hours held from the start charge.", example=11.0, rounding="down")
    ]
    from_full_hours: Annotated[
        float, out("h", "Hours held from full.", example=30.0, rounding="down")
    ]
    at_least: Annotated[bool, said("Whether either is a floor.", example=False)]


class SunOfYear(Struct, kw_only=True, forbid_unknown_fields=True):
    """What the arrays on the backed-up side give in a year, whether used or not."""

    low_kwh: Annotated[
        float, out("kWh", "At the low end of the data.", example=7400.0, rounding="down")
    ]
    kwh: Annotated[float, out("kWh", "As the data stand.", example=7700.0, rounding="down")]
    high_kwh: Annotated[
        float, out("kWh", "At the high end of the data.", example=8600.0, rounding="down")
    ]
    statement: Annotated[
        str, said("What the range is.", example="The typical years lie on the low side.")
    ]


class RideThrough(Struct, kw_only=True, forbid_unknown_fields=True):
    """Chance that an outage of an assumed kind is ridden through, over all start hours."""

    model: Annotated[str, said("Id of the kind of outage.", example="ordinary")]
    statement: Annotated[str, said("What is assumed.", example="Lognormal, mean 2 h.")]
    from_start_low_percent: Annotated[
        float,
        out("%", "From the start charge, at least.", example=99.0, decimals=2, rounding="down"),
    ]
    from_start_high_percent: Annotated[
        float,
        out("%", "From the start charge, at most.", example=99.5, decimals=2, rounding="up"),
    ]
    from_full_low_percent: Annotated[
        float, out("%", "From full, at least.", example=99.8, decimals=2, rounding="down")
    ]
    from_full_high_percent: Annotated[
        float, out("%", "From full, at most.", example=99.9, decimals=2, rounding="up")
    ]
    standing: Annotated[
        str, said("How the distribution stands: an assumption.", example="common_practice")
    ]


class WeatherReading(Struct, kw_only=True, forbid_unknown_fields=True):
    """The same outage in other weather for the heating and cooling units."""

    weather: Annotated[WeatherWord, said("Which weather.", example="design_day")]
    outdoor_f: Annotated[
        float | None,
        out("degF", "Hottest or coldest hour; null: the year's own hours.", example=108.0),
    ]
    high_use_hours: Annotated[
        float,
        out("h", "High use, end of warranty, from the start charge.", example=4.0, rounding="down"),
    ]
    typical_hours: Annotated[
        float, out("h", "Typical use, now, from the start charge.", example=7.0, rounding="down")
    ]
    at_least: Annotated[bool, said("Whether either is a floor.", example=False)]
    statement: Annotated[str, said("In one sentence.", example="On a design day 7 h.")]


class OutageCourse(Struct, kw_only=True, forbid_unknown_fields=True):
    """One outage followed through: typical use, now, from the start charge, on its worst day."""

    month: Annotated[int, said("Month it starts in.", example=12)]
    day: Annotated[int, said("Day of the month.", example=21)]
    followed_hours: Annotated[float, out("h", "How long it is followed.", example=168.0)]
    dark_hours: Annotated[float, out("h", "Hours without power.", example=12.0, rounding="up")]
    restarts: Annotated[int, said("How often the bus comes back.", example=0)]
    served_kwh: Annotated[float, out("kWh", "Served.", example=21.0)]
    unserved_kwh: Annotated[float, out("kWh", "Asked for and not served.", example=7.0)]
    sun_used_kwh: Annotated[float, out("kWh", "Sun used.", example=17.0)]
    sun_refused_kwh: Annotated[float, out("kWh", "Sun refused by a full battery.", example=8.0)]
    sun_lost_kwh: Annotated[
        float,
        out("kWh", "Sun lost while there was no bus, or a generator held it off.", example=3.0),
    ]
    generator_hours: Annotated[float, out("h", "Hours the generator ran.", example=0.0)]
    generator_starts: Annotated[int, said("How often it started.", example=0)]
    generator_kwh: Annotated[float, out("kWh", "What it gave.", example=0.0)]
    fuel_used: Annotated[float, out("gal or ft3", "Fuel burnt.", example=0.0, rounding="up")]
    fuel_unit: Annotated[
        Literal["gal", "ft3"] | None, said("Unit of the fuel; null: no generator.", example="gal")
    ]
    refills: Annotated[int, said("Refills of the tank.", example=0)]


class StartGroup(Struct, kw_only=True, forbid_unknown_fields=True):
    """Shares of the start hours of one month, or of one hour of the day."""

    place: Annotated[int, said("Month, 1 to 12, or hour of the day, 0 to 23.", example=12)]
    shares: Annotated[list[ShareCarried], said("Shares by duration.", example=[])]


class YearResult(Struct, kw_only=True, forbid_unknown_fields=True):
    """How outages fare that start at any hour of a typical year; typical use, battery as now."""

    statement: Annotated[
        str,
        said(
            "Which starts were run and what they weigh.",
            example="8,760 start hours; neighbouring ones share their weather.",
        ),
    ]
    climate: Annotated[
        ClimateUsed | None,
        said("Typical year that answered; null: no weather enters.", example=None),
    ]
    start_hours: Annotated[int, said("Start hours run.", example=8760)]
    independent_starts: Annotated[
        int, said("How many independent starts they are worth, about.", example=365)
    ]
    starts_of_readings: Annotated[
        int, said("Starts behind every other reading: one a day at the start hour.", example=365)
    ]
    shares: Annotated[list[ShareCarried], said("Shares carried, by duration.", example=[])]
    percentiles: Annotated[list[HeldPercentile], said("Hours held, by percentile.", example=[])]
    worst_starts: Annotated[list[WorstStart], said("The worst start from each.", example=[])]
    poor_spell: Annotated[
        PoorSpell | None, said("The least sunny three days; null: no sun.", example=None)
    ]
    sun: Annotated[SunOfYear | None, said("Sun of the year; null: no sun.", example=None)]
    ride_through: Annotated[
        list[RideThrough], said("Chance of riding through, by assumption.", example=[])
    ]
    weather: Annotated[
        list[WeatherReading],
        said("Other weather side by side; empty: nothing heats or cools.", example=[]),
    ]
    course: Annotated[OutageCourse | None, said("One outage followed through.", example=None)] = (
        None
    )
    by_month: Annotated[
        list[StartGroup] | UnsetType,
        said("Shares by month; with ?include=survival.", example=[]),
    ] = UNSET
    by_start_hour: Annotated[
        list[StartGroup] | UnsetType,
        said("Shares by start hour; with ?include=survival.", example=[]),
    ] = UNSET
