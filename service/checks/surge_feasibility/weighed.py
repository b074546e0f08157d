"""Everything that the verdict of a request is made of, on the planned source and beside it."""

from __future__ import annotations

from typing import NamedTuple

from service.checks.surge_feasibility import answer as an
from service.checks.surge_feasibility.battery_in_start import battery_in_start
from service.checks.surge_feasibility.capacity_rules import capacity
from service.checks.surge_feasibility.generator_rules import generator_rules
from service.checks.surge_feasibility.judgement import Judgement
from service.checks.surge_feasibility.motor_rows import motor_row
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.restart_together import restart_together
from service.checks.surge_feasibility.steady import Carried, steady
from service.findings import Finding, Verdict, worst


class Weighed(NamedTuple):
    """The motors, what is carried, every finding and every condition."""

    motors: list[an.MotorStart]
    carried: Carried
    findings: list[Finding]
    conditions: list[str]

    @property
    def verdict(self) -> Verdict:
        """Return the worst verdict of the findings."""
        return worst([finding.verdict for finding in self.findings])


def weighed(request: SurgeFeasibilityRequest, stands: list[Judgement], *, shown: bool) -> Weighed:
    """Return what the verdict is made of; `shown`: with what was tried for every motor."""
    planned = stands[0]
    motors = [
        motor_row(request, planned, place, shown=shown) for place in range(len(request.motors))
    ]
    carried = steady(request, planned.source)
    asked, asked_for = capacity(request, carried)
    together, apart = restart_together(request, planned)
    joined, joins = generator_rules(request, stands)
    conditions = [
        *(condition for one in planned.motors for condition in one.conditions),
        *carried.conditions,
        *asked_for,
        *apart,
        *joins,
    ]
    findings = [
        *_of_motors(motors, planned),
        *carried.findings,
        *battery_in_start(request, planned),
        asked,
        *together,
        *joined,
    ]
    # Two motors may hang on the same thing.
    return Weighed(motors, carried, findings, list(dict.fromkeys(conditions)))


def _of_motors(motors: list[an.MotorStart], stands: Judgement) -> list[Finding]:
    made = stands.made
    cited = {} if made is None else dict(zip(made.places, made.evidence, strict=True))
    return [
        Finding(
            rule="motor-starts",
            verdict=motor.verdict,
            statement=motor.statement,
            actual=motor.start_amps,
            limit=None if motor.start_amps is None else motor.first_rating_a,
            unit=None if motor.start_amps is None else "A",
            sources=[source.id for source in cited[place].sources] if place in cited else [],
        )
        for place, motor in enumerate(motors)
    ]
