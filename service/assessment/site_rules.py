"""Rules of the site itself, before any check: whether it is a home the service covers."""

from __future__ import annotations

from service.assessment.place import resolution
from service.facts import Home, Site
from service.findings import Finding, Verdict, worst


def site_findings(site: Site) -> list[Finding]:
    """Return the findings of a site with plain facts."""
    return [*_home_type(site), *_edition(site)]


def _edition(site: Site) -> list[Finding]:
    if resolution(site).known:
        return []
    return [
        Finding(
            rule="code-edition-unknown",
            verdict=Verdict.UNDETERMINED,
            statement="The code edition in force at this place and date is unknown to this "
            "release, so nothing is decided for it.",
        )
    ]


def _home_type(site: Site) -> list[Finding]:
    if (site.home or Home()).type == "multi_family_unit":
        return [
            Finding(
                rule="home-type-not-covered",
                verdict=Verdict.UNDETERMINED,
                statement="An apartment in a larger building stands under other codes than "
                "one- and two-family homes; nothing here is decided for it.",
            )
        ]
    return []


def site_verdict(site: Site) -> Verdict:
    """Return the worst verdict of the site's rules, pass where none applies."""
    return worst([Verdict.PASS, *(finding.verdict for finding in site_findings(site))])
