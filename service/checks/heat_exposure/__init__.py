"""How hot the sun and the air make a unit, and what power and energy that leaves."""

from service.check import Check
from service.checks.heat_exposure.answer import HeatExposureAnswer
from service.checks.heat_exposure.arguments import arguments
from service.checks.heat_exposure.columns import columns
from service.checks.heat_exposure.explain import explain
from service.checks.heat_exposure.figures import figures, needs
from service.checks.heat_exposure.from_site import from_site
from service.checks.heat_exposure.refusals import refusals
from service.checks.heat_exposure.request import HeatExposureRequest
from service.checks.heat_exposure.run import run
from service.checks.heat_exposure.verdicts import verdicts
from service.checks.heat_exposure.work import ARRAY_RATE, RERUNS, work

CHECK = Check(
    id="heat-exposure",
    title="Heat exposure",
    description=(
        "How hot sun and air make a unit on each of some walls or in a garage, as a band from "
        "windy to calm, against the limits and the derating curve of its data sheet: a screening "
        "and ranking estimate, with what shade and colour buy. The day by default; the year with "
        "?include=series."
    ),
    tag="checks",
    request=HeatExposureRequest,
    answer=HeatExposureAnswer,
    run=run,
    work=work,
    refusals=refusals,
    lighten="state where the walls face, name one climate site, or send fewer walls",
    examples={
        "a-west-wall": "One wall in the low desert, everything known (invented).",
        "b-three-walls": "Walls to rank, with an eave, a fence and a tree (invented).",
        "c-by-telephone": "A size and a county, nothing else (invented).",
    },
    arguments=arguments,
    columns=columns,
    explain=explain,
    facts_read=("/place", "/wishes", "/home", "/candidates"),
    from_site=from_site,
    verdicts=verdicts,
    needs=needs,
    figures=figures,
    reruns=RERUNS,
    array_rate=ARRAY_RATE,
)
