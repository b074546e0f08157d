"""Surge feasibility: whether a source starts the motors and carries what runs beside them."""

from service.check import Operation
from service.checks.surge_feasibility.answer import SurgeFeasibilityAnswer
from service.checks.surge_feasibility.explain import answered
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest, refusals
from service.checks.surge_feasibility.work import work

SURGE_FEASIBILITY = Operation(
    id="surge-feasibility",
    title="Surge feasibility",
    description=(
        "Whether the battery inverter starts the motors and carries what runs beside them: every "
        "start is solved against the inverter's ratings, from the best that is known of the motor, "
        "at both ends of what nobody measures; with what helps, and what to ask next."
    ),
    tag="checks",
    request=SurgeFeasibilityRequest,
    answer=SurgeFeasibilityAnswer,
    run=answered,
    work=work,
    refusals=refusals,
    examples={
        "a-compressor": "A three-ton compressor on one small inverter (invented).",
        "b-well-pump": "A well pump behind a long wire, and a sump pump on one leg (invented).",
        "c-by-telephone": "No more than the tons: a question for the nameplate (invented).",
    },
    includes=("series",),
)
