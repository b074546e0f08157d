"""The one comparison: a limit is held within the tolerance of its dimension."""

from __future__ import annotations

from typing import Any

import numpy as np
from numpy.typing import NDArray

#: Absolute tolerance of each dimension in its SI unit: far below what the trade can measure,
#: far above the last bit. Standing: derived, our own choice.
TOLERANCE = {
    "duration": 1e-6,
    "power": 1e-6,
    "energy": 1e-3,
    "length": 1e-9,
    "current": 1e-9,
    "fraction": 1e-12,
    "temperature": 1e-6,
}


def reaches(actual: Any, limit: Any, dimension: str) -> NDArray[np.bool_]:
    """Return where `actual` is not less than `limit` [SI], within the dimension's tolerance."""
    return np.asarray(actual) >= np.asarray(limit) - TOLERANCE[dimension]


def at_least(actual: float, limit: float, dimension: str) -> bool:
    """Return whether one number is not less than another [SI]; `reaches` for two floats."""
    return actual >= limit - TOLERANCE[dimension]
