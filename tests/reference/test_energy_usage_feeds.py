"""Published sample feeds give the sums that two other readers of them gave."""

from __future__ import annotations

import csv
import gzip
from datetime import datetime
from pathlib import Path

import pytest

from tests.load_profile.asking import asked, wh

HERE = Path(__file__).parent
# Sums, counts and first and last starts were taken from the files by a reader that shares no code
# with ours. Source of the files: NOTICE-energy_usage.txt.
FEEDS = [
    # file, readings, Wh, highest W, first start, last start, offset [h], gaps [h]
    ("abridged", 8, 4086, 611, 1293868800, 1293922800, -8, [8.0]),
    ("nine_days", 216, 199_563, 1365, 1388552400, 1389326400, -5, []),
    ("inland_single_family_2011", 8760, 8_343_306, 2370, 1293868800, 1325401200, -8, []),
]


def sample(name: str) -> str:
    return gzip.decompress((HERE / f"energy_usage_{name}.xml.gz").read_bytes()).decode()


@pytest.mark.parametrize("name, readings, energy, highest, first, last, offset, gaps", FEEDS)
def test_a_published_feed_has_its_published_sums(
    name: str,
    readings: int,
    energy: int,
    highest: int,
    first: int,
    last: int,
    offset: int,
    gaps: list[float],
) -> None:
    answer = asked(sample(name))
    figures = answer.statistics
    assert (figures.readings, wh(answer), figures.max_w) == (readings, energy, highest)
    starts = [datetime.fromisoformat(t) for t in (figures.first_start, figures.last_start)]
    assert [start.timestamp() for start in starts] == [first, last]
    assert {start.utcoffset() for start in starts} == {
        datetime.fromisoformat(f"2011-01-01T00:00:00{offset:+03d}:00").utcoffset()
    }
    assert [span.hours for span in answer.gaps] == gaps
    assert answer.assumptions == []
    assert (answer.repaired, answer.doubtful, answer.doubts) == ([], [], [])


def test_the_year_is_hour_by_hour_the_published_table_of_the_same_home() -> None:
    table = gzip.decompress((HERE / "ca_homes_2011_hourly_wh.csv.gz").read_bytes()).decode()
    rows = csv.DictReader(line for line in table.splitlines() if not line.startswith("#"))
    column = next(n for n in rows.fieldnames or [] if "inland" in n and "single" in n)
    published = [float(row[column]) for row in rows]
    profile = asked(sample("inland_single_family_2011")).profile
    assert profile is not None
    assert profile.watts == pytest.approx(published, abs=1e-9)
    assert (profile.filled_hours, len(profile.watts)) == (0, 8760)
