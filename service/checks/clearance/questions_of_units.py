"""What to ask of the job and of the units: data sheets, listing, the code as adopted."""

from __future__ import annotations

from service.checks.clearance.asked import Asked
from service.checks.clearance.hazard_rules import highest_handle
from service.checks.clearance.held import LABELS
from service.checks.clearance.judged import Judged
from service.checks.clearance.request import ClearanceRequest
from service.checks.clearance.rule_numbers import RuleNumbers
from service.checks.clearance.unit_boxes import UNKNOWN_VOLTS, USUAL_STANDOFF, USUAL_VOLTS
from service.facts.siting_unit import SitingUnit
from service.findings import AskBy, Verdict, best, worst
from service.quantities.comparison import at_least

_J_PER_KWH = 3.6e6


def of_the_job(
    request: ClearanceRequest,
    rules: RuleNumbers,
    judged: list[Judged],
    chosen: Judged | None,
) -> list[Asked]:
    """Return what is not known of the home, its place and the code as adopted."""
    found = []
    if request.home is None:
        found.append(
            Asked(
                "/home",
                "the kind of home",
                "Is it a house for one or two families, a townhouse, an accessory unit, or a "
                "building of more dwellings?",
                AskBy.TELEPHONE,
                ("one_family", "multi_family"),
                "It decides which code applies.",
            )
        )
    if not rules.known:
        found.append(
            Asked(
                "/edition",
                "the edition of the building code",
                "Which edition of the residential code has the authority adopted?",
                AskBy.RECORD,
                ("model-2021", "model-2024"),
                "The numbers differ by edition.",
                moves=True,
            )
        )
    confirm = [] if chosen is None else [one.rule for one in chosen.held if one.confirm]
    if confirm:
        rules_asked = [one for one in LABELS if one in confirm or one in request.confirmed_rules]
        found.append(
            Asked(
                "/confirmed_rules",
                "the numbers as adopted",
                "Does a licensed person confirm these numbers against the code as adopted: "
                + ", ".join(LABELS[one] for one in dict.fromkeys(confirm))
                + "?",
                AskBy.RECORD,
                (rules_asked,),
                "They stand here on secondary sources, on common practice or on memory.",
                then=best(_confirmed(one, confirm) for one in judged),
            )
        )
    return found


def of_the_units(
    request: ClearanceRequest, rules: RuleNumbers, chosen: Judged | None
) -> list[Asked]:
    """Return what is not known of the units."""
    found: list[Asked] = []
    for index, unit in enumerate(request.units):
        found += _of_the_sheet(unit, rules, f"/units/{index}")
        if chosen is not None:
            found += _of_the_box(unit, rules, f"/units/{index}")
    return found


def _of_the_sheet(unit: SitingUnit, rules: RuleNumbers, at: str) -> list[Asked]:
    found = []
    if unit.listed is None:
        found.append(
            Asked(
                f"{at}/listed",
                f"the listing of {unit.id}",
                "Does its data sheet say that it is listed to UL 9540 for homes?",
                AskBy.RECORD,
                (True, False),
                "An unlisted unit is not allowed.",
            )
        )
    if unit.energy is None:
        most = rules.unit_energy / _J_PER_KWH
        found.append(
            Asked(
                f"{at}/energy",
                f"the energy of {unit.id}",
                "How many kilowatt-hours does one unit hold, as rated?",
                AskBy.RECORD,
                (1.0, most + 1.0),
                "One unit, and all of a location, hold no more than the code allows.",
            )
        )
    if unit.clearances is None:
        found.append(
            Asked(
                f"{at}/clearances",
                f"the room that {unit.id} asks",
                "How much room do its instructions ask at its sides, above and before it?",
                AskBy.RECORD,
                (
                    {"left": 0.0, "right": 0.0, "top": 0.0, "front": 0.0},
                    {"left": 24.0, "right": 24.0, "top": 24.0, "front": 48.0},
                ),
                "The instructions may ask for more than the code.",
                moves=True,
            )
        )
    if unit.mass is None:
        found.append(
            Asked(
                f"{at}/mass",
                f"the weight of {unit.id}",
                "How much does one unit weigh?",
                AskBy.RECORD,
                (50.0, 400.0),
                "It decides who carries it and what holds it.",
            )
        )
    return found


def _of_the_box(unit: SitingUnit, rules: RuleNumbers, at: str) -> list[Asked]:
    found = []
    if unit.standoff is None:
        found.append(
            Asked(
                f"{at}/standoff",
                f"the bracket of {unit.id}",
                "How far does its bracket keep its back from the wall?",
                AskBy.RECORD,
                (0.0, USUAL_STANDOFF),
                "It adds to the depth.",
                moves=True,
                minor=True,
            )
        )
    if unit.worked_on_live is None:
        found.append(
            Asked(
                f"{at}/worked_on_live",
                f"whether {unit.id} is serviced live",
                "Has it a breaker, a disconnect or a wiring compartment that is opened while "
                "energized?",
                AskBy.RECORD,
                (True, False),
                "What is serviced live keeps a working space before it.",
                moves=True,
                minor=True,
            )
        )
    if unit.volts_to_ground is None:
        found.append(
            Asked(
                f"{at}/volts_to_ground",
                f"the voltage of {unit.id}",
                "Which is the highest voltage to ground inside?",
                AskBy.RECORD,
                (USUAL_VOLTS, UNKNOWN_VOLTS),
                "Above 150 V the working space may be deeper.",
                moves=True,
                minor=True,
            )
        )
    if unit.handle is None and not at_least(rules.handle, highest_handle(unit, rules), "length"):
        found.append(
            Asked(
                f"{at}/handle",
                f"the handle of {unit.id}",
                "How high above its lower edge is the centre of its disconnect's handle?",
                AskBy.RECORD,
                (1.0, unit.height),
                "A handle is no higher than the code allows.",
            )
        )
    return found


def _confirmed(judged: Judged, rules: list[str]) -> Verdict:
    """Return the verdict of a place with the numbers of some rules confirmed as adopted."""
    return worst(
        Verdict.PASS if one.confirm and one.rule in rules and one.condition is None else one.verdict
        for one in judged.held
    )
