"""What stands in for a site fact that is not known, and the values it might have instead.

Standing: common practice, no source. The last value is the one that asks most of a battery.
"""

from __future__ import annotations

from typing import Any, NamedTuple


class FactDefault(NamedTuple):
    """The value used while a fact is open, and every value it may have, the hardest last."""

    value: Any
    values: tuple[Any, ...]
    reason: str


FACT_DEFAULTS: dict[str, FactDefault] = {
    "/home/type": FactDefault(
        "house",
        ("accessory_unit", "house", "townhouse", "multi_family_unit"),
        "A house, until said otherwise.",
    ),
    "/home/medical_equipment": FactDefault(
        "none",
        ("none", "cpap", "other", "oxygen"),
        "None was mentioned; an unnamed device counts like an oxygen concentrator.",
    ),
    "/home/well_pump": FactDefault(
        "none", ("none", "v120", "v240"), "None was mentioned; 240 V until said otherwise."
    ),
    "/home/well_pump_watts": FactDefault(
        1000.0, (700.0, 2600.0), "A pump of half a horsepower; deep wells take up to two and more."
    ),
    "/home/sump_pump": FactDefault("none", ("none", "one"), "None was mentioned."),
    "/home/internet": FactDefault(
        "keep_running", ("leave_off", "keep_running"), "Most homes want it to stay up."
    ),
}
#: The set that stands in where no load was named, and the sets it might be.
ESSENTIAL_SET = FactDefault(
    "standard", ("bare", "standard", "rural_winter"), "No load was named: a usual set stands in."
)
