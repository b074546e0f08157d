"""The best verdict that a request may have, whatever its hours and its power are.

Ranks are those of ``verdict``: 0 fail, 1 undetermined, 2 conditional, 3 pass.
"""

from __future__ import annotations

from collections.abc import Sequence

from service.checks.outage_runtime.battery_parameters import pick
from service.checks.outage_runtime.load_rows import Row
from service.checks.outage_runtime.verdict import CONDITIONAL, FAIL, PASS, UNDETERMINED
from service.facts import Battery

SHED = 3


def left_out(rows: Sequence[Row]) -> list[Row]:
    """Return the loads that are wanted and do not run: a person has to keep them off."""
    return [row for row in rows if row.tier == SHED]


def at_240_volts(rows: Sequence[Row]) -> list[Row]:
    """Return the kept loads that need 240 V."""
    return [row for row in rows if row.tier != SHED and row.volts == 240]


def beyond_warranty(battery: Battery) -> bool:
    """Return whether the unit is older than its warranty, so that nothing says what is left."""
    return (battery.age_years or 0.0) > pick(battery.warranty_years, "warranty_years").value


def voltage_rank(rows: Sequence[Row], battery: Battery) -> int:
    """Return how the loads' voltage suits the unit's."""
    if battery.split_phase or not at_240_volts(rows):
        return PASS
    return FAIL if battery.split_phase is False else CONDITIONAL


def best_rank(rows: Sequence[Row], battery: Battery) -> int:
    """Return the best verdict that rows and battery allow."""
    medical = any(row.life_support for row in rows)
    return min(
        CONDITIONAL if medical or left_out(rows) else PASS,
        UNDETERMINED if beyond_warranty(battery) else PASS,
        voltage_rank(rows, battery),
    )


def best_ranks(rows: Sequence[Row], battery: Battery) -> list[int]:
    """Return the best verdict by variant of the loads, as `running_power` numbers them."""
    kept = [[row for row in rows if row.tier == SHED or row.tier <= tier] for tier in (2, 1, 0)]
    whole, no_comfort, critical = (best_rank(some, battery) for some in kept)
    return [whole, no_comfort, critical, whole, whole]


def asked_tier(rows: Sequence[Row], stated: int) -> int:
    """Return the lowest tier that the target is held for.

    At least the highest tier that there is, and that of every kept life-support load.
    """
    kept = [row.tier for row in rows if row.tier != SHED]
    medical = [row.tier for row in rows if row.life_support and row.tier != SHED]
    return max(stated, min(kept, default=0), *medical, 0)
