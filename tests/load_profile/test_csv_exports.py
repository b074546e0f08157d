"""CSV exports in the layouts that utilities give them, all invented."""

from __future__ import annotations

from datetime import datetime

import pytest

from tests.load_profile.asking import asked, refusal, wh
from tests.load_profile.exports import MIDWINTER, export, kwh, sections, table

NEW_YEAR = MIDWINTER
DAY_KWH = sum(kwh(place) for place in range(24))

LAYOUTS = [
    # header, row of 00:00, row of 01:00: all say 0.25 kWh, then 0.5 kWh
    ("Start,Usage (kWh)", "2025-01-01 00:00,0.25", "2025-01-01 01:00,0.5"),
    ("Start,Usage (Wh)", "2025-01-01T00:00:00,250", "2025-01-01T01:00:00,500"),
    ("Date/Time,Usage in kWh", "1/1/2025 12:00 AM,0.25", "1/1/2025 1:00 AM,0.5"),
    ("Date/Time;Consumption [kWh]", "01/01/25 0:00;0.25", "01/01/25 1:00;0.5"),
    ("Read Date\tkWh", "2025/01/01 00:00:00\t0.25", "2025/01/01 01:00:00\t0.5"),
    (
        "TYPE,DATE,START TIME,END TIME,USAGE,UNITS,COST",
        "Electric usage,2025-01-01,00:00,00:59,0.25,kWh,$0.10",
        "Electric usage,2025-01-01,01:00,01:59,0.5,kWh,$0.20",
    ),
    (
        "Energy consumption time period,Usage(Real energy in kilowatt-hours),Reading quality",
        '"2025-01-01 00:00:00 to 2025-01-01 01:00:00","0.25",""',
        '"2025-01-01 01:00:00 to 2025-01-01 02:00:00","0.5",""',
    ),
    ("Start,End,Demand (kW)", "2025-01-01 00:00,1:00,0.25", "2025-01-01 01:00,2:00,0.5"),
    ("Start,End,Load (W)", "2025-01-01 00:00,1:00,250", "2025-01-01 01:00,2:00,500"),
    ("Start,Usage (Wh)", "2025-01-01 00:00,250", '2025-01-01 01:00,"0,500"'),
    ("Start,kWh", "2025-01-01T00:00:00-08:00,0.25", "2025-01-01T09:00:00Z,0.5"),
]


@pytest.mark.parametrize("header, first, second", LAYOUTS)
def test_a_layout_is_known_by_the_words_of_its_header(header: str, first: str, second: str) -> None:
    answer = asked(table(header, [first, second]))
    assert answer.document_kind == "csv"
    assert (wh(answer), answer.statistics.readings) == (750, 2)
    assert answer.statistics.first_start == "2025-01-01T00:00:00-08:00"
    assert answer.statistics.interval_minutes == 60


@pytest.mark.parametrize("blank", [" ", "\u00a0", "\u202f"])
def test_sections_of_a_day_under_repeated_headers_are_one_series(blank: str) -> None:
    answer = asked(sections(NEW_YEAR, 96 * 3, blank=blank))
    assert (answer.statistics.readings, answer.gap_count) == (288, 0)
    assert answer.statistics.energy_kwh == pytest.approx(DAY_KWH * 12)


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_any_line_ending_is_taken(ending: str) -> None:
    text = export(NEW_YEAR, 48)
    assert asked(text.replace("\n", ending)) == asked(text)


def test_the_preamble_is_skipped_and_never_shown() -> None:
    answer = asked(sections(NEW_YEAR, 96))
    assert "Invented Way" not in repr(answer)
    assert answer.unread == []


# The wall clock: 9 March 2025 has 23 hours, 2 November 2025 has 25.


@pytest.mark.parametrize("minutes", [15, 30, 60])
@pytest.mark.parametrize(
    "begin", [datetime(2025, 3, 8), datetime(2025, 11, 1), datetime(2025, 7, 1)]
)
def test_days_of_the_switch_have_neither_gap_nor_duplicate(begin: datetime, minutes: int) -> None:
    count = 3 * 24 * 60 // minutes
    answer = asked(export(begin, count, minutes))
    assert (answer.statistics.readings, answer.gap_count) == (count, 0)
    assert answer.repaired == []


@pytest.mark.parametrize("begin", [datetime(2025, 3, 8), datetime(2025, 11, 1)])
@pytest.mark.parametrize("minutes", [15, 60])
def test_ranges_across_the_switch_keep_their_length(begin: datetime, minutes: int) -> None:
    count = 3 * 24 * 60 // minutes
    answer = asked(sections(begin, count, minutes))
    assert (answer.statistics.readings, answer.gap_count) == (count, 0)
    assert answer.statistics.days_covered == pytest.approx(3)


def test_a_summer_noon_of_the_wall_clock_is_eleven_of_standard_time() -> None:
    answer = asked(table("Start,kWh", [f"2025-07-01 {h:02d}:00,0.5" for h in (12, 13, 14)]))
    assert answer.statistics.first_start == "2025-07-01T11:00:00-08:00"
    stays = asked(
        table("Start,kWh", [f"2025-07-01 {h:02d}:00,0.5" for h in (12, 13, 14)]),
        daylight_saving=False,
    )
    assert stays.statistics.first_start == "2025-07-01T12:00:00-08:00"


def test_a_clock_that_is_never_set_is_seen_by_the_hour_it_does_not_skip() -> None:
    rows = [f"2025-03-09 {h:02d}:00,0.5" for h in range(24)]
    answer = asked(table("Start,kWh", rows))
    assert answer.gap_count == 0
    assert [a.value for a in answer.assumptions if a.pointer == "/daylight_saving"] == [False]


def test_a_skipped_hour_that_is_filled_with_nothing_is_left_out_and_said() -> None:
    rows = [f"2025-03-09 {h:02d}:00,{0.0 if h == 2 else 0.5}" for h in range(24)]
    answer = asked(table("Start,kWh", rows))
    assert (answer.statistics.readings, answer.gap_count) == (23, 0)
    assert ["skips in March" in doubt.statement for doubt in answer.doubts] == [True]


def test_an_hour_of_november_that_stands_once_leaves_a_gap_of_an_hour() -> None:
    rows = [f"2025-11-02 {h:02d}:00,0.5" for h in range(24)]
    answer = asked(table("Start,kWh", rows), daylight_saving=True)
    assert answer.gap_hours == 1.0


def test_what_was_assumed_stated_in_the_request_gives_the_same_answer() -> None:
    text = export(datetime(2025, 3, 8), 72)
    assumed = asked(text)
    assert {a.pointer: a.value for a in assumed.assumptions} == {
        "/utc_offset_hours": -8.0,
        "/daylight_saving": True,
    }
    stated = asked(text, utc_offset_hours=-8.0, daylight_saving=True)
    assert stated.assumptions == []
    assumed.assumptions = []
    assert stated == assumed


# Generation


def test_a_generation_column_is_energy_sent_back() -> None:
    rows = [f"2025-01-01 {h:02d}:00,0.5,{0.9 if 10 <= h < 14 else 0}" for h in range(24)]
    answer = asked(table("Start,Consumption (kWh),Generation (kWh)", rows))
    assert (answer.directions.drawn_kwh, answer.directions.sent_kwh) == pytest.approx((12, 3.6))
    assert answer.profile is None
    assert answer.directions.net_of_a_source


def test_a_generation_section_is_energy_sent_back() -> None:
    used = [f"2025-01-01 {h:02d}:00,0.5" for h in range(24)]
    sent = [f"2025-01-01 {h:02d}:00,0.25" for h in range(24)]
    both = table("Start,Usage (kWh)", used) + table("Start,Generation (kWh)", sent)
    answer = asked(both)
    assert (answer.directions.drawn_kwh, answer.directions.sent_kwh) == pytest.approx((12, 6))
    assert answer.statistics.readings == 24


def test_a_net_column_below_nothing_is_net_of_a_source() -> None:
    rows = [f"2025-01-01 {h:02d}:00,{-1 if 10 <= h < 14 else 0.5}" for h in range(24)]
    answer = asked(table("Start,Net usage (kWh)", rows))
    assert (answer.directions.drawn_kwh, answer.directions.sent_kwh) == pytest.approx((10, 4))
    assert answer.directions.net_of_a_source


def test_a_gas_section_is_left_out_and_said() -> None:
    gas = table("Start,Usage (therms)", [f"2025-01-01 {h:02d}:00,9" for h in range(24)])
    answer = asked(gas + export(NEW_YEAR, 24))
    assert answer.statistics.energy_kwh == pytest.approx(DAY_KWH)
    assert [doubt.id for doubt in answer.doubts] == ["left-out-readings"]


# What cannot be read

UNREAD = [
    # a row among good ones, the reason
    ("2025-01-05 00:00,NaN", "no number"),
    ("2025-01-05 00:00,inf", "no number"),
    ("2025-01-05 00:00,1e300", "no number"),
    ("2025-01-05 00:00,five", "no number"),
    ("2025-01-05 25:00,0.5", "no time"),
    ("2025-02-30 00:00,0.5", "no time"),
    ("31/12/2025 00:00,0.5", "no time"),
    ("0001-01-01 00:00,0.5", "before 1970"),
    ("2025-01-05 00:00", "fewer columns"),
]


@pytest.mark.parametrize("row, reason", UNREAD)
def test_a_row_that_cannot_be_read_is_counted_with_its_line(row: str, reason: str) -> None:
    answer = asked(export(NEW_YEAR, 48) + row + "\n")
    assert (answer.statistics.readings, answer.unread_count) == (48, 1)
    assert answer.unread[0].place == "line 50"
    assert reason in answer.unread[0].reason
    assert row.partition(",")[2] not in answer.unread[0].reason or not row.partition(",")[2]


def test_an_empty_value_is_a_gap_and_no_reading_of_nothing() -> None:
    answer = asked(
        table("Start,kWh", [f"2025-01-01 {h:02d}:00,{'' if h == 5 else 1}" for h in range(24)])
    )
    assert (answer.statistics.readings, answer.gap_hours) == (23, 1.0)


REFUSED = [
    # document, part of the detail
    ("Start,Usage\n2025-01-01 00:00,5\n", "line 1 heads a usage column and names no unit"),
    ("a,b\n1,2\n", "neither an XML feed nor a CSV"),
    ("Start,kWh\n", "no readings"),
    ("Start,kWh\n2025-01-01 00:00,1\n", "no reading in it has a length"),
    ("Start,kWh\nJane Invented,secret\n", "1 rows could not be read"),
    ("hello", "neither an XML feed nor a CSV"),
    ('Start,kWh\n2025-01-01 00:00,"' + "5\n" * 200_000, "is no line of a CSV"),
    ("Start,kWh\n" + "1," * 1_000_000, "line 2 is longer than 10,000 characters"),
    ("Start,kWh\n" + "\n" * 300_000, "more than 250,000 lines"),
    ("Start,kWh\n" * 30_000, "line 20001 is beyond 20,000 lines without a reading"),
    ("x" * 1_000_000, "line 1 is longer"),
    (
        "Start,kWh\n" + "".join(f"2025-01-01 {h:02d}:00,0\n" for h in range(24)),
        "every reading in it is doubtful",
    ),
    ("Start,kWh\n1990-01-01 00:00,1\n1990-01-01 01:00,1\n2025-01-01 01:00,1\n", "ten years apart"),
]


@pytest.mark.parametrize("document, detail", REFUSED)
def test_a_document_that_cannot_be_read_is_refused_with_a_place(document: str, detail: str) -> None:
    said = refusal(document)
    assert detail in said
    assert "Jane" not in said
    assert "secret" not in said


def test_more_readings_than_three_years_of_quarters_are_refused() -> None:
    assert "105,408" in refusal(export(datetime(2020, 1, 1), 105_409, 15))
