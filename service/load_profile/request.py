"""The body of load-profile in its JSON form."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta, Struct

from service.check import MIB
from service.facts import Reference
from service.quantities.fields import number

#: Longest document, in JSON and raw [byte of UTF-8, and therefore characters].
LONGEST = 24 * MIB

_EXAMPLE = (
    "Start,Usage (kWh)\n2026-01-01 00:00,0.41\n2026-01-01 01:00,0.38\n2026-01-01 02:00,0.36\n"
)


class LoadProfileRequest(Struct, forbid_unknown_fields=True, kw_only=True):
    """The home's interval data as the utility exported them."""

    document: Annotated[
        str,
        Meta(
            description="Whole text of the export: an ESPI energy usage feed (XML) or a CSV whose "
            "header names a time and a usage column with its unit.",
            min_length=1,
            max_length=LONGEST,
            examples=[_EXAMPLE],
        ),
    ]
    reference: Reference | None = None
    utc_offset_hours: (
        Annotated[
            float,
            number(
                "Offset of the home's local standard time from UTC, used where the document "
                "states none; absent: -8, Pacific Standard Time.",
                ge=-12,
                le=14,
                example=-8.0,
                unit="h",
            ),
        ]
        | None
    ) = None
    daylight_saving: (
        Annotated[
            bool,
            Meta(
                description="Whether the clock of a CSV is set for daylight saving time; absent: "
                "as its days in March and November show it, yes where they show nothing.",
                examples=[True],
            ),
        ]
        | None
    ) = None
