"""Rules of the site itself, before any check: whether it is a home the service covers."""

from __future__ import annotations

from service.facts import Home, Site
from service.findings import Finding, Verdict, worst


def site_findings(site: Site) -> list[Finding]:
    """Return the findings of a site with plain facts."""
    if (site.home or Home()).type == "multi_family_unit":
        return [
            Finding(
                rule="home-type-not-covered",
                verdict=Verdict.UNDETERMINED,
                statement="A flat in a larger building stands under other codes than one- and "
                "two-family homes; nothing here is decided for it.",
            )
        ]
    return []


def site_verdict(site: Site) -> Verdict:
    """Return the worst verdict of the site's rules, pass where none applies."""
    return worst([Verdict.PASS, *(finding.verdict for finding in site_findings(site))])
