"""What this release takes where a request is silent."""

from datetime import date

from service.published.loader import load


def default_permit_date() -> date:
    """Return the permit date that enters where a request states none.

    Returns
    -------
    date

    Notes
    -----
    Source: table release_defaults, row permit_date.
    """
    return date.fromisoformat(load("release_defaults").row("permit_date")["value"])
