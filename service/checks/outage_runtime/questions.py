"""What to ask next, the deciding questions first."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace as row_replace
from typing import NamedTuple

from service.checks.outage_runtime.caps import SHED, at_240_volts, best_rank
from service.checks.outage_runtime.judgement import HOUR, Judgement
from service.checks.outage_runtime.lane_inputs import HORIZON
from service.checks.outage_runtime.lanes import BETTER, LAYOUT, WORSE
from service.checks.outage_runtime.load_rows import Row
from service.checks.outage_runtime.power_finding import spoken
from service.checks.outage_runtime.tried import tried
from service.checks.outage_runtime.wording import hours
from service.checks.outage_runtime.year_questions import year_questions
from service.facts import with_split_phase, with_warranty
from service.findings import AskBy, Assumption, Question
from service.published.outage_defaults import outage_defaults


class Asked(NamedTuple):
    """How a defaulted parameter is asked for."""

    parameter: str
    label: str
    ask_by: AskBy
    question: str


#: Pointer -> the parameter behind it and its question.
ASKED: dict[str, Asked] = {
    "/battery/reserve_percent": Asked(
        "reserve_percent",
        "the charge kept for outages",
        AskBy.TELEPHONE,
        "Which charge is the battery told to keep for outages, in percent?",
    ),
    "/battery/ambient": Asked(
        "ambient_degf",
        "the temperature where the unit is mounted",
        AskBy.TELEPHONE,
        "Where will the unit be mounted: in the garage, on a shaded or on a sunny outside wall?",
    ),
    "/battery/energy/depth_of_discharge": Asked(
        "depth_of_discharge",
        "the usable part of the energy",
        AskBy.RECORD,
        "What usable energy does the unit's data sheet state?",
    ),
    "/battery/losses/efficiency": Asked(
        "round_trip_efficiency",
        "the round-trip efficiency",
        AskBy.RECORD,
        "What round-trip efficiency, AC to AC, does the unit's data sheet state?",
    ),
    "/battery/losses/idle_watts": Asked(
        "idle_w",
        "the idle draw",
        AskBy.RECORD,
        "How many watts does one unit draw while it is on and carries nothing?",
    ),
    "/battery/end_of_warranty_retention": Asked(
        "end_of_warranty_retention",
        "the energy left at the end of the warranty",
        AskBy.RECORD,
        "What share of the new energy does the warranty promise at the end of its term?",
    ),
    "/battery/warranty_years": Asked(
        "warranty_years",
        "the length of the warranty",
        AskBy.RECORD,
        "How many years does the warranty run?",
    ),
    "/battery/floor_percent": Asked(
        "floor_percent",
        "the charge at which the unit switches off",
        AskBy.RECORD,
        "At which charge, in percent, does the unit switch off by itself?",
    ),
}
_SHADE = Asked(
    "shading_percent",
    "the shade on the solar",
    AskBy.PHOTO,
    "Which trees, chimneys or buildings shade the solar, at which time of day and year?",
)
ASKED |= {
    "/solar/system_losses_percent": Asked(
        "system_losses_percent",
        "the solar's losses",
        AskBy.RECORD,
        "How much did the solar give in a year, by its own record?",
    ),
    "/solar/yield_factor": Asked(
        "yield_factor",
        "the sun of the place",
        AskBy.RECORD,
        "How does the solar's own yearly record compare with the typical year here?",
    ),
}
ASKED["/outdoor_offset"] = Asked(
    "outdoor_offset",
    "the outdoor temperature",
    AskBy.RECORD,
    "How much hotter or colder than at the climate site does it get at the home?",
)
ASKED |= {f"/solar/arrays/{index}/shading_percent": _SHADE for index in range(6)}
#: Targets tried [s]: the shortest of the contract, and the week that is simulated without one.
_TARGET_ENDS = (0.25 * HOUR, HORIZON)
#: Ends of the continuous power of a unit [kW], as in the contract.
_POWER_ENDS = (0.05, 200.0)


#: Readings in which a parameter's influence is looked for, in words and by lane.
_READINGS = (
    ("typical use, now", "typical"),
    ("high use, aged", "strict"),
    ("typical use, now, at best charge", "relaxed_default"),
)


def _of_parameter(case: Judgement, assumption: Assumption) -> Iterator[Question]:
    asked = ASKED.get(assumption.pointer)
    if asked is None:
        return
    times = case.times()
    triples = [LAYOUT.triples[f"{asked.parameter}/{end}"] for end in (WORSE, BETTER)]
    least = case.of("at_least")
    said, words = ["", ""], ""
    for reading, name in _READINGS:
        ends = sorted((getattr(triple, name) for triple in triples), key=times.__getitem__)
        said = [hours(float(times[lane]), bool(least[lane])) for lane in ends]
        words = reading
        if said[0] != said[1]:
            break
    yield Question(
        pointer=assumption.pointer,
        label=asked.label,
        question=asked.question,
        ask_by=asked.ask_by,
        can_change_verdict=_flips(case, asked.parameter),
        range=assumption.range,
        why=(
            f"Over its range {asked.label} moves the runtime between {said[0]} and {said[1]} "
            f"({words})."
        ),
    )


def _flips(case: Judgement, parameter: str) -> bool:
    """Return whether an end of a defaulted parameter's range changes the verdict.

    The length of the warranty also decides whether the unit has outlived it.
    """
    if parameter != "warranty_years":
        return case.parameter_flips(parameter)
    entry, battery = outage_defaults()[parameter], case.request.battery
    return any(
        case.rank_with_best(
            best_rank(case.rows, with_warranty(battery, years)), f"{parameter}/{end}"
        )
        != case.rank()
        for years, end in ((entry.low, WORSE), (entry.high, BETTER))
    )


def _of_target(case: Judgement) -> Iterator[Question]:
    if case.request.target_hours is None:
        yield Question(
            pointer="/target_hours",
            label="the target hours",
            question="How many hours must the chosen loads run?",
            ask_by=AskBy.TELEPHONE,
            can_change_verdict=any(
                case.rank_for(end, case.tier) != case.rank() for end in _TARGET_ENDS
            ),
            range=[end / HOUR for end in _TARGET_ENDS],
            why="Without a target there is a runtime and no verdict.",
        )
    if case.request.season is None:
        yield Question(
            pointer="/season",
            label="the season",
            question="Is it the summer or the winter outage that must be carried?",
            ask_by=AskBy.TELEPHONE,
            can_change_verdict=case.season_flips(),
            range=["summer", "winter"],
            why="The worse season is answered for.",
        )


def _of_power(case: Judgement) -> Iterator[Question]:
    if case.by_loads and case.request.battery.continuous_kw is None:
        yield Question(
            pointer="/battery/continuous_kw",
            label="the continuous power",
            question="What continuous power, in kilowatts, does the unit's data sheet state?",
            ask_by=AskBy.RECORD,
            can_change_verdict=any(
                case.rank_with_power(end * 1000) != case.rank() for end in _POWER_ENDS
            ),
            range=list(_POWER_ENDS),
            why="Without it nothing says whether the unit carries the loads together.",
        )
    if not case.by_loads:
        yield Question(
            pointer="/use/kind",
            label="the single loads",
            question="Which appliances must run, and how many of each?",
            ask_by=AskBy.TELEPHONE,
            can_change_verdict=False,
            why="A bill or an hourly profile hides the peaks that the inverter must carry.",
        )


def _of_voltage(case: Judgement) -> Iterator[Question]:
    battery, rows = case.request.battery, case.rows
    if battery.split_phase is None and at_240_volts(rows):
        ends = [best_rank(rows, with_split_phase(battery, value)) for value in (False, True)]
        yield Question(
            pointer="/battery/split_phase",
            label="whether the unit gives 240 V",
            question="Does the unit's data sheet state 120/240 V output, or 120 V alone?",
            ask_by=AskBy.RECORD,
            can_change_verdict=any(case.rank_with_best(end) != case.rank() for end in ends),
            range=[False, True],
            why="Some of the chosen loads need 240 V.",
        )
    for index, row in enumerate(rows):
        if row.volts_assumed and row.tier != SHED:
            ends = [best_rank(_with_volts(rows, index, volts), battery) for volts in (120, 240)]
            yield Question(
                pointer=f"/use/rows/{index}/volts",
                label=f"the voltage of the {spoken(row)}",
                question="Is the well pump's breaker a double one (240 V) or a single one (120 V)?",
                ask_by=AskBy.TELEPHONE,
                can_change_verdict=any(case.rank_with_best(end) != case.rank() for end in ends),
                range=[120, 240],
                why="240 V until said otherwise; a unit of 120 V alone cannot run it.",
            )


def _with_volts(rows: list[Row], index: int, volts: int) -> list[Row]:
    return [
        row_replace(row, volts=volts) if place == index else row for place, row in enumerate(rows)
    ]


def _of_row(case: Judgement) -> Iterator[Question]:
    index = int(case.of("asked_row"))
    if index < 0:
        return
    row = case.rows[index]
    ends = [case.rank(f"row-watts-{end}") for end in ("low", "high")]
    low, typical, high = row.watts
    yield Question(
        pointer=f"/use/rows/{index}/watts",
        label=f"the watts of {spoken(row)}",
        question=f"What running watts does the {spoken(row)} take, by its label or by a meter?",
        ask_by=AskBy.PHOTO,
        can_change_verdict=any(rank != case.rank() for rank in ends),
        range=[low, high],
        why=f"It moves the energy most: {low:g} to {high:g} W, {typical:g} W assumed.",
    )


def _of_medical(case: Judgement) -> Iterator[Question]:
    plan = case.request.medical_plan
    if not case.life_support:
        return
    if plan is None or plan.utility_programme is None:
        yield Question(
            pointer="/medical_plan/utility_programme",
            label="the utility's medical program",
            question="Is the home on the utility's program for customers with medical need?",
            ask_by=AskBy.TELEPHONE,
            can_change_verdict=False,
            why="Its members are warned before a shutoff and looked after in a long one.",
        )
    if plan is None or plan.second_plan is None:
        yield Question(
            pointer="/medical_plan/second_plan",
            label="the second plan",
            question="What is the second plan for the medical equipment if the battery runs out?",
            ask_by=AskBy.TELEPHONE,
            can_change_verdict=False,
            why="Nobody's life may depend on one battery.",
        )


def questions(case: Judgement, assumed: list[Assumption], *, reruns: bool) -> list[Question]:
    """Return the questions of the case: those that can change the verdict first.

    Without `reruns` what only another answer could tell is not claimed: the assessment, which
    answers for whole sites, claims by reruns of its own.
    """
    found = [
        *_of_target(case),
        *_of_power(case),
        *_of_voltage(case),
        *_of_medical(case),
        *(question for assumption in assumed for question in _of_parameter(case, assumption)),
        *_of_row(case),
        *year_questions(case, reruns=reruns),
    ]
    if reruns:
        found = tried(case, found)
    return sorted(found, key=lambda question: not question.can_change_verdict)
