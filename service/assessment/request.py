"""What the site assessment takes."""

from __future__ import annotations

from typing import Annotated

from msgspec import Meta

from service.facts import Candidate, Reference, Site


class SiteAssessmentRequest(Site, forbid_unknown_fields=True, kw_only=True):
    """A homeowner's lead: place and wishes, and whatever else is known."""

    reference: Reference | None = None
    candidates: (
        Annotated[
            list[Candidate],
            Meta(
                description="Batteries that might be offered; absent: what any would have to do.",
                min_length=1,
                max_length=6,
                examples=[
                    [
                        {
                            "id": "two-units",
                            "battery": {
                                "energy": {"kind": "usable", "kwh": 12.0},
                                "count": 2,
                                "continuous_kw": 5.0,
                            },
                        }
                    ]
                ],
            ),
        ]
        | None
    ) = None
