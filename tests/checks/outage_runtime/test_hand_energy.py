"""Energy of a day, out of rows, a day profile or a bill, by a pencil.

One case a line, its arithmetic beside it. Base: 10 kWh, lossless, full, 5 kW, 18:00, winter.
"""

import csv
import gzip
from pathlib import Path
from typing import Any

import pytest

from tests.checks.outage_runtime.asking import Body, answered, appliance, known, load, window

MONTH_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
#: Hourly readings of the class of homes that the bill's shape was made of.
HOURLY = Path(__file__).parents[2] / "reference" / "ca_homes_2011_hourly_wh.csv.gz"


def use(kind: str, **fields: Any) -> Body:
    return known([], use={"kind": kind} | fields)


def months(january: float, others: float) -> list[float]:
    return [january] + [others] * 11


def with_july(july: float, others: float) -> list[float]:
    return [others] * 6 + [july] + [others] * 5


COMPUTER = [appliance("computer")]
MICROWAVE = [appliance("microwave")]
FAN = [appliance("window_fan", watts=200)]
LIGHTS = [appliance("led_lights")]
LONG_LIGHTS = [appliance("led_lights", windows=window(17, 23), hours_per_day=5)]
DAY = [500.0] * 24

DAILY_KWH: list[tuple[str, Body, str, float]] = [
    # what, request, level, kWh a day
    # US DOE Energy Saver, worked examples: 270 W x 4 h, 394 kWh a year; 200 W x 4 h, 96 kWh in 120
    # days; a page on appliance energy: 1,000 W x 0.25 h, 91.25 kWh a year.
    ("P07 computer", known(COMPUTER), "high", 0.270 * 4),
    ("P08 window fan", known(FAN, season="summer"), "typical", 96 / 120),
    ("P09 microwave", known(MICROWAVE), "typical", 91.25 / 365),
    ("fan in winter", known(FAN), "typical", 0),
    # Catalogue, LED lighting: 60 W x 5 h, longer by 1.3 in winter: 6.5 h in windows of 8 h.
    ("lights in winter", known(LIGHTS), "typical", 0.06 * 6.5),
    ("lights in summer", known(LIGHTS, season="summer"), "typical", 0.06 * 5),
    # 1.3 x 5 h would be 6.5 h, but the stated window holds 6 h.
    ("lights fill their window", known(LONG_LIGHTS), "typical", 0.06 * 6),
    # Refrigerator: 100 W x 0.25 x 24 h, 150 W x 0.33 x 24 h, 250 W x 0.50 x 24 h.
    ("refrigerator low", known([appliance("refrigerator")]), "low", 0.6),
    ("refrigerator typical", known([appliance("refrigerator")]), "typical", 1.188),
    ("refrigerator high", known([appliance("refrigerator")]), "high", 3.0),
    ("two of them", known([appliance("refrigerator", quantity=2)]), "typical", 2.376),
    # Stated watts hold at every level, the duty keeps its band: 200 W x 0.25 and x 0.50 x 24 h.
    ("watts stated, low", known([appliance("refrigerator", watts=200)]), "low", 1.2),
    ("watts stated, high", known([appliance("refrigerator", watts=200)]), "high", 2.4),
    ("tier shed is left out", known([load(100), load(9000, tier="shed")]), "high", 2.4),
    ("day profile", use("day_profile", critical=DAY), "typical", 12),
    # Spread of one home's days, 0.8 to 1.2: common practice, no source.
    ("day profile, low", use("day_profile", critical=DAY), "low", 9.6),
    ("day profile, high", use("day_profile", critical=DAY), "high", 14.4),
    ("day profile, own", use("day_profile", critical=DAY, high_factor=2), "high", 24),
    ("three tiers", use("day_profile", critical=DAY, normal=DAY, comfort=DAY), "typical", 36),
    # January's 310 kWh are 10 a day; the spread of a bill is 0.6 to 1.6 (common practice).
    ("bill, winter", use("monthly_kwh", monthly_kwh=months(310, 30)), "typical", 10),
    ("bill, winter, low", use("monthly_kwh", monthly_kwh=months(310, 30)), "low", 6),
    ("bill, winter, high", use("monthly_kwh", monthly_kwh=months(310, 30)), "high", 16),
    (
        "bill, a part of it",
        use("monthly_kwh", monthly_kwh=months(310, 30), share_percent=40),
        "typical",
        4,
    ),
    # 30 kWh in a month of 30 days are a day's kWh; July's 310 kWh in 31 days are 10 a day.
    (
        "bill, heaviest month",
        use("monthly_kwh", monthly_kwh=with_july(310, 30)) | {"season": "summer"},
        "typical",
        10,
    ),
    # In winter February is the heaviest of equal months: 28 kWh in 28 days.
    ("bill, February", use("monthly_kwh", monthly_kwh=[28.0] * 12), "typical", 1),
]


@pytest.mark.parametrize("what, body, level, kwh", DAILY_KWH, ids=[case[0] for case in DAILY_KWH])
def test_energy_of_a_day(what: str, body: Body, level: str, kwh: float) -> None:
    daily = answered(body).daily_energy
    assert getattr(daily, f"{level}_kwh") == pytest.approx(kwh, abs=1e-9), what


def class_days(column: str) -> list[float]:
    """Return the mean kWh a day of each month, out of the hourly readings themselves."""
    with gzip.open(HOURLY, "rt", encoding="utf-8") as text:
        hours = [float(row[column]) / 1e3 for row in csv.DictReader(text)]
    ends = [24 * sum(MONTH_DAYS[:month]) for month in range(13)]
    return [sum(hours[ends[m] : ends[m + 1]]) / days for m, days in enumerate(MONTH_DAYS)]


@pytest.mark.parametrize(
    "season, months_of", [("summer", (5, 6, 7, 8, 9, 10)), ("winter", (11, 12, 1, 2, 3, 4))]
)
def test_a_bill_of_the_class_itself_gives_back_its_heaviest_day(
    season: str, months_of: tuple[int, ...]
) -> None:
    """A class's own year, stated as twelve equal months, comes back as that class's own days."""
    days = class_days("inland_single_family_wh")
    year = sum(length * day for length, day in zip(MONTH_DAYS, days, strict=True))
    bill = use("monthly_kwh", monthly_kwh=year / 12, home_class="inland_single_family")
    found = answered(bill | {"season": season}).daily_energy.typical_kwh
    assert found == pytest.approx(max(days[month - 1] for month in months_of), rel=1e-5)
