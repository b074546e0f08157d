"""Where a unit may hang, what must move, and how much way stays."""

from service.check import Check, run_check
from service.checks.clearance.answer import ClearanceAnswer
from service.checks.clearance.arguments import arguments
from service.checks.clearance.columns import columns
from service.checks.clearance.explain import explain
from service.checks.clearance.figures import figures, needs
from service.checks.clearance.from_site import from_site
from service.checks.clearance.refusals import refusals
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.verdicts import verdicts
from service.checks.clearance.work import ARRAY_RATE, RERUNS, work

CHECK = Check(
    id="clearance",
    title="Clearance",
    description=(
        "Where units may hang or stand on the walls of a home, in its garage or in a room: every "
        "permitted place of their left edge, how many fit, what forbids the rest, what way stays, "
        "and the closest fixes where there is no room. Lengths carry how they were measured; a "
        "margin smaller than their error asks for a tape. By telephone alone it says what to "
        "measure and to photograph."
    ),
    tag="checks",
    request=ClearanceRequest,
    answer=ClearanceAnswer,
    run=run_check(arguments, columns, explain),
    work=work,
    refusals=refusals,
    lighten="send fewer walls, fewer objects or fewer kinds of units",
    examples={
        "a-side-yard": "Two units on a measured side wall with a window and a panel (invented).",
        "b-garage": "Units on the back wall of a garage, in the way of vehicles (invented).",
        "c-no-room": "Three units on a crowded wall, with what would make room (invented).",
        "d-by-telephone": "A side yard as told by telephone (invented).",
    },
    arguments=arguments,
    columns=columns,
    explain=explain,
    facts_read=("/place", "/permit_date", "/confirmed_rules", "/home", "/candidates"),
    from_site=from_site,
    verdicts=verdicts,
    needs=needs,
    figures=figures,
    reruns=RERUNS,
    array_rate=ARRAY_RATE,
)
