"""The check's request worked out of what a site assessment knows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.check import FromSite
from service.facts import Candidate, Site


def from_site(site: Site, candidate: Candidate | None, _answers: Mapping[str, Any]) -> FromSite:
    """Return the request for one candidate, or the facts that are missing for it."""
    del site, candidate
    return FromSite(None, (), {})
