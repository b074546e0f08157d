"""Amps of a motor from what is known of it, best evidence first."""

from typing import Any

import msgspec
import pytest

from service.checks.surge_feasibility.evidence import motor_evidence
from service.facts.motor import Motor

# what is known, basis, locked-rotor low, nominal, high [A], rated-load [A]. By hand: nameplate
# +-10 %; NEC 430.7(B) kVA/hp x hp x 1000 / V; 4.5, 6, 6.5 x RLA; NEC 430.251(A) and 430.248.
KNOWN: list[tuple[dict[str, Any], str, float, float, float, float]] = [
    ({"locked_rotor_a": 80, "rated_load_a": 15}, "nameplate", 72, 80, 88, 15),
    ({"locked_rotor_a": 60, "horsepower": 1}, "nameplate", 54, 60, 66, 8),
    ({"locked_rotor_a": 60}, "nameplate", 54, 60, 66, 10),
    (
        {"code_letter": "H", "horsepower": 1},
        "code_letter",
        6300 / 230,
        (6300 + 7090) / 460,
        7090 / 230,
        8,
    ),
    ({"rated_load_a": 10, "horsepower": 1}, "rated_load_amps", 45, 60, 65, 10),
    ({"horsepower": 1}, "horsepower", 36, 48, 52.8, 8),
    ({"horsepower": 0.5, "circuit": "leg_1"}, "horsepower", 44.1, 58.8, 64.68, 9.8),
    ({"horsepower": 0.9}, "horsepower", 36, 48, 52.8, 8),
    ({"tons": 3}, "tons", 70, 96, 96, 18),
    ({"tons": 2.2}, "tons", 60 * 2.2 / 2.5, 82, 82, 15),
]


@pytest.mark.parametrize("known, basis, low, nominal, high, rated", KNOWN)
def test_amps(
    known: dict[str, Any], basis: str, low: float, nominal: float, high: float, rated: float
) -> None:
    motor = msgspec.convert({"id": "it", "kind": "well_pump"} | known, Motor)
    found = motor_evidence(motor)
    assert found is not None
    assert found.basis == basis
    assert (found.low, found.nominal, found.high, found.rated) == pytest.approx(
        (low, nominal, high, rated), rel=1e-9
    )


def test_a_telephone_call_gives_no_more_than_a_guess() -> None:
    """Age and hum are no evidence; the number on a compressor's breaker is a wide guess."""
    call = {"id": "it", "kind": "compressor_scroll", "age_years": 12, "hum": "steady"}
    assert motor_evidence(msgspec.convert(call, Motor)) is None
    guess = motor_evidence(msgspec.convert(call | {"breaker_a": 40}, Motor))
    assert guess is not None
    assert guess.guessed
    # Rated-load amps 17.8 to 32 A by NEC 440.22(A) and 440.32, from memory; 4.5 to 6.5 times those.
    assert (guess.low, guess.high) == pytest.approx((80.0, 208.0))
    pump = {"id": "it", "kind": "well_pump", "breaker_a": 20}
    assert motor_evidence(msgspec.convert(pump, Motor)) is None


def test_mistake_12_a_code_letter_is_read_at_the_volts_of_the_nameplate() -> None:
    """The same letter is twice the amps at half the volts."""
    letter = {"id": "it", "kind": "pool_pump", "code_letter": "K", "horsepower": 1}
    high, low = (
        motor_evidence(msgspec.convert(letter | {"volts": volts}, Motor)) for volts in (230, 115)
    )
    assert high is not None
    assert low is not None
    assert low.nominal == pytest.approx(2 * high.nominal)
