"""The way of the wires to the panel, by the answers of other checks."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any


def panel_way_of(answers: Mapping[str, Any]) -> float | None:
    """Return the longest way from a unit to the panel [ft]; None where no check worked it out."""
    found = [getattr(answer, "way_to_panel_ft", None) for answer in answers.values()]
    return next((one for one in found if isinstance(one, float)), None)
