"""Mean day of six classes of California homes, by month."""

from collections.abc import Mapping
from functools import cache
from types import MappingProxyType

from service.published.loader import load

NAME = "class_day_shapes"


def class_ids() -> tuple[str, ...]:
    """Return the ids of the classes, in the order of the table.

    Returns
    -------
    tuple of str

    Notes
    -----
    Source: table class_day_shapes.
    """
    return tuple(dict.fromkeys(class_id for class_id, _ in _shapes()))


def day_shape(class_id: str, month: int) -> tuple[float, ...]:
    """Return the mean power of a class in each hour of the mean day of a month.

    Parameters
    ----------
    class_id : str
        One of `class_ids()`.
    month : int
        1 to 12.

    Returns
    -------
    tuple of float, length 24
        [W]; item i is the mean from hour i to i + 1, local standard time.

    Raises
    ------
    KeyError
        There is no such class or month.

    Notes
    -----
    Source: table class_day_shapes; the mean energy of an hour in Wh is its mean power in W.
    """
    return _shapes()[class_id, month]


@cache
def _shapes() -> Mapping[tuple[str, int], tuple[float, ...]]:
    table = load(NAME)
    found: dict[tuple[str, int], tuple[float, ...]] = {}
    for key in table.rows:
        class_id, _, month = key.rpartition("/")
        found[class_id, int(month)] = tuple(table.number(key, c) for c in table.columns[1:])
    return MappingProxyType(found)
