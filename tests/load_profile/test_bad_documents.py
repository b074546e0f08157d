"""Hostile and broken documents: each is refused with a place, or answered; none does harm."""

from __future__ import annotations

import codecs
import tracemalloc

import pytest

from service.check import Refused
from service.load_profile.document_text import text_of
from service.load_profile.espi_reader import DEEPEST, MOST_ELEMENTS, MOST_NAMES, MOST_OF
from tests.load_profile.asking import asked, refusal
from tests.load_profile.exports import MIDWINTER, export, sections
from tests.load_profile.feeds import (
    ESPI,
    NEW_YEAR,
    block,
    entry,
    feed,
    plain_feed,
    steps,
    usage_point,
)

LAUGHS = '<!DOCTYPE lolz [<!ENTITY lol "lol">' + "".join(
    f'<!ENTITY lol{i} "{f"&lol{i - 1 if i > 1 else str()};" * 10}">' for i in range(1, 10)
)
BOMBS = {
    "billion laughs": f"{LAUGHS}]><feed>&lol9;</feed>",
    "quadratic blow-up": f'<!DOCTYPE x [<!ENTITY a "{"a" * 50_000}">]><x>{"&a;" * 20_000}</x>',
    "external entity": '<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]><x>&a;</x>',
    "external subset": '<!DOCTYPE x SYSTEM "http://127.0.0.1:1/x.dtd"><x/>',
    "parameter entity": '<!DOCTYPE x [<!ENTITY % a SYSTEM "http://127.0.0.1:1/">%a;]><x/>',
    "empty declaration": "<!DOCTYPE feed><feed/>",
}


@pytest.mark.parametrize("name", BOMBS)
def test_a_document_type_declaration_ends_the_reading(name: str) -> None:
    tracemalloc.start()
    assert "document type declaration" in refusal(BOMBS[name])
    _, peak = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert peak < 4 * len(BOMBS[name]) + 1_000_000


def nested(depth: int) -> str:
    return "<a>" * depth + "</a>" * depth


BROKEN = [
    # document, part of the refusal
    (nested(DEEPEST + 1), f"line 1 is beyond a depth of {DEEPEST} elements"),
    (nested(500_000), "depth"),
    ("<a>" * 1_000_000, "depth"),
    (f"<a>{''.join(f'<n{i}/>' for i in range(MOST_NAMES + 1))}</a>", "different names"),
    (feed(entry(usage_point()) * (MOST_OF[""] + 1)), "1,000 meters"),
    (feed(entry(block([]) * 40_001)), "40,000 blocks of readings"),
    (feed("<entry/>" * 60_001), "60,000 entries"),
    ("<feed>\n<a " + " ".join(f"a{i}='1'" for i in range(20_000)) + "/></feed>", "line 2 begins"),
    (f"<feed>{'<a/>' * (MOST_ELEMENTS + 1)}</feed>", "1,100,000 elements"),
    (plain_feed(steps(24))[:-50], "no well-formed XML"),
    (plain_feed(steps(24)).replace("</value>", "</valve>", 1), "line 1 is no well-formed XML"),
    ("<feed/><feed/>", "junk after document element"),
    ("<feed>&nbsp;</feed>", "undefined entity"),
    ("<html><body>Log in</body></html>", "without an energy usage feed"),
    ("<feed/>", "without an energy usage feed"),
    (feed(entry(block([]))), "no readings of electricity"),
    (feed(entry(block([(NEW_YEAR, 3600, "x")] * 3))), "3 readings could not be read"),
    ("", "it is empty"),
    (" \n\t ", "it is empty"),
    ("\ufeff", "it is empty"),
    ("Start,kWh\n2025-01-01 00:00,1\0\n", "line 2 holds a NUL"),
    ("{}", "neither an XML feed nor a CSV"),
    ("%PDF-1.7", "neither an XML feed nor a CSV"),
    ("PK\x03\x04", "neither an XML feed nor a CSV"),
]


@pytest.mark.parametrize("document, detail", BROKEN)
def test_a_broken_document_is_refused_with_what_is_wrong(document: str, detail: str) -> None:
    assert detail in refusal(document)


def test_a_depth_within_the_bound_is_read() -> None:
    extra = f'<Other xmlns="{ESPI}">{nested(DEEPEST - 5)}</Other>'
    more = plain_feed(steps(24)).replace("</feed>", f"{entry(extra)}</feed>")
    assert asked(more) == asked(plain_feed(steps(24)))


VALUES = ["NaN", "inf", "-inf", "1e999", "9" * 400, "9" * 5000, "x", "", "1e13", "0x10"]


@pytest.mark.parametrize("value", VALUES)
def test_a_value_that_is_no_number_of_a_meter_is_unread(value: str) -> None:
    answer = asked(plain_feed([*steps(24), (NEW_YEAR + 86_400, 3600, value)]))
    assert (answer.statistics.readings, answer.unread_count) == (24, 1)
    assert answer.unread[0].place == "reading 25"


STARTS = [-1, 10**12, 10**30]


@pytest.mark.parametrize("start", STARTS)
def test_a_time_beyond_every_meter_is_unread(start: int) -> None:
    answer = asked(plain_feed([*steps(24), (start, 3600, 5)]))
    assert (answer.statistics.readings, answer.unread_count) == (24, 1)


@pytest.mark.parametrize("multiplier", [13, -13, 10**9])
def test_a_multiplier_beyond_every_meter_leaves_the_series_out(multiplier: int) -> None:
    assert "power of ten" in refusal(plain_feed(steps(24), powerOfTenMultiplier=multiplier))


ENCODED = [
    # bytes of a feed or an export, their text
    (plain_feed(steps(24)).encode(), plain_feed(steps(24))),
    (codecs.BOM_UTF8 + plain_feed(steps(24)).encode(), plain_feed(steps(24))),
    (plain_feed(steps(24)).encode("utf-16"), plain_feed(steps(24))),
    (
        plain_feed(steps(24)).replace("UTF-8", "ISO-8859-1").encode("latin-1"),
        plain_feed(steps(24)),
    ),
    (export(MIDWINTER, 48).encode("utf-16"), export(MIDWINTER, 48)),
    (sections(MIDWINTER, 96, blank="\u00a0").encode("cp1252"), sections(MIDWINTER, 96)),
    (sections(MIDWINTER, 96, blank="\u00a0").encode(), sections(MIDWINTER, 96)),
]


@pytest.mark.parametrize("body, text", ENCODED)
def test_an_encoding_that_exports_come_in_gives_the_same_answer(body: bytes, text: str) -> None:
    assert asked(text_of(body)) == asked(text)


NO_TEXT = [b'<?xml version="1.0" encoding="EBCDIC-US"?><a/>', b"\xff\xfea", b"\x81\x8d\x8f"]


@pytest.mark.parametrize("body", NO_TEXT)
def test_bytes_that_are_no_text_are_refused(body: bytes) -> None:
    with pytest.raises(Refused):
        text_of(body)


def test_no_refusal_quotes_what_the_document_says() -> None:
    private = "Invented-Person-4711"
    bad = plain_feed(steps(24)).replace("of an invented home", private)
    for document in (
        bad[:-30],
        f"<!DOCTYPE {private}><a/>",
        f"<{private}>{private}",
        f"{private},kWh\n{private},{private}\n",
        f"Start,{private} usage\n1,2\n",
        f"Start,kWh\n{private},1\n",
    ):
        assert private not in refusal(document)
