"""The day of a permit application, as text."""

from __future__ import annotations

from typing import Annotated

from service.quantities.fields import text

#: A day of the 365-day year.
_DAY = (
    "^20[0-9]{2}-((0[13578]|1[02])-(0[1-9]|[12][0-9]|3[01])"
    "|(0[469]|11)-(0[1-9]|[12][0-9]|30)|02-(0[1-9]|1[0-9]|2[0-8]))\\Z"
)
PermitDate = Annotated[
    str,
    text(
        "Day of the permit application, YYYY-MM-DD; absent: the release's default.",
        example="2026-11-01",
        min_length=10,
        max_length=10,
        pattern=_DAY,
    ),
]
