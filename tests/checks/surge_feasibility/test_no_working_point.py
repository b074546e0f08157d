"""Sources and wires at the edge: volts of the source, amps without a ceiling, trips, wires."""

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
)

FAIL, OPEN, IF, PASS = Verdict
PUMP: Body = {
    "id": "well",
    "kind": "well_pump",
    "locked_rotor_a": 60,
    "rated_load_a": 11,
    "volts": 230,
}


@pytest.mark.parametrize("ohm", [(5, 5), (0.02, 5)])
@pytest.mark.parametrize("watts", [500, 1000, 3000, 8000])
def test_no_bus_stands_above_its_source(ohm: tuple[float, float], watts: float) -> None:
    """Behind 5 ohm no compressor starts, and no load beside it lifts the volts."""
    soft = LARGE | {"resistance_ohm": ohm[0], "reactance_ohm": ohm[1]}
    found = only(body(COMPRESSOR, inverter=soft, watts=watts))
    assert not found.word.startswith("starts")
    assert found.verdict is not PASS
    if found.least_bus_percent is not None:
        assert found.least_bus_percent <= 100


def test_amps_without_a_ceiling_do_not_hang_on_the_ceiling() -> None:
    """Beside 3.5 kW the start takes 90 A, whether or not the ratings let the bus collapse.

    By hand: 78.7 A at 0.66 of the motor behind its wire and 15.0 A at 0.97, less 1 % for the sag.
    """
    weak = SMALL | {"surge": [{"seconds": 0.4, "amps": 62}, {"seconds": 10, "amps": 37.5}]}
    strong = SMALL | {"surge": [{"seconds": 10, "amps": 1000}]}
    amps = [only(body(COMPRESSOR, inverter=one, watts=3500)).start_amps for one in (weak, strong)]
    assert amps[0] == pytest.approx(amps[1], rel=1e-9)
    both = [{"name": "x", "watts": 3500, "power_factor": 0.97, "circuit": "both_legs"}]
    plain = only(body(COMPRESSOR, inverter=weak, running=both)).start_amps
    assert plain == pytest.approx(90, rel=0.01)


def test_a_long_wire_leaves_a_start_open_and_lets_none_pass() -> None:
    """700 ft of 10 AWG hold 62 A down to 47: within 48 A, and not counted on."""
    ratings = LARGE | {"surge": [{"seconds": 3, "amps": 48}], "beyond_rating": "trips"}
    far = PUMP | {"wire": {"length": 700, "size": "10"}}
    found = only(body(far, inverter=ratings, watts=0))
    assert found.verdict is OPEN
    assert only(body(far | {"wire": {"length": 0}}, inverter=ratings, watts=0)).verdict is FAIL


def test_a_trip_of_low_volts_is_told_as_one() -> None:
    soft = LARGE | {
        "surge": [{"seconds": 3, "amps": 300}],
        "resistance_ohm": 0.5,
        "reactance_ohm": 1,
        "trip_percent": 80,
        "trip_seconds": 0.05,
    }
    heavy = PUMP | {"locked_rotor_a": 100, "rated_load_a": 20}
    found = only(body(heavy, inverter=soft, watts=300))
    assert found.verdict is FAIL
    assert "The volts fall below 80 %" in found.statement


def test_other_readings_are_of_the_whole_answer() -> None:
    """A motor that does not start fails the answer under the stand-alone rule too."""
    found = answer(body(COMPRESSOR, inverter=SMALL | {"beyond_rating": "trips"}))
    assert found.verdict is FAIL
    (rule,) = [one for one in found.alternatives if one.id == "largest-load-rule"]
    assert (rule.verdict, rule.flips_verdict) == (FAIL, False)
    assert rule.statement.endswith("it keeps that rule.")
