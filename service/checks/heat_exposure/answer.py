"""What the heat-exposure check answers."""

from __future__ import annotations

from typing import Annotated, Literal

from msgspec import UNSET, Struct, UnsetType

from service.facts import HeatDerating
from service.findings import Answer, Verdict
from service.quantities.fields import out, said

DayRole = Literal["hottest_percentile", "hottest_month", "hottest_there", "design", "typical"]


class HeatBand(Struct, kw_only=True, forbid_unknown_fields=True):
    """A temperature from windy to calm, the rest as assumed, and its hot end: never one number."""

    low: Annotated[float, out("degF", "In wind.", example=115.0, decimals=1)]
    typical: Annotated[float, out("degF", "With some wind.", example=118.0, decimals=1)]
    high: Annotated[float, out("degF", "In calm air.", example=121.0, decimals=1, rounding="up")]
    hot: Annotated[
        float,
        out(
            "degF",
            "In calm air, with all that is not known at its hot end.",
            example=130.0,
            decimals=1,
            rounding="up",
        ),
    ]


class HeatLess(Struct, kw_only=True, forbid_unknown_fields=True):
    """By how much something is cooler: differences of temperatures, from windy to calm."""

    low: Annotated[
        float, out("degF", "Least, a difference.", example=4.0, decimals=1, rounding="down")
    ]
    typical: Annotated[
        float,
        out("degF", "With some wind, a difference.", example=6.0, decimals=1, rounding="down"),
    ]
    high: Annotated[
        float, out("degF", "Most, a difference.", example=8.0, decimals=1, rounding="down")
    ]


class HeatHours(Struct, kw_only=True, forbid_unknown_fields=True):
    """Hours over a threshold, of the day or of the year in which it stands."""

    threshold_degf: Annotated[float, out("degF", "The threshold.", example=104.0, decimals=1)]
    air: Annotated[float, out("h", "By the air of the record alone.", example=5.0, decimals=0)]
    at_once: Annotated[
        float, out("h", "Equivalent ambient without lag, some wind.", example=7.0, decimals=0)
    ]
    low: Annotated[
        float,
        out("h", "With lag, all that is not known at its cool end.", example=4.0, decimals=0),
    ]
    typical: Annotated[float, out("h", "With lag, some wind.", example=6.0, decimals=0)]
    high: Annotated[
        float,
        out("h", "With lag, all that is not known at its hot end.", example=9.0, decimals=0),
    ]


class HotDay(Struct, kw_only=True, forbid_unknown_fields=True):
    """One day at the place of the unit."""

    day: Annotated[
        DayRole,
        said(
            "What it stands for; there: hottest of the year for the unit at its place; typical: "
            "a usual day of the hottest month.",
            example="hottest_percentile",
        ),
    ]
    date: Annotated[str, said("Month and day.", example="08-21")]
    air_degf: Annotated[
        float, out("degF", "Highest air temperature of the record.", example=99.1, decimals=1)
    ]
    front: Annotated[
        HeatBand,
        said("Highest sol-air temperature of its front: a surface, never a rating.", example=None),
    ]
    at_once: Annotated[HeatBand, said("Highest equivalent ambient without lag.", example=None)]
    ambient: Annotated[
        HeatBand,
        said("Highest equivalent ambient with lag: what ratings are held against.", example=None),
    ]
    peak_hour: Annotated[
        float, out("h", "Hour of the day at whose end it is highest.", example=17.0, decimals=0)
    ]
    hours: Annotated[list[HeatHours], said("Hours of this day over thresholds.", example=[])]


class RankedWall(Struct, kw_only=True, forbid_unknown_fields=True):
    """A wall among those that were offered, the coolest first."""

    id: Annotated[str, said("As the request names it.", example="north")]
    verdict: Annotated[Verdict, said("How it stands.", example="conditional")]
    ambient: Annotated[
        HeatBand, said("Highest equivalent ambient with lag, of the hottest days.", example=None)
    ]
    behind_degf: Annotated[
        float,
        out("degF", "How much hotter than the coolest wall, in calm.", example=6.3, decimals=1),
    ]
    alike: Annotated[
        bool, said("Whether it is as good as the coolest: within 1.8 degF.", example=False)
    ]


class HeatRemedy(Struct, kw_only=True, forbid_unknown_fields=True):
    """What shade or colour buys."""

    id: Annotated[
        Literal["full-shade", "lighter-colour", "shade-and-lighter"],
        said("What is done.", example="full-shade"),
    ]
    ambient: Annotated[
        HeatBand, said("Highest equivalent ambient with lag, of the hottest days.", example=None)
    ]
    takes_off: Annotated[HeatLess, said("By how much that is lower.", example=None)]


class PowerLeft(Struct, kw_only=True, forbid_unknown_fields=True):
    """Power and energy that the heat of a day leaves in the outage."""

    day: Annotated[
        Literal["hottest", "typical"],
        said("The worst of the hottest days, or the typical day.", example="hottest"),
    ]
    least_percent_low: Annotated[
        float,
        out(
            "%",
            "Part of its power in the worst hour, at the worst of all that is not known.",
            example=50.0,
            decimals=1,
            rounding="down",
        ),
    ]
    least_percent_calm: Annotated[
        float,
        out(
            "%",
            "The same in calm air, the rest as assumed.",
            example=62.0,
            decimals=1,
            rounding="down",
        ),
    ]
    least_percent_high: Annotated[
        float,
        out(
            "%",
            "The same in wind, the rest as assumed.",
            example=75.0,
            decimals=1,
            rounding="down",
        ),
    ]
    mean_percent_low: Annotated[
        float,
        out(
            "%",
            "Mean part of its power, at the worst of all that is not known.",
            example=82.0,
            decimals=1,
            rounding="down",
        ),
    ]
    mean_percent_high: Annotated[
        float,
        out(
            "%",
            "The same in wind, the rest as assumed.",
            example=93.0,
            decimals=1,
            rounding="down",
        ),
    ]
    least_kw: Annotated[
        float | None,
        out(
            "kW",
            "Power in the worst hour, at the worst of all that is not known; null: no rating.",
            example=2.5,
            decimals=2,
            rounding="down",
        ),
    ]
    energy_kwh: Annotated[
        float | None,
        out(
            "kWh",
            "Energy that it can give in the outage, at the worst of all that is not known; null: "
            "no rating or no usable energy stated.",
            example=12.0,
            decimals=1,
            rounding="down",
        ),
    ]
    off_hours: Annotated[
        float,
        out(
            "h",
            "Time for which it gives nothing, at the worst of all that is not known.",
            example=0.0,
            decimals=1,
            rounding="up",
        ),
    ]


class HeatClimateUsed(Struct, kw_only=True, forbid_unknown_fields=True):
    """Whose weather it is."""

    chosen_by: Annotated[
        Literal["named", "nearest", "county", "zone", "own", "design_day"],
        said("How it came to answer.", example="named"),
    ]
    sites: Annotated[
        list[str], said("Climate sites; empty: the caller's own data.", example=["riverside"])
    ]
    temperature_error_degf: Annotated[
        float,
        out("degF", "By how much a hot hour may be off for the distance.", example=0.0, decimals=1),
    ]
    coldest_degf: Annotated[
        float | None,
        out("degF", "Coldest hour of the year; null: no year.", example=30.0, decimals=1),
    ]


class HeatYear(Struct, kw_only=True, forbid_unknown_fields=True):
    """A year at the place of the unit, facing as in its hottest reading."""

    facing_deg: Annotated[
        float | None, out("deg", "Facing; null: a garage.", example=270.0, decimals=1)
    ]
    ambient: Annotated[
        HeatBand,
        said(
            "Highest equivalent ambient with lag in the year as recorded, no extreme rise in it.",
            example=None,
        ),
    ]
    hours: Annotated[list[HeatHours], said("Hours of the year over thresholds.", example=[])]


class HeatExposureAnswer(Answer, kw_only=True, forbid_unknown_fields=True):
    """How hot a unit gets: a screening and ranking estimate, a band and never one number."""

    estimate: Annotated[
        Literal["screening_and_ranking"],
        said("What this is: no promise of a temperature.", example="screening_and_ranking"),
    ]
    climate: Annotated[HeatClimateUsed, said("The weather.", example=None)]
    spot: Annotated[
        str | None,
        said("Wall that the answer stands for, garage or anywhere; null: none.", example="north"),
    ]
    hottest: Annotated[
        HeatBand | None,
        said(
            "Highest equivalent ambient there with lag, of the hottest days; null: none.",
            example=None,
        ),
    ]
    days: Annotated[list[HotDay], said("Its days, the hottest and a typical one.", example=[])]
    walls: Annotated[list[RankedWall], said("The walls, the coolest first.", example=[])]
    remedies: Annotated[list[HeatRemedy], said("What shade and colour buy there.", example=[])]
    power: Annotated[
        list[PowerLeft], said("What is left in the outage; empty: no curve.", example=[])
    ]
    year: Annotated[
        HeatYear | UnsetType | None,
        said("The year; with ?include=series; null: a design day alone.", example=None),
    ] = UNSET

    @property
    def heat_derating(self) -> HeatDerating | None:
        """Return what is left on the hottest days, for checks that run on it."""
        for row in self.power:
            if row.day == "hottest":
                return HeatDerating(
                    power_percent_low=row.least_percent_calm,
                    power_percent_high=row.least_percent_high,
                    power_percent_worst=row.least_percent_low,
                )
        return None
