"""Dips of the volts as others print them, and what a locked motor makes of the same source."""

import math
from typing import Any

import numpy as np
import pytest

from service.checks.surge_feasibility.bus_voltage import Beside, bus_voltage
from service.checks.surge_feasibility.screens import screens
from service.published.motors import code_letter, locked_rotor_current, motor_kind
from tests.checks.surge_feasibility.one_start import (
    one_start,
)

ROOT_3 = math.sqrt(3)


def volts_of(source: float, impedance: complex, amps: float, factor: float) -> float:
    """Return the volts at the bus where a load draws so many amps, whatever the volts [V]."""
    # An admittance that would draw far more is held at the amps, as by a soft starter.
    angle = complex(factor, -math.sqrt(1 - factor**2))
    with np.errstate(all="ignore"):
        found = bus_voltage(
            np.array([source]),
            np.array([impedance]),
            np.array([np.inf]),
            np.array([3 * amps / source * angle]),
            Beside(np.zeros(1, complex), np.zeros(1, complex)),
            np.array([amps]),
        )
    assert found.motor_amps[0] == pytest.approx(amps)
    return float(found.volts[0])


# volts, impedance behind them [ohm], amps and power factor of the start, dip as printed and as its
# digits allow [1], dip printed for. Standing of both: published.
# 5 hp of 16 A x 6 = 96 A over 0.06 ohm: 6 V of 120 V, 5 %. Source: a utility's education page on
# voltage dips. 300 kW at 460 V behind 1000 kVA of 5.75 %: 1,688 of 17,391 kVA (20,919 A at 480 V),
# 9.7 %. Source: a web article on transformers and large motors; its 1,688 kVA puts kVA a horsepower
# to full-load amps, so that only what follows from them is looked at.
DIPS = [
    (120.0, 0.06 + 0j, 96.0, 1.0, 0.05, 0.005),
    (480 / ROOT_3, 1j * 480**2 / 17_391e3, 1_688e3 / 480 / ROOT_3, 0.0, 0.097, 0.0005),
]


@pytest.mark.parametrize("volts, impedance, amps, factor, dip, digits", DIPS)
def test_dip_of_amps_that_do_not_fall_with_the_volts(
    volts: float, impedance: complex, amps: float, factor: float, dip: float, digits: float
) -> None:
    """As printed, amps are held and the drop is in phase with the volts."""
    found = 1 - volts_of(volts, impedance, amps, factor) / volts
    assert found == pytest.approx(dip, abs=digits)


@pytest.mark.parametrize("volts, impedance, amps, factor, dip, digits", DIPS)
def test_a_locked_motor_dips_less_than_printed(
    volts: float, impedance: complex, amps: float, factor: float, dip: float, digits: float
) -> None:
    """Its amps fall with the volts, and at a power factor of its own phasors add to less."""
    motor: dict[str, Any] = {"rated_volts": volts, "source_volts": volts, "locked_amps": amps}
    in_phase, apart = (
        1
        - screens(one_start(**motor, source_impedance=impedance, locked_power_factor=p)).divider[0]
        for p in (factor, 0.55)
    )
    # In phase the held amps I give d, the locked motor d / (1 + d).
    assert in_phase == pytest.approx(dip / (1 + dip), abs=digits)
    assert apart < in_phase < dip


def test_short_circuit_amps_of_the_transformer() -> None:
    """20,919 A: what the source gives into next to nothing. Source: the second example above."""
    with np.errstate(all="ignore"):
        found = bus_voltage(
            np.array([480 / ROOT_3]),
            np.array([1j * 480**2 / 17_391e3]),
            np.array([np.inf]),
            np.array([-1e6j]),
            Beside(np.zeros(1, complex), np.zeros(1, complex)),
            np.array([np.inf]),
        )
    assert found.amps[0] == pytest.approx(20_919, rel=1e-3)


def test_inrush_by_code_letter() -> None:
    """1,688 kVA: letter D on the kVA of 471 A at 460 V. Source: the second example above."""
    assert code_letter("D")[1] * 471 * 460 * ROOT_3 / 1000 == pytest.approx(1_688, rel=3e-3)


# horsepower of a well pump, kVA of the generator that keeps its dip to 35 %. Source: manual of a
# maker of submersible pump motors, table of externally regulated generators. Standing: published.
GENERATORS = [(0.5, 2.5), (0.75, 3.8), (1, 5.0), (1.5, 6.3), (2, 9.4), (3, 12.5), (5, 18.8)]


@pytest.mark.parametrize("horsepower, kva", GENERATORS)
def test_generators_for_well_pumps(horsepower: float, kva: float) -> None:
    """65 % of the volts lie between a generator of 0.18 and one of 0.35 pu transient reactance.

    Those two are what small generators have. Standing: from memory, not verified.
    """
    amps = locked_rotor_current(horsepower, 230)

    def divider(reactance: float) -> float:
        case = one_start(
            rated_volts=230.0,
            source_volts=230.0,
            locked_amps=amps,
            locked_power_factor=motor_kind("well_pump").locked_rotor_power_factor,
            source_impedance=1j * reactance * 230**2 / (kva * 1000),
        )
        return float(screens(case).divider[0])

    assert divider(0.35) < 0.65 < divider(0.18)
