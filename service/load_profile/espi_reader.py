"""One pass over the XML of an energy usage feed, by a parser that expands nothing.

The parser is the expat of the standard library with its dangers switched off: a document type
declaration ends the reading, so there are no entities beyond XML's own five, and depth, elements
and names are bounded. Text is kept only of the elements that are read here; titles, names,
addresses, account numbers and summaries pass by unread.
"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable
from typing import Any, Final, NoReturn
from xml.parsers import expat

from service.load_profile.espi_feed import Block, Feed, Links, Resource, epoch, whole
from service.load_profile.espi_names import ATOM, ESPI
from service.load_profile.readings import MOST_READINGS
from service.load_profile.refusal import refused, too_many_readings

DEEPEST: Final = 40
MOST_ELEMENTS: Final = 1_100_000
MOST_NAMES: Final = 5_000
#: Longest tag or text, so that no tag has a million attributes.
_LONGEST_PIECE = 100_000
_LONG: Final = re.compile(f"<[^<]{{{_LONGEST_PIECE}}}")
#: Longest text that a number, a time or a link has.
_LONGEST = 500


def _espi(*names: str) -> dict[str, str]:
    return {f"{ESPI} {name}": name for name in names}


_ENTRY: Final = f"{ATOM} entry"
_LINK: Final = f"{ATOM} link"
_TIMES: Final = {f"{ATOM} published": "published", f"{ATOM} updated": "updated"}
_READING: Final = f"{ESPI} IntervalReading"
_BLOCK: Final = f"{ESPI} IntervalBlock"
#: Resource -> elements read of it, each a whole number.
_RESOURCES: Final = {
    f"{ESPI} UsagePoint": _espi("kind"),
    f"{ESPI} LocalTimeParameters": _espi("tzOffset", "dstOffset"),
    f"{ESPI} MeterReading": _espi(),
    f"{ESPI} ReadingType": _espi(
        "accumulationBehaviour",
        "commodity",
        "flowDirection",
        "intervalLength",
        "powerOfTenMultiplier",
        "uom",
    ),
    _BLOCK: _espi("start"),
}
#: Most entries, blocks of readings and, under no name, resources of all other kinds.
MOST_OF: Final = {_ENTRY: 60_000, _BLOCK: 40_000, "": 1_000}
_WORDS: Final = {_ENTRY: "entries", _BLOCK: "blocks of readings"}
_OF_READING: Final = _espi("start", "duration", "value")
_NOTHING: Final[dict[str, str]] = {}


def read_feed(text: str) -> Feed:
    """Return what the feed holds.

    Raises
    ------
    Refused
        It is no well-formed XML, has a document type declaration, or is beyond a bound.
    """
    if long := _LONG.search(text):
        line = text.count("\n", 0, long.start()) + 1
        raise refused(
            f"line {line} begins a tag or text of more than {_LONGEST_PIECE:,} characters; "
            "a meter's feed has none"
        )
    parser = expat.ParserCreate("utf-8", " ")
    parser.buffer_text = True
    reader = _Reader(parser)
    try:
        parser.Parse(text.encode("utf-8"), True)
    except expat.ExpatError as error:
        reason = expat.ErrorString(error.code)
        raise refused(
            f"line {error.lineno} is no well-formed XML: {reason}; send the export whole"
        ) from None
    except UnicodeEncodeError:
        raise refused("it holds half a character (a lone surrogate); send UTF-8") from None
    return reader.feed


class _Reader:
    """Handlers of the parser; `scope` names the elements whose text is read now."""

    def __init__(self, parser: Any) -> None:
        self.feed = Feed()
        self._parser = parser
        self._pieces: list[str] = []
        self._scope = _NOTHING
        self._found: dict[str, str] = {}
        self._entry: list[Resource] = []
        self._links = Links()
        self._times: dict[str, str] = {}
        self._counts: Counter[str] = Counter()
        self._left = MOST_READINGS
        self._adding = (self.feed.start.append, self.feed.length.append, self.feed.value.append)
        self._resource: Resource | None = None
        self._resource_name = ""
        parser.StartDoctypeDeclHandler = _no_declaration
        parser.EntityDeclHandler = _no_declaration
        parser.CharacterDataHandler = self._pieces.append
        parser.StartElementHandler, parser.EndElementHandler = self._handlers()

    def _handlers(self) -> tuple[Callable[[str, dict[str, str]], None], Callable[[str], None]]:
        """Return what start and end tags call: a million times, so they hold what they need."""
        pieces = self._pieces
        clear = pieces.clear
        plain: set[str] = set()
        opening = frozenset((_READING, _ENTRY, _LINK, *_RESOURCES))
        closing = frozenset((_ENTRY, *_RESOURCES))
        depth = 0
        deepest, left = DEEPEST, MOST_ELEMENTS
        known = plain.__contains__

        def start(name: str, attributes: dict[str, str]) -> None:
            nonlocal depth, left
            left -= 1
            depth += 1
            if depth > deepest or left < 0:
                raise self._beyond(
                    f"a depth of {deepest} elements"
                    if depth > deepest
                    else f"{MOST_ELEMENTS:,} elements"
                )
            if known(name):
                return
            if name in opening:
                self._open(name, attributes)
            else:
                plain.add(name)
                if len(plain) > MOST_NAMES:
                    raise self._beyond(f"{MOST_NAMES:,} different names of elements")

        def end(name: str) -> None:
            nonlocal depth
            depth -= 1
            field = self._scope.get(name)
            if field is not None:
                self._found[field] = pieces[0] if len(pieces) == 1 else "".join(pieces)
            elif name == _READING:
                self._end_reading()
            elif name in closing:
                self._close(name)
            clear()

        return start, end

    def _beyond(self, bound: str) -> Exception:
        line = self._parser.CurrentLineNumber
        return refused(f"line {line} is beyond {bound}; send the meter's own feed, fewer months")

    def _open(self, name: str, attributes: dict[str, str]) -> None:
        if name == _READING:
            if self._resource_name == _BLOCK and self._resource is not None:
                if self._found:
                    self._keep_fields(self._resource)
                self._scope = _OF_READING
        elif name == _LINK:
            self._link(attributes)
        elif name == _ENTRY:
            self._count(name)
            self._entry, self._links, self._found = [], Links(), {}
            self._scope = _TIMES
        elif self._resource is None:
            kind = name.partition(" ")[2]
            place = len(self.feed.resources)
            self._count(name)
            made = Block if name == _BLOCK else Resource
            self._resource = made(kind, place, links=self._links)
            if isinstance(self._resource, Block):
                self._resource.first = len(self.feed.start)
            self.feed.resources.append(self._resource)
            self._entry.append(self._resource)
            self._times = self._found
            self._resource_name, self._scope, self._found = name, _RESOURCES[name], {}

    def _count(self, name: str) -> None:
        kind = name if name in MOST_OF else ""
        self._counts[kind] += 1
        if self._counts[kind] > MOST_OF[kind]:
            raise self._beyond(
                f"{MOST_OF[kind]:,} {_WORDS.get(kind, 'meters, types and the like')}"
            )

    def _close(self, name: str) -> None:
        if name == _ENTRY:
            self._end_entry()
        elif self._resource is not None and name == self._resource_name:
            self._keep_fields(self._resource)
            if isinstance(self._resource, Block):
                self._resource.after = len(self.feed.start)
            self._resource, self._scope, self._found = None, _TIMES, self._times

    def _end_reading(self) -> None:
        if self._scope is not _OF_READING:
            return
        found = self._found
        get = found.get
        begin, lasting, number = self._adding
        begin(get("start"))
        lasting(get("duration"))
        number(get("value"))
        self._left -= 1
        if self._left < 0:
            raise too_many_readings()
        self._scope = _NOTHING
        found.clear()

    def _end_entry(self) -> None:
        issued = self._found.get("updated") or self._found.get("published") or ""
        for resource in self._entry:
            resource.issued = epoch(issued[:40])
        self._scope, self._found = _NOTHING, {}

    def _keep_fields(self, resource: Resource) -> None:
        for field, text in self._found.items():
            number = whole(text)
            if number is not None:
                resource.fields.setdefault(field, number)
        self._found = {}

    def _link(self, attributes: dict[str, str]) -> None:
        address = attributes.get("href", "")[:_LONGEST]
        links = self._links
        match attributes.get("rel"):
            case "self":
                links.own = links.own or address
            case "up":
                links.up = links.up or address
            case "related" if len(links.related) < MOST_NAMES:
                links.related.add(address)


def _no_declaration(*_declared: object) -> NoReturn:
    raise refused("it has a document type declaration, which is not read; send the export alone")
