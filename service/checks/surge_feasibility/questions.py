"""What to ask next: the nameplate first."""

from __future__ import annotations

from typing import Any, NamedTuple

from service.checks.surge_feasibility.evidence import motor_evidence
from service.checks.surge_feasibility.request import SurgeFeasibilityRequest
from service.checks.surge_feasibility.running_va import motor_va
from service.checks.surge_feasibility.source import sources_of
from service.checks.surge_feasibility.verdicts import verdicts
from service.codes import standby_rule
from service.facts import LEAST_LOCKED, Inverter, Motor, continuous_amps, filled, surge_amps
from service.findings import AskBy, Question, Verdict

#: Bounds of the contract [A], [A], [VA].
_MOST_LOCKED, _MOST_SURGE, _MOST_VA = 1000.0, 2000.0, 500_000.0

#: Age from which a machine is likely of the earlier refrigerant, with more amps a ton [year].
#: Standing: common practice, no source.
_OLD = 15.0


#: Time of a start's first moment, and below which none is asked for [s], and what an inverter may
#: give then by its first rating [1].
#: Standing: derived, our choice: as much as decides.
_MOMENT, _LEAST_MOMENT, _OFTEN = 0.5, 0.1, 3.0


class _Asked(NamedTuple):
    pointer: str
    label: str
    question: str
    ask_by: AskBy
    values: tuple[Any, ...]
    why: str
    only_if_it_decides: bool = False


def questions(request: SurgeFeasibilityRequest, verdict: Verdict) -> list[Question]:
    """Return the questions, those first that a rerun shows to decide.

    Parameters
    ----------
    request : SurgeFeasibilityRequest
        As sent.
    verdict : Verdict
        Of the whole answer to it.
    """
    asked = _open(request)
    tried = [(one, value) for one in asked for value in one.values]
    found = verdicts([filled(request, one.pointer, value) for one, value in tried])
    decides = {
        one.pointer for (one, _), then in zip(tried, found, strict=True) if then is not verdict
    }
    shown = [
        Question(
            pointer=one.pointer,
            label=one.label,
            question=one.question,
            ask_by=one.ask_by,
            can_change_verdict=one.pointer in decides,
            range=list(one.values) if all(_plain(v) for v in one.values) else None,
            why=one.why,
        )
        for one in asked
        if one.pointer in decides or not one.only_if_it_decides
    ]
    # A photo of a nameplate tells more than everything else, whatever else is still open.
    return sorted(shown, key=lambda q: (q.ask_by is not AskBy.PHOTO, not q.can_change_verdict))


def whole_values(request: SurgeFeasibilityRequest) -> dict[str, tuple[Any, ...]]:
    """Return what is tried in the fields that hold more than a number or a word, by pointer."""
    return {
        one.pointer: one.values for one in _open(request) if not all(_plain(v) for v in one.values)
    }


def _between(low: float, value: float, high: float) -> float:
    return min(max(low, value, 1.0), high)


def _plain(value: Any) -> bool:
    return isinstance(value, str | float | bool)


def _open(request: SurgeFeasibilityRequest) -> list[_Asked]:
    return [
        *_of_motors(request),
        *_of_the_rest(request),
        *_of_the_inverter(request),
        *_of_the_generator(request),
        *_of_the_transfer(request),
        *_of_the_place(request),
    ]


def _of_motors(request: SurgeFeasibilityRequest) -> list[_Asked]:
    found = []
    for index, motor in enumerate(request.motors):
        at = f"/motors/{index}"
        if motor.kind == "drive_fed":
            if motor.rated_load_a is None:
                found.append(_nameplate(f"{at}/rated_load_a", motor.id, (2.0, 40.0)))
            continue
        evidence = motor_evidence(motor)
        if motor.locked_rotor_a is None:
            low, high = (10.0, 150.0) if evidence is None else (evidence.low, evidence.high)
            least = LEAST_LOCKED * (motor.rated_load_a or 0.0)
            ends = (_between(least, low, _MOST_LOCKED), _between(least, high, _MOST_LOCKED))
            found.append(_nameplate(f"{at}/locked_rotor_a", motor.id, ends, _heard(motor)))
        if motor.rated_load_a is None and evidence is not None:
            most = (motor.locked_rotor_a or _MOST_LOCKED) / LEAST_LOCKED
            running = tuple(
                min(max(amps, 0.2), most, 200.0)
                for amps in (evidence.rated_low, evidence.rated_high)
            )
            found.append(
                _Asked(
                    f"{at}/rated_load_a",
                    f"the running amps of {motor.id}",
                    "Which rated-load or full-load amps does the label of the machine state?",
                    AskBy.PHOTO,
                    running,
                    "What it takes once it runs must be carried for long.",
                    only_if_it_decides=True,
                )
            )
        if motor.delay is None and motor.kind.startswith("compressor"):
            found.append(
                _Asked(
                    f"{at}/delay",
                    f"whether a timer holds {motor.id} off after an outage",
                    "When the power comes back, does the outdoor unit wait some minutes before it "
                    "runs?",
                    AskBy.TELEPHONE,
                    (True, False),
                    "Started at once it works against pressure and may stall.",
                )
            )
    return found


def _of_the_rest(request: SurgeFeasibilityRequest) -> list[_Asked]:
    found = []
    if request.running is None:
        found.append(
            _Asked(
                "/running",
                "what else runs",
                "Which lights and appliances are to stay on while the large motors start?",
                AskBy.TELEPHONE,
                ([], [{"name": "other loads", "watts": 3000.0}]),
                "What runs already takes amps that the start needs.",
            )
        )
    return [*found, *_of_legs(request)]


def _of_legs(request: SurgeFeasibilityRequest) -> list[_Asked]:
    """Ask which leg a load is on where its leg is not known, the largest first, three at most."""
    rows = [
        (load.watts, f"/running/{index}/circuit", load.name)
        for index, load in enumerate(request.running or [])
        if load.circuit == "one_leg"
    ]
    rows += [
        (motor_va(motor).nominal.real, f"/motors/{index}/circuit", motor.id)
        for index, motor in enumerate(request.motors)
        if motor.circuit == "one_leg"
    ]
    return [
        _Asked(
            pointer,
            f"the leg of {name}",
            f"On which of the two legs is the breaker of {name}: which side of the panel does it "
            "come from?",
            AskBy.VISIT,
            ("leg_1", "leg_2"),
            "Loads of unknown leg are counted on the worse one.",
            only_if_it_decides=True,
        )
        for _, pointer, name in sorted(rows, reverse=True)[:3]
    ]


def _of_the_inverter(request: SurgeFeasibilityRequest) -> list[_Asked]:
    found: list[_Asked] = []
    inverter = request.inverter
    if inverter is None:
        return found
    if request.motors and inverter.surge is None:
        amps = continuous_amps(inverter)
        found.append(
            _Asked(
                "/inverter/surge",
                "the inverter's surge ratings",
                "Which amps does the data sheet state above continuous, and for how many seconds?",
                AskBy.RECORD,
                (
                    [{"seconds": 10.0, "amps": amps}],
                    [{"seconds": 3.0, "amps": min(8 * amps, _MOST_SURGE)}],
                ),
                "Without them no start is counted as sure.",
            )
        )
    found += _of_shorter_times(request, inverter)
    if request.motors and inverter.beyond_rating is None:
        found.append(
            _Asked(
                "/inverter/beyond_rating",
                "what the inverter does beyond its ratings",
                "Does the inverter let the volts sag beyond its ratings, or shut down? Ask its "
                "maker.",
                AskBy.RECORD,
                ("folds_back", "trips"),
                "Some starts hang on it.",
            )
        )
    sustained = inverter.battery_kw
    if request.motors and sustained is not None and inverter.battery_surge_kw is None:
        found.append(
            _Asked(
                "/inverter/battery_surge_kw",
                "what the batteries give for seconds",
                "Which power do the batteries of one unit give for some seconds, by their data "
                "sheet?",
                AskBy.RECORD,
                (sustained, min(5.0 * sustained, 500.0)),
                "A start takes more for a moment than what runs.",
                only_if_it_decides=True,
            )
        )
    return found


def _of_shorter_times(request: SurgeFeasibilityRequest, inverter: Inverter) -> list[_Asked]:
    """Ask for a rating of a start's first moment where the sheet states none but of long times."""
    surge = inverter.surge or []
    if not request.motors or not surge or len(surge) > 3 or surge[0].seconds <= _LEAST_MOMENT:
        return []
    moment = min(_MOMENT, surge[0].seconds / 2)
    amps = min(_OFTEN * surge_amps(surge[0], inverter), _MOST_SURGE)
    rows = [{"seconds": rating.seconds, "amps": rating.amps, "kva": rating.kva} for rating in surge]
    return [
        _Asked(
            "/inverter/surge",
            "a surge rating of fractions of a second",
            f"Does the maker state amps for less than {surge[0].seconds:g} s too, and how many?",
            AskBy.RECORD,
            ([{"seconds": moment, "amps": amps}, *rows],),
            "A start takes its most amps for a moment, and no rating stated holds for one.",
            only_if_it_decides=True,
        )
    ]


def _of_the_generator(request: SurgeFeasibilityRequest) -> list[_Asked]:
    generator = request.generator
    if generator is None or request.inverter is None or generator.connection is not None:
        return []
    return [
        _Asked(
            "/generator/connection",
            "how the generator joins",
            "Does the generator feed an input of the inverter, or a transfer switch of the home?",
            AskBy.PHOTO,
            ("inverter_input", "transfer_switch"),
            "On a transfer switch it starts the motors alone; on the inverter's input it starts "
            "none.",
        )
    ]


def _of_the_place(request: SurgeFeasibilityRequest) -> list[_Asked]:
    if request.state is not None or standby_rule("", request.permit_date)[1] is not None:
        return []
    return [
        _Asked(
            "/state",
            "the state",
            "In which state is the home?",
            AskBy.TELEPHONE,
            ("CA",),
            "Which rule says what the source must carry hangs on the edition adopted there.",
            only_if_it_decides=True,
        )
    ]


def _of_the_transfer(request: SurgeFeasibilityRequest) -> list[_Asked]:
    transfer = request.transfer
    if transfer is not None and (transfer.connected_load_va or transfer.managed_load_va):
        return []
    va = sources_of(request.inverter, request.generator)[0].continuous_va
    ends: tuple[Any, ...] = (min(0.5 * va, _MOST_VA), min(2.0 * va, _MOST_VA))
    pointer = "/transfer/connected_load_va"
    if transfer is None:
        pointer = "/transfer"
        ends = tuple({"kind": "automatic", "connected_load_va": end} for end in ends)
    return [
        _Asked(
            pointer,
            "the load behind the transfer",
            "Which circuits come to the battery, by itself or by hand, and what is their "
            "calculated load?",
            AskBy.VISIT,
            ends,
            "The source must have the capacity for what its transfer gives it.",
        )
    ]


def _heard(motor: Motor) -> str:
    """Return what the telephone call hints at, for whoever looks at the photo."""
    hints = []
    if motor.hum == "steady":
        hints.append("its steady hum speaks for a drive")
    if motor.age_years is not None and motor.age_years >= _OLD:
        hints.append("machines of its age take more amps than later ones")
    return f" By telephone: {'; '.join(hints)}." if hints else ""


def _nameplate(pointer: str, name: str, ends: tuple[float, ...], hint: str = "") -> _Asked:
    return _Asked(
        pointer,
        f"the nameplate of {name}",
        "Please take a photo of the label on the outside of the machine, so that its amps can be "
        "read; open nothing.",
        AskBy.PHOTO,
        ends,
        f"The amps of the start come from it.{hint}",
    )
