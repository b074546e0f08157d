"""From one row of columns to the answer, in customary units and in words."""

from __future__ import annotations

from service.check import BRIEF, Arrays, Includes
from service.checks.outage_runtime import answer as an
from service.checks.outage_runtime import assumptions as assumed_by
from service.checks.outage_runtime.alternatives import alternatives, units_needed
from service.checks.outage_runtime.arguments import SEASONS
from service.checks.outage_runtime.battery_parameters import temperature_rows
from service.checks.outage_runtime.cautions import cautions
from service.checks.outage_runtime.energy_balance import energy_balance
from service.checks.outage_runtime.judgement import judge
from service.checks.outage_runtime.load_rows import sources_of
from service.checks.outage_runtime.questions import questions
from service.checks.outage_runtime.readings import events, marginal, power_need, readings
from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.sentences import body, bounding_hours, summary
from service.checks.outage_runtime.series import series
from service.checks.outage_runtime.target_findings import conditions, findings
from service.checks.outage_runtime.verdict import CONDITIONAL, VERDICTS
from service.checks.outage_runtime.working import working
from service.checks.outage_runtime.year_result import year_result
from service.checks.outage_runtime.year_sources import year_sources
from service.findings import Basis, headline, source_refs
from service.published import Source, data_edition, load
from service.published.outage_defaults import outage_defaults

_KWH = 3.6e6
#: Above this a unit gives less power: the first row of table temperature_power, 45 degC [degF].
_HOT_DEGF = 113.0


def explain(
    request: OutageRuntimeRequest, columns: Arrays, row: int, includes: Includes
) -> an.OutageRuntimeAnswer:
    """Return the answer to one request out of its row of the columns."""
    case = judge(request, columns, row)
    assumed = assumed_by.assumptions(case)
    asked = questions(case, assumed, reruns="brief" not in includes)
    hangs_on = conditions(case) if case.rank() == CONDITIONAL else []
    low, typical, high = bounding_hours(case)
    count, why = units_needed(case)
    start_hour = request.start_hour
    daily = case.of("daily_energy") / _KWH
    answered = an.OutageRuntimeAnswer(
        verdict=VERDICTS[case.rank()],
        headline=headline(VERDICTS[case.rank()], hangs_on, body(case), asked),
        summary=summary(case),
        conditions=hangs_on,
        findings=findings(case, assumed),
        alternatives=[] if includes == BRIEF else alternatives(case),
        assumptions=assumed,
        questions=asked,
        cautions=cautions(case),
        sources=source_refs(
            [
                *sources_of(request.use),
                *assumed_by.sources_of(assumed),
                *temperature(request.battery.ambient),
                *year_sources(case),
            ]
        ),
        basis=Basis(code_edition=None, data_edition=data_edition()),
        reference=request.reference,
        target_hours=request.target_hours,
        season="summer" if SEASONS[int(case.of("season"))] == "summer" else "winter",
        start_hour=outage_defaults()["start_hour"].value if start_hour is None else start_hour,
        hours_low=low,
        hours_typical=typical,
        hours_high=high,
        readings=readings(case),
        events=events(case),
        daily_energy=an.DailyEnergy(
            low_kwh=float(daily[0]), typical_kwh=float(daily[1]), high_kwh=float(daily[2])
        ),
        power=power_need(case),
        marginal=marginal(case),
        units=an.UnitsNeeded(count=count, why=why),
        largest_constant_load_w=float(case.of("constant_load"))
        if case.target and case.year is None
        else None,
        will_not_run=[r.name for r in case.rows if r.tier == 3],
        year=None if "brief" in includes else year_result(case, includes),
    )
    if "working" in includes:
        answered.working = working(case)
    if "series" in includes:
        answered.series = series(case)
    if "energy_balance" in includes:
        answered.energy_balance = energy_balance(case)
    return answered


def temperature(degf: float | None) -> list[Source]:
    """Return the rows that an air temperature [degF] is read from."""
    found = [load("temperature_capacity").cite(row) for row in temperature_rows(degf)]
    if degf is not None and degf > _HOT_DEGF:
        table = load("temperature_power")
        found += [table.cite(key) for key in table.rows]
    return found
