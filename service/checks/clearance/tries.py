"""A fix to try, and how much effort it takes."""

from __future__ import annotations

from typing import Final, NamedTuple

from service.checks.clearance.request import ClearanceRequest

#: Least effort first: to hang it elsewhere, to choose another, and who moves what is in the way.
MOVE: Final = 1
CHOOSE: Final = 2
OWNER: Final = 3
CONTRACTOR: Final = 4
UTILITY: Final = 5


class Try(NamedTuple):
    """A fix to try: its words, the request with it done, and how many stand then by the search."""

    id: str
    effort: int
    statement: str
    request: ClearanceRequest
    placed: int
