"""Conductor sizing by distance: wire, ground, conduit, breaker, drop."""

from service.check import Check, run_check
from service.checks.conductor_sizing.answer import ConductorSizingAnswer
from service.checks.conductor_sizing.arguments import arguments
from service.checks.conductor_sizing.columns import columns
from service.checks.conductor_sizing.explain import explain
from service.checks.conductor_sizing.figures import figures, needs
from service.checks.conductor_sizing.from_site import from_site
from service.checks.conductor_sizing.request import ConductorSizingRequest, refusals
from service.checks.conductor_sizing.verdicts import verdicts
from service.checks.conductor_sizing.work import ARRAY_RATE, work

CHECK = Check(
    id="conductor-sizing",
    title="Conductor sizing by distance",
    description=(
        "Which wire, ground, conduit and breaker a circuit takes over its distance, in copper and "
        "in aluminum: every rule with its own size, the one that governs, how far each size "
        "reaches, and what to bring."
    ),
    tag="checks",
    request=ConductorSizingRequest,
    answer=ConductorSizingAnswer,
    run=run_check(arguments, columns, explain),
    work=work,
    refusals=refusals,
    examples={
        "a-storage-output": "The output of a battery, 150 ft along a hot wall (invented).",
        "b-by-telephone": "No more than kW and a coarse distance (invented).",
        "c-across-the-yard": "A feeder to a garage: a buried run and a roof (invented).",
    },
    includes=("working",),
    arguments=arguments,
    columns=columns,
    explain=explain,
    facts_read=("/home", "/equipment", "/candidates", "/place", "/permit_date"),
    heeds=("clearance",),
    from_site=from_site,
    verdicts=verdicts,
    needs=needs,
    figures=figures,
    array_rate=ARRAY_RATE,
)
