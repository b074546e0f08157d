"""In which order checks are shown, and in which they are run."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from service.check import Check


def in_order(checks: Sequence[Check]) -> list[Check]:
    """Return the checks so that each stands after those whose answers it takes."""
    return _placed(checks, lambda check: set(check.after))


def in_run_order(checks: Sequence[Check]) -> list[Check]:
    """Return the checks so that each stands after those too that it heeds where they are made."""
    made = {check.id for check in checks}
    return _placed(checks, lambda check: set(check.after) | (set(check.heeds) & made))


def feeders(checks: Sequence[Check]) -> set[str]:
    """Return the ids of the checks whose answers others take."""
    return {name for check in checks for name in (*check.after, *check.heeds)}


def _placed(checks: Sequence[Check], waits_for: Callable[[Check], set[str]]) -> list[Check]:
    placed: list[Check] = []
    left = list(checks)
    while left:
        known = {check.id for check in placed}
        ready = [check for check in left if known >= waits_for(check)]
        if not ready:
            raise ValueError("checks wait for each other: " + ", ".join(c.id for c in left))
        placed += ready
        left = [check for check in left if check not in ready]
    return placed
