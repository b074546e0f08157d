"""What one pass over a feed finds, before anything is joined."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import UTC, datetime


@dataclass(slots=True)
class Links:
    """The links of an entry."""

    own: str = ""
    up: str = ""
    related: set[str] = field(default_factory=set)


@dataclass(slots=True)
class Resource:
    """One resource of a kind with its whole-number fields.

    `place` is its order in the feed, over resources of all kinds.
    """

    kind: str
    place: int
    fields: dict[str, int] = field(default_factory=dict)
    links: Links = field(default_factory=Links)
    issued: int = 0


@dataclass(slots=True)
class Block(Resource):
    """An interval block: its readings stand at [first, after) in the feed's lists."""

    first: int = 0
    after: int = 0


@dataclass(slots=True)
class Feed:
    """Everything of a feed that is read; what names people and places is not."""

    resources: list[Resource] = field(default_factory=list)
    #: The texts of each reading; None: not stated.
    start: list[str | None] = field(default_factory=list)
    length: list[str | None] = field(default_factory=list)
    value: list[str | None] = field(default_factory=list)

    def of(self, kind: str) -> list[Resource]:
        """Return the resources of a kind in the order of the feed."""
        return [resource for resource in self.resources if resource.kind == kind]


def epoch(text: str) -> int:
    """Return a time of the feed [s since 1970], 0 where it is none."""
    try:
        read = datetime.fromisoformat(text.strip())
        aware = read if read.tzinfo else read.replace(tzinfo=UTC)
        return int(aware.timestamp())
    except (ValueError, OverflowError):
        return 0


#: Longest text that is taken for a number.
_LONGEST = 40


def whole(text: str | None) -> int | None:
    """Return a whole number of the feed, None where it is none."""
    if text is None or len(text) > _LONGEST:
        return None
    try:
        return int(text)
    except ValueError:
        return None


def number(text: str | None) -> float:
    """Return a number of the feed, NaN where it is none."""
    if text is None or len(text) > _LONGEST:
        return float("nan")
    try:
        return float(text)
    except ValueError:
        return float("nan")
