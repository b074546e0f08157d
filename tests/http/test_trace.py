"""W3C Trace Context, level 1: what is a trace parent and what is ignored."""

from __future__ import annotations

import pytest

from service.http.trace import trace_of

_TRACE, _SPAN = "0af7651916cd43dd8448eb211c80319c", "b7ad6b7169203331"
_KNOWN = [
    f"00-{_TRACE}-{_SPAN}-01",
    f"00-{_TRACE}-{_SPAN}-ff",
    f"cc-{_TRACE}-{_SPAN}-01",
    f"cc-{_TRACE}-{_SPAN}-01-what-the-future-brings",
]
_IGNORED = [
    "",
    f"00-{_TRACE}-{_SPAN}",
    f"00-{_TRACE}-{_SPAN}-01-more",
    f"ff-{_TRACE}-{_SPAN}-01",
    f"00-{_TRACE.upper()}-{_SPAN}-01",
    f"00-{'0' * 32}-{_SPAN}-01",
    f"00-{_TRACE}-{'0' * 16}-01",
    f"00-{_TRACE}-{_SPAN}-01, 00-{_TRACE}-{_SPAN}-01",
    f"cc-{_TRACE}-{_SPAN}-01.more",
]


@pytest.mark.parametrize("header", _KNOWN)
def test_a_trace_parent_names_trace_and_span(header: str) -> None:
    assert trace_of(header.encode()) == (_TRACE, _SPAN)


@pytest.mark.parametrize("header", _IGNORED)
def test_a_malformed_trace_parent_is_ignored(header: str) -> None:
    assert trace_of(header.encode()) is None
