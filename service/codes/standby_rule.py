"""Which rule says what the source of a backed-up home must carry."""

from __future__ import annotations

from functools import lru_cache

from service.codes.release import default_permit_date
from service.codes.resolver import editions
from service.published.loader import load


@lru_cache(maxsize=256)
def standby_rule(state: str, permit_date: str | None) -> tuple[str | None, str | None]:
    """Return the edition of a place and day, and the rule that carries there.

    Parameters
    ----------
    state : str
        Two letters; empty where unknown.
    permit_date : str or None
        In ISO form; None: the release's default.

    Returns
    -------
    tuple
        Id of the edition, None where it is not known; id of the rule, None where it is not known
        which one an authority holds.

    Notes
    -----
    Source: tables code_editions and standby_rules.
    """
    found = editions(state, permit_date or default_permit_date().isoformat())
    if not found.known:
        return None, None
    rules = load("standby_rules").rows
    rule = rules[found.current]["carries"] if found.current in rules else None
    return found.current, rule
