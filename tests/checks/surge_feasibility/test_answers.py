"""Answers of the surge check: verdicts, conditions, questions, and what it may never say."""

from typing import Any

import pytest

from service.findings import Verdict
from tests.checks.surge_feasibility.requests import (
    COMPRESSOR,
    LARGE,
    SMALL,
    Body,
    answer,
    body,
    only,
    refused,
)

FAIL, OPEN, IF, PASS = Verdict
FOUR_KW = [{"name": "oven", "watts": 4000, "circuit": "both_legs", "nature": "constant_power"}]
TEN_SECONDS = LARGE | {"surge": [{"seconds": 10, "amps": 58}], "beyond_rating": "trips"}
DRIVE = {"id": "pump", "kind": "drive_fed", "rated_load_a": 8}
PUMP: Body = {
    "id": "well",
    "kind": "well_pump",
    "locked_rotor_a": 48,
    "rated_load_a": 9.8,
    "volts": 230,
    "wire": {"length": 250, "size": "10"},
}
#: One that carries the pump and the oven, and does not start the pump beside it.
MIDDLE = LARGE | {
    "continuous_a": 30,
    "surge": [{"seconds": 10, "amps": 56}],
    "beyond_rating": "trips",
}
MANUAL = {"kind": "manual", "connected_load_va": 4000}
SHEDS = {"kind": "automatic", "connected_load_va": 4000, "sheds_for_starts": True}

# what, request, verdict of the motor, its word
CASES: list[tuple[str, Body, Verdict, str]] = [
    ("enough for milliseconds", body(COMPRESSOR), PASS, "starts"),
    (
        "only a 10 s rating",
        body(COMPRESSOR, inverter=TEN_SECONDS),
        IF,
        "does_not_start",
    ),
    (
        "too little for a soft starter too",
        body(COMPRESSOR, inverter=SMALL),
        FAIL,
        "does_not_start",
    ),
    (
        "and no soft starter may be fitted to a pump",
        body(PUMP | {"locked_rotor_a": 150, "rated_load_a": 30}, inverter=SMALL),
        FAIL,
        "does_not_start",
    ),
    ("no delay", body(COMPRESSOR | {"delay": False}), IF, "starts"),
    ("a delay nobody knows of", body(COMPRESSOR | {"delay": None}), IF, "starts"),
    ("nobody said what runs", body(COMPRESSOR, running=None), OPEN, "starts"),
    (
        "a drive",
        body(DRIVE),
        PASS,
        "not_a_surge_problem",
    ),
    ("nothing known", body({"id": "ac", "kind": "compressor_scroll"}), OPEN, "uncertain"),
    ("three phases", body(COMPRESSOR | {"phases": 3}), OPEN, "uncertain"),
]


@pytest.mark.parametrize("what, made, verdict, word", CASES, ids=[row[0] for row in CASES])
def test_motor(what: str, made: Body, verdict: Verdict, word: str) -> None:
    found = only(made)
    assert (found.verdict, found.word) == (verdict, word)


def heavy(**more: Any) -> Body:
    """A pump that starts alone, and not beside an oven."""
    return body(PUMP, inverter=MIDDLE, **({"running": FOUR_KW} | more))


def test_a_load_to_be_shed_first_fails_unless_somebody_or_something_sheds_it() -> None:
    """Automatic transfer: fail; by hand or by listed load control: conditional; unknown: open."""
    assert only(heavy()).verdict is FAIL
    assert only(heavy(transfer=MANUAL)).verdict is IF
    assert only(heavy(transfer=SHEDS)).verdict is IF
    assert only(heavy(transfer=None)).verdict is OPEN


def test_the_load_that_may_stay_on_is_told() -> None:
    found = only(heavy())
    assert found.largest_load_beside_w is not None
    assert 0 < found.largest_load_beside_w < 4000
    watts = found.largest_load_beside_w
    oven = FOUR_KW[0]
    assert only(heavy(running=[oven | {"watts": watts}])).word.startswith("starts")
    assert only(heavy(running=[oven | {"watts": watts + 70}])).word != "starts"


def test_mistake_1_locked_rotor_kva_is_not_called_kw() -> None:
    """A five-ton start is 36 kVA; at power factor 0.66 it is 24 kW."""
    found = only(body(COMPRESSOR | {"locked_rotor_a": 150, "rated_load_a": 25, "volts": 240}))
    assert found.most_kva is not None
    assert found.most_kva < 130 * 240 / 1000 + 0.5


def test_mistake_2_what_runs_already_counts() -> None:
    assert only(body(PUMP, inverter=MIDDLE, running=[])).word.startswith("starts")
    assert only(heavy()).verdict is FAIL


def test_mistake_3_a_rating_holds_for_its_time_alone() -> None:
    """62 A for 0.05 s is no rating for a start of 0.2 s."""
    ratings = [{"seconds": 0.05, "amps": 130}, {"seconds": 10, "amps": 58}]
    short = only(body(COMPRESSOR, inverter=LARGE | {"surge": ratings, "beyond_rating": "trips"}))
    assert short.word == "does_not_start"


def test_mistake_4_amps_decide_in_current_limit() -> None:
    found = only(body(COMPRESSOR, inverter=SMALL, watts=0))
    assert found.most_amps is not None
    assert found.most_amps <= 37.5 + 1e-6
    assert found.start_seconds is None


def test_mistake_5_a_leg_is_half() -> None:
    """Two 2.4 kW loads on one leg overload a 25 A inverter of 6 kW."""
    loads = [{"name": "heater", "watts": 2400, "circuit": "leg_1"}] * 2
    found = answer(body(inverter=SMALL, running=loads))
    assert found.verdict is FAIL
    assert found.findings[0].rule == "running-amps"


def test_mistake_9_and_11_a_soft_starter_gives_no_start_against_pressure() -> None:
    found = only(body(COMPRESSOR | {"delay": False}))
    assert any("timer" in c for c in answer(body(COMPRESSOR | {"delay": False})).conditions)
    assert found.verdict is IF


def test_a_soft_starter_needs_equal_pressures() -> None:
    """It is tried on an equalised machine, so without a known delay it hangs on a timer too."""
    for delay, timers in ((True, 0), (None, 1)):
        found = answer(body(COMPRESSOR | {"delay": delay}, inverter=TEN_SECONDS))
        assert sum("soft starter" in condition for condition in found.conditions) == 1
        assert sum("timer" in condition for condition in found.conditions) == timers


def test_a_remedy_beside_unknown_loads_is_open() -> None:
    assert only(body(COMPRESSOR, inverter=TEN_SECONDS, running=None)).verdict is OPEN


def test_mistake_10_no_soft_starter_on_a_drive() -> None:
    drive = {"id": "p", "kind": "drive_fed", "soft_starter": {"current_percent": 50}}
    assert refused(body(drive)) == ["/motors/0/soft_starter"]
    assert not any(r.id.startswith("soft") for r in only(heavy()).remedies)


def test_mistake_13_a_second_unit_gives_no_surge_that_its_maker_does_not_promise() -> None:
    two = LARGE | {"count": 2}
    assert only(body(COMPRESSOR, inverter=two)).first_rating_a == 130 + 40
    shared = two | {"surge_sharing_percent": 90}
    assert only(body(COMPRESSOR, inverter=shared)).first_rating_a == pytest.approx(80 + 90 * 1.9)


def test_mistake_15_tons_never_pass() -> None:
    """However strong the inverter, a guess from tons is no better than open."""
    strong = {"continuous_a": 900, "surge": [{"seconds": 10, "amps": 1900}]}
    tons = {"id": "ac", "kind": "compressor_scroll", "tons": 3, "delay": True}
    found = only(body(tons, inverter=strong))
    assert (found.verdict, found.word) == (OPEN, "uncertain")
    assert found.evidence is not None
    assert found.evidence.basis == "tons"


def test_a_start_that_needs_a_rating_nobody_stated_is_open() -> None:
    """Within the continuous amps it needs none; above them it neither passes nor fails."""
    assert only(body(COMPRESSOR, inverter={"continuous_a": 900})).verdict is PASS
    for amps in (60, 25):
        motor = only(body(COMPRESSOR, inverter={"continuous_a": amps, "beyond_rating": None}))
        assert motor.verdict in (OPEN, IF)
        assert motor.word == "uncertain"


def test_life_support_on_a_bus_that_sags_is_open() -> None:
    weak = LARGE | {"resistance_ohm": 0.56, "reactance_ohm": 0.56}
    load = {"name": "oxygen", "watts": 350, "nature": "constant_impedance"}
    assert only(body(COMPRESSOR, inverter=weak, running=[load])).verdict is IF
    assert (
        only(body(COMPRESSOR, inverter=weak, running=[load | {"life_support": True}])).verdict
        is OPEN
    )


def test_amps_that_nobody_knows_are_no_pass() -> None:
    """A motor of unknown amps leaves what everything takes together open."""
    found = answer(body(COMPRESSOR, {"id": "ac", "kind": "compressor_scroll"}))
    (finding,) = [f for f in found.findings if f.rule == "running-amps"]
    assert finding.verdict is OPEN


def test_a_leg_nobody_stated_is_no_failure_where_a_spread_fits() -> None:
    """24 A on leg 1 and four loads of 8 A of unknown leg on 35 A: all on leg 2 they fit."""
    known = {"name": "a", "watts": 24 * 120, "power_factor": 1, "circuit": "leg_1"}
    loads = [{"name": f"b{i}", "watts": 8 * 120, "power_factor": 1} for i in range(4)]
    source = LARGE | {"continuous_a": 35, "surge": [{"seconds": 10, "amps": 58}]}

    def verdict(circuit: str) -> Verdict:
        running = [known, *(load | {"circuit": circuit} for load in loads)]
        found = answer(body(inverter=source, running=running))
        return next(f.verdict for f in found.findings if f.rule == "running-amps")

    assert (verdict("one_leg"), verdict("leg_2"), verdict("leg_1")) == (OPEN, PASS, FAIL)


def test_batteries_do_not_pass_for_loads_that_nobody_named() -> None:
    made = body(COMPRESSOR, inverter=LARGE | {"battery_kw": 50}, watts=None)
    for running, verdict in ((None, OPEN), ([], PASS)):
        found = answer(made | {"running": running}).findings
        assert next(f.verdict for f in found if f.rule == "battery-power") is verdict


def test_nothing_to_start_leaves_what_is_steady() -> None:
    found = answer(body())
    assert found.verdict is PASS
    assert [f.rule for f in found.findings] == ["running-amps", "backed-up-capacity"]


# what, kind of transfer, connected and managed load, confirmed by a licensed person, verdict
CAPACITY: list[tuple[str, str | None, float, float | None, bool, Verdict]] = [
    ("unknown", None, 0, None, True, OPEN),
    ("enough, confirmed", "automatic", 9600, None, True, PASS),
    ("enough", "automatic", 9600, None, False, IF),
    ("short", "automatic", 9601, None, True, FAIL),
    ("managed", "automatic", 20_000, 9000, True, IF),
    ("managed by hand", "manual", 20_000, 9000, True, FAIL),
]


@pytest.mark.parametrize(
    "what, kind, connected, managed, confirmed, verdict", CAPACITY, ids=[r[0] for r in CAPACITY]
)
def test_backed_up_capacity(
    what: str,
    kind: str | None,
    connected: float,
    managed: float | None,
    confirmed: bool,
    verdict: Verdict,
) -> None:
    loads = {"connected_load_va": connected, "managed_load_va": managed}
    transfer = None if kind is None else {"kind": kind} | loads
    rules = ["backed-up-capacity"] if confirmed else []
    found = answer(body(inverter=LARGE, transfer=transfer, confirmed_rules=rules))
    (finding,) = [f for f in found.findings if f.rule == "backed-up-capacity"]
    assert finding.verdict is verdict


def _filled(made: Body, pointer: str, value: Any) -> None:
    at: Any = made
    *path, last = pointer.removeprefix("/").split("/")
    for step in path:
        if isinstance(at, dict) and at.get(step) is None:
            at[step] = {}
        at = at[int(step)] if isinstance(at, list) else at[step]
    at[last] = value


def sparse() -> Body:
    pump = {"id": "well", "kind": "well_pump", "code_letter": "K", "horsepower": 1}
    return {
        "inverter": LARGE | {"count": 2},
        "motors": [pump, {"id": "ac", "kind": "compressor_scroll", "rated_load_a": 14}],
        "running": [{"name": "lights", "watts": 800}],
    }


def test_filling_in_every_assumption_changes_no_number() -> None:
    made = sparse()
    before = answer(made)
    assert before.assumptions
    for assumed in before.assumptions:
        _filled(made, assumed.pointer, assumed.value)
    after = answer(made)
    assert after.assumptions == []
    # What had a range has none any more; everything at nominal values stays.
    assert [one.start_amps for one in after.motors] == [one.start_amps for one in before.motors]
    assert [one.word for one in after.motors] == [one.word for one in before.motors]
    assert after.steady.leg_likely_a == before.steady.leg_likely_a
    assert after.verdict == before.verdict


@pytest.mark.parametrize(
    "made", [sparse(), heavy(transfer=None), body(COMPRESSOR | {"delay": None}, running=None)]
)
def test_every_question_that_claims_to_decide_does(made: Body) -> None:
    found = answer(made)
    for asked in found.questions:
        if asked.can_change_verdict and asked.range is not None:
            verdicts = set()
            for value in asked.range:
                again = {**made, "motors": [dict(m) for m in made["motors"]]}
                again["inverter"] = dict(made["inverter"])
                _filled(again, asked.pointer, value)
                verdicts.add(answer(again).verdict)
            assert verdicts != {found.verdict}, asked.pointer


def test_the_nameplate_is_asked_for_first() -> None:
    assert answer(sparse()).questions[0].ask_by == "photo"


# what, request, pointers of the refusal
REFUSED = [
    ("locked below rated", body(COMPRESSOR | {"locked_rotor_a": 20}), ["/motors/0/locked_rotor_a"]),
    ("twice the same id", body(COMPRESSOR, COMPRESSOR), ["/motors/1/id"]),
    ("a letter alone", body(COMPRESSOR | {"code_letter": "H"}), ["/motors/0/horsepower"]),
    ("115 V on both legs", body(COMPRESSOR | {"volts": 115}), ["/motors/0/volts"]),
    ("230 V on one leg", body(COMPRESSOR | {"circuit": "leg_1"}), ["/motors/0/volts"]),
    ("240 V from 120", body(COMPRESSOR, inverter=SMALL | {"volts": 120}), ["/motors/0/circuit"]),
    (
        "ratings out of order",
        body(COMPRESSOR, inverter=LARGE | {"surge": LARGE["surge"][::-1]}),
        ["/inverter/surge/1"],
    ),
    (
        "a rating below continuous",
        body(COMPRESSOR, inverter=SMALL | {"continuous_a": 40}),
        ["/inverter/surge/0"],
    ),
    (
        "a rating of no time",
        body(COMPRESSOR, inverter=SMALL | {"surge": [{"seconds": 0, "amps": 50}]}),
        ["/inverter/surge/0/seconds"],
    ),
]


@pytest.mark.parametrize("what, made, pointers", REFUSED, ids=[row[0] for row in REFUSED])
def test_refused_at_the_place_that_is_wrong(what: str, made: Body, pointers: list[str]) -> None:
    assert refused(made) == pointers
