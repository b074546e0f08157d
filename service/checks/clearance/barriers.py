"""Barriers before a run of units: bollards or wheel barriers, and the depth left to park in."""

from __future__ import annotations

from math import ceil

from service.checks.clearance.wall_lane import SAME


def bollard_count(run: float, spacing: float) -> int:
    """Return how many bollards a protected run takes.

    Parameters
    ----------
    run : float
        From the first to the last [m].
    spacing : float
        Most between two [m].

    Returns
    -------
    int
        At least 2: one at each end.

    Notes
    -----
    Source: spacing, 2022 CRC R328.8.3, from memory, not verified; the count derived.
    """
    return max(2, ceil((run - SAME) / spacing) + 1)


def bollards(x1: float, x2: float, spacing: float) -> tuple[float, ...]:
    """Return where bollards stand along a protected run.

    Parameters
    ----------
    x1, x2 : float
        Ends of the run [m].
    spacing : float
        Most between two [m].

    Returns
    -------
    tuple of float
        Centres, the first and the last at the ends, equally spaced [m].

    Notes
    -----
    Source: derived.
    """
    steps = bollard_count(x2 - x1, spacing) - 1
    return tuple(x1 + (x2 - x1) * step / steps for step in range(steps + 1))


def wheel_barriers(x1: float, x2: float, length: float, gap: float) -> tuple[float, ...]:
    """Return where wheel barriers begin along a protected run.

    Parameters
    ----------
    x1, x2 : float
        Ends of the run [m].
    length : float
        Of one barrier [m].
    gap : float
        Most between two [m].

    Returns
    -------
    tuple of float
        Left ends of the fewest that span the run, equally spaced; where they are longer than the
        run they stand centred on it, end to end [m].

    Notes
    -----
    Source: length and gap, 2022 CRC R328.8.3, from memory, not verified; the row derived.
    """
    run = x2 - x1
    count = max(1, ceil((run + gap - SAME) / (length + gap)))
    between = max(0.0, (run - count * length) / (count - 1)) if count > 1 else 0.0
    row = count * length + (count - 1) * between
    first = 0.5 * (x1 + x2 - row)
    return tuple(first + (length + between) * step for step in range(count))


def parking_depth_left(depth: float, front: float, distance: float, thickness: float) -> float:
    """Return the depth of a garage that is left to park in before barriers at the back.

    Parameters
    ----------
    depth : float
        From the vehicle opening to the back wall [m].
    front : float
        How far the unit reaches out from the back wall [m].
    distance : float
        From the unit to the barrier [m].
    thickness : float
        Of the barrier: diameter of a bollard, width of a wheel barrier [m].

    Returns
    -------
    float
        Below 0 where there is no room for the barrier [m].

    Notes
    -----
    Source: derived; distances, 2022 CRC R328.8.3, from memory, not verified.
    """
    return depth - front - distance - thickness
