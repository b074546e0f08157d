"""Numbers and names as the sentences of this check say them."""

from __future__ import annotations

import math


def up(number: float) -> str:
    """Return a number rounded up, as a limit is held against."""
    return f"{math.ceil(number * 10 - 1e-9) / 10:g}"
