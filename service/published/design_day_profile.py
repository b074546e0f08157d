"""Course of the temperature through a design day."""

from functools import cache

from service.published.loader import load

NAME = "design_day_profile"


@cache
def range_parts() -> tuple[float, ...]:
    """Return by what part of the daily range each hour lies below the highest temperature [1].

    Returns
    -------
    tuple of float
        24, from midnight to eleven at night: the table's last row, midnight, comes first.

    Notes
    -----
    Source: table design_day_profile.
    """
    table = load(NAME)
    return tuple(table.number(str(hour or 24), "part") for hour in range(24))
