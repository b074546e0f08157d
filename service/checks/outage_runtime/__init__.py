"""Outage runtime: how long the chosen loads run."""

from service.check import Check, run_check
from service.checks.outage_runtime.answer import OutageRuntimeAnswer
from service.checks.outage_runtime.arguments import arguments
from service.checks.outage_runtime.columns import columns
from service.checks.outage_runtime.explain import explain
from service.checks.outage_runtime.figures import figures, needs
from service.checks.outage_runtime.from_site import from_site
from service.checks.outage_runtime.refusals import refusals
from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.verdicts import verdicts
from service.checks.outage_runtime.work import ARRAY_RATE, work

CHECK = Check(
    id="outage-runtime",
    title="Outage runtime",
    description=(
        "How long the chosen loads run in an outage: from the reserve and from full, at low, "
        "typical and high use, now and at the end of the warranty; what ends it, and what one "
        "more unit, a tier less or another reserve buys. With solar, a generator, heating and "
        "cooling by weather or the home's own metered year the outage is a matter of the date: it "
        "is followed from every start hour of a typical year at the place."
    ),
    tag="checks",
    request=OutageRuntimeRequest,
    answer=OutageRuntimeAnswer,
    run=run_check(arguments, columns, explain),
    work=work,
    # A prediction is more often too long than too short; an answer shall take no more than 2 s.
    work_limit=2500.0,
    lighten=(
        "state the position of the home instead of its county or zone, ask for fewer target hours, "
        "send a metered year by the hour, or set the charges at which generator or load control "
        "act further apart"
    ),
    refusals=refusals,
    examples={
        "a-fifteen-loads": "Fifteen loads over 72 hours from a reserve of 60 % (invented).",
        "b-all-known": "Every fact stated: nothing is assumed (invented).",
        "c-monthly-bill": "No more than the bill: energy only, never a pass (invented).",
        "d-life-support": "An oxygen concentrator: conditional whatever the hours (invented).",
        "e-load-control": "Listed load control sheds comfort and normal loads (invented).",
        "f-day-profile": "A day profile, a part-load curve, no target (invented).",
        "g-sun-and-weather": "Two arrays, through a typical year at the home's place (invented).",
        "h-generator": "A generator with quiet hours, a tank and one refill (invented).",
        "i-cooling-by-county": "Cooling by weather where only the county is known (invented).",
    },
    includes=("working", "series", "energy_balance", "survival"),
    arguments=arguments,
    columns=columns,
    explain=explain,
    facts_read=("/wishes", "/home", "/equipment", "/candidates"),
    from_site=from_site,
    verdicts=verdicts,
    needs=needs,
    figures=figures,
    # Followed through a year by the charge; measured 1 to 8.
    reruns=4.0,
    heeds=("heat-exposure",),
    array_rate=ARRAY_RATE,
)
