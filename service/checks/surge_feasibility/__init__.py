"""Surge feasibility: whether a source starts the motors and carries what runs beside them."""

from service.check import Check, run_check
from service.checks.surge_feasibility.answer import SurgeFeasibilityAnswer
from service.checks.surge_feasibility.arguments import arguments
from service.checks.surge_feasibility.columns import columns
from service.checks.surge_feasibility.explain import explain
from service.checks.surge_feasibility.figures import figures, needs
from service.checks.surge_feasibility.from_site import from_site
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest, refusals
from service.checks.surge_feasibility.verdicts import verdicts
from service.checks.surge_feasibility.work import ARRAY_RATE, work

CHECK = Check(
    id="surge-feasibility",
    title="Surge feasibility",
    description=(
        "Whether the battery inverter, or a generator, starts the motors and carries what runs "
        "beside them: every start is solved against the source's ratings, from the best that is "
        "known of the motor, at both ends of what nobody measures; with what helps, and what to "
        "ask next."
    ),
    tag="checks",
    request=SurgeFeasibilityRequest,
    answer=SurgeFeasibilityAnswer,
    run=run_check(arguments, columns, explain),
    work=work,
    refusals=refusals,
    examples={
        "a-compressor": "A three-ton compressor on one small inverter (invented).",
        "b-well-pump": "A well pump behind a long wire, and a sump pump on one leg (invented).",
        "c-by-telephone": "No more than the tons: a question for the nameplate (invented).",
        "d-generator": "An inverter in the heat, and a generator on a transfer switch (invented).",
    },
    arguments=arguments,
    columns=columns,
    explain=explain,
    facts_read=("/wishes", "/home", "/equipment", "/candidates", "/place", "/permit_date"),
    from_site=from_site,
    verdicts=verdicts,
    needs=needs,
    figures=figures,
    heeds=("heat-exposure",),
    array_rate=ARRAY_RATE,
)
