"""The kinds of outage rest on the published reliability of US distribution."""

from pathlib import Path

import pytest

from service.published.loader import load
from service.published.outage_kinds import OutageKind, outage_kinds
from service.published.parse import parse
from service.published.source import Standing

REFERENCE = Path(__file__).parents[1] / "reference" / "eia_reliability_us.csv"
YEARS = tuple(str(year) for year in range(2014, 2024))
#: The last five years of which both columns are published.
LAST_FIVE = YEARS[4:9]

# id | mean [h] | standard deviation over the mean. Source: means by `LAST_FIVE`; the rest is our
# own choice, common practice: shutoffs of October 2019 and 2020 lasted up to 90 and 60 h.
PINNED = (
    ("ordinary", 1.940, 1.0),
    ("with_major_events", 4.552, 1.5),
    ("long_event", 24.0, 0.8),
    ("shutoff_24", 24.0, None),
    ("shutoff_48", 48.0, None),
    ("shutoff_72", 72.0, None),
    ("shutoff_96", 96.0, None),
)

# kind | column of table eia_reliability that its mean comes from
MEANS = (("ordinary", "caidi_without_events"), ("with_major_events", "caidi"))

# column of ours | column of the table as it was copied out
COLUMNS = (
    ("saidi", "saidi_all"),
    ("saifi", "saifi_all"),
    ("caidi", "caidi_all"),
    ("saidi_without_events", "saidi_calm"),
    ("caidi_without_events", "caidi_calm"),
)


def kinds() -> dict[str, OutageKind]:
    return {kind.id: kind for kind in outage_kinds()}


def test_the_kinds_are_the_pinned_ones() -> None:
    assert [(one.id, one.mean_h, one.cv) for one in outage_kinds()] == list(PINNED)


@pytest.mark.parametrize("one", outage_kinds(), ids=[one.id for one in outage_kinds()])
def test_each_kind_is_an_assumption_and_has_words(one: OutageKind) -> None:
    assert one.standing is Standing.COMMON_PRACTICE
    assert one.words.endswith(".")


@pytest.mark.parametrize("name, column", MEANS)
def test_the_mean_of_a_kind_is_that_of_five_published_years(name: str, column: str) -> None:
    table = load("eia_reliability")
    minutes = [table.number(year, column) for year in LAST_FIVE]
    assert kinds()[name].mean_h == pytest.approx(sum(minutes) / 5 / 60, abs=5e-4)


def test_no_later_five_years_have_both_columns() -> None:
    table = load("eia_reliability")
    assert table.number_or_none(YEARS[9], "caidi_without_events") is None


def test_a_planned_shutoff_is_as_many_hours_as_it_is_called_by() -> None:
    fixed = [one for one in outage_kinds() if one.cv is None]
    assert [one.mean_h for one in fixed] == [24.0, 48.0, 72.0, 96.0]
    assert [one.id for one in fixed] == [f"shutoff_{one.mean_h:g}" for one in fixed]


def test_storms_make_outages_longer_and_less_alike() -> None:
    ordinary, stormy = kinds()["ordinary"], kinds()["with_major_events"]
    assert ordinary.cv is not None
    assert stormy.cv is not None
    assert ordinary.mean_h < stormy.mean_h < kinds()["long_event"].mean_h
    assert ordinary.cv < stormy.cv


def test_the_reliability_table_holds_every_year_once() -> None:
    table = load("eia_reliability")
    assert tuple(table.rows) == YEARS
    assert table.standing is Standing.PUBLISHED
    assert table.title.startswith("Electric Power Annual")
    assert "Table 11.1" in table.section


@pytest.mark.parametrize("year", YEARS)
def test_minutes_an_interruption_are_minutes_over_interruptions(year: str) -> None:
    """CAIDI is SAIDI over SAIFI, worked out to the tenth that is printed, to one such tenth."""
    table = load("eia_reliability")
    ratio = round(table.number(year, "saidi") / table.number(year, "saifi"), 1)
    assert table.number(year, "caidi") == pytest.approx(ratio, abs=0.10 + 1e-9, rel=0)


@pytest.mark.parametrize("year", YEARS)
def test_leaving_major_events_out_never_adds_minutes(year: str) -> None:
    table = load("eia_reliability")
    assert 0 < table.number(year, "saidi_without_events") <= table.number(year, "saidi")
    shorter = table.number_or_none(year, "caidi_without_events")
    assert shorter is None or 0 < shorter <= table.number(year, "caidi")


@pytest.mark.parametrize("ours, printed", COLUMNS)
def test_each_column_is_the_one_that_was_copied_out(ours: str, printed: str) -> None:
    table, reference = load("eia_reliability"), parse("eia", REFERENCE.read_text(encoding="utf-8"))
    assert [table.number_or_none(year, ours) for year in YEARS] == [
        reference.number_or_none(year, printed) for year in YEARS
    ]
