"""Windows of a day on a grid of quarter hours: membership, counted slot by slot."""

from collections.abc import Iterable

Windows = Iterable[tuple[float, float]]

SLOTS = 96


def covered(windows: Windows) -> list[bool]:
    """Return for each quarter hour from midnight whether a window holds its middle."""
    spans = list(windows)
    return [any(_holds((slot + 0.5) / 4, *span) for span in spans) for slot in range(SLOTS)]


def hours_covered(windows: Windows) -> float:
    return sum(covered(windows)) / 4


def _holds(hour: float, start: float, end: float) -> bool:
    """Whether the window holds the hour; one that does not end after it starts passes midnight."""
    return start <= hour < end if end > start else not end <= hour < start
