"""What a coarse answer on a distance stands for."""

from __future__ import annotations

from functools import cache

from service.published.loader import load

NAME = "coarse_distances"


@cache
def coarse_distances() -> dict[str, tuple[float, float]]:
    """Return low and high end of every coarse answer [ft].

    Notes
    -----
    Source: table coarse_distances.
    """
    table = load(NAME)
    return {key: (table.number(key, "low"), table.number(key, "high")) for key in table.rows}
