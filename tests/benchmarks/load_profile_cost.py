"""What reading a home's meter data costs, by form and number of readings, in this process.

Run it with ``python -m tests.benchmarks.load_profile_cost``; it prints the best of several runs,
from the bytes of the body to the bytes of the answer.
"""

from __future__ import annotations

import sys
import time

from service.check import JSON
from service.http.answering import Answering
from service.load_profile import LOAD_PROFILE
from tests.load_profile.asking import as_json
from tests.load_profile.exports import MIDWINTER, export, sections
from tests.load_profile.feeds import plain_feed, steps

_RUNS = 3
#: Readings of a year and of three years of quarter hours, and the most seconds they may take.
_BOUNDS = {35_040: 0.3, 105_408: 1.0}
_XML = "application/xml"
_CSV = "text/csv"


def documents(count: int) -> dict[str, tuple[str, bytes]]:
    """Return media type and body by name, each of so many quarter hours."""
    feed = plain_feed(steps(count, 900, value=200))
    return {
        "feed, raw": (_XML, feed.encode()),
        "feed, in JSON": (JSON, as_json(feed)),
        "sections of a day": (_CSV, sections(MIDWINTER, count).encode()),
        "two columns": (_CSV, export(MIDWINTER, count, 15).encode()),
    }


def seconds(answering: Answering, media: str, body: bytes) -> float:
    """Return the best time of several runs [s]."""
    times = []
    for _ in range(_RUNS):
        begun = time.perf_counter()
        request, _predicted = answering.take(body, media)
        answering.answer(request, frozenset())
        times.append(time.perf_counter() - begun)
    return min(times)


def main() -> None:
    """Print every time beside its bound."""
    answering = Answering(LOAD_PROFILE)
    for count, bound in _BOUNDS.items():
        for name, (media, body) in documents(count).items():
            took = seconds(answering, media, body)
            share = took / bound
            sys.stdout.write(
                f"{count:>7} readings, {name:<18} {len(body) / 2**20:5.1f} MiB "
                f"{took:6.3f} s, {share:4.0%} of {bound:g} s\n"
            )


if __name__ == "__main__":
    main()
