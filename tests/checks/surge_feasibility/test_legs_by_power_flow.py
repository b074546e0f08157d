"""Amps of legs and neutral against a power flow of a three-wire service, by another program."""

import math

import numpy as np
import opendssdirect as dss
import pytest

from service.checks.surge_feasibility.leg_amps import BOTH_LEGS, EVEN, LEG_1, LEG_2, leg_amps

#: Name, watts, lagging power factor, how it is connected.
Load = tuple[str, float, float, int]

# A centre-tapped transformer of little impedance, its tap tied to earth, then a short service of
# three conductors in which the amps are read: 1 and 2 are the legs, 3 is the neutral.
SERVICE = """
clear
new circuit.home bus1=pole.1 phases=1 basekv=7.2 r1=1e-6 x1=1e-6 r0=1e-6 x0=1e-6
new transformer.can phases=1 windings=3 buses=[pole.1.0 yard.1.3 yard.3.2] conns=[wye wye wye]
~ kvs=[7.2 0.12 0.12] kvas=[1000 1000 1000] %rs=[1e-4 1e-4 1e-4] xhl=1e-3 xht=1e-3 xlt=1e-3
~ %noloadloss=0 %imag=0
new reactor.earth phases=1 bus1=yard.3 bus2=yard.0 r=1e-3 x=0
new line.service phases=3 bus1=yard.1.2.3 bus2=panel.1.2.3 length=1 units=none
~ rmatrix=(1e-6 | 0 1e-6 | 0 0 1e-6) xmatrix=(1e-6 | 0 1e-6 | 0 0 1e-6) cmatrix=(0 | 0 0 | 0 0 0)
"""
PLACES = {BOTH_LEGS: ("panel.1.2", 0.24), LEG_1: ("panel.1.3", 0.12), LEG_2: ("panel.3.2", 0.12)}
#: How the power flow takes a load: its numbers for constant impedance and for constant current.
IMPEDANCE, CURRENT = 2, 5

HEATER: Load = ("heater", 1500, 1.0, LEG_1)
KETTLE: Load = ("kettle", 1200, 1.0, LEG_2)
RANGE: Load = ("range", 4800, 1.0, BOTH_LEGS)
PUMP: Load = ("pump", 1100, 0.74, BOTH_LEGS)
SUMP: Load = ("sump", 700, 0.65, LEG_1)
BLOWER: Load = ("blower", 480, 0.80, LEG_2)
SCREENS: Load = ("screens", 350, 0.97, LEG_2)

# what, loads. The expected amps are those of the power flow: OpenDSS, engine 9 (DSS C-API 0.14.5).
# Nothing of a closed form of ours enters it; tolerance 0.1 %, of which its own lines take 0.01 %.
CASES: list[tuple[str, list[Load]]] = [
    ("one leg alone", [HEATER]),
    ("the other leg alone", [BLOWER]),
    ("across both legs", [RANGE]),
    ("unity on both legs", [HEATER, KETTLE]),
    ("unity on the legs and across", [HEATER, KETTLE, RANGE]),
    ("a lagging motor across, unity on one leg", [PUMP, HEATER]),
    ("lagging loads of three power factors", [PUMP, SUMP, BLOWER]),
    ("unity against lagging on the other leg", [KETTLE, SUMP]),
    ("everything", [HEATER, KETTLE, RANGE, PUMP, SUMP, BLOWER, SCREENS]),
]


def power_flow(loads: list[Load], model: int) -> tuple[float, float, float]:
    """Return the amps of leg 1, leg 2 and neutral in the service [A]."""
    for line in SERVICE.strip().splitlines():
        dss.Text.Command(line)
    for name, watts, factor, place in loads:
        bus, kilovolts = PLACES[place]
        dss.Text.Command(
            f"new load.{name} phases=1 bus1={bus} kv={kilovolts} kw={watts / 1000} pf={factor} "
            f"model={model} vminpu=0.5 vmaxpu=1.5"
        )
    dss.Text.Command("set tolerance=1e-8 maxiterations=100")
    dss.Solution.Solve()
    assert dss.Solution.Converged()
    dss.Circuit.SetActiveElement("line.service")
    first, _, second, _, neutral, _ = dss.CktElement.CurrentsMagAng()[:6]
    return first, second, neutral


def ours(loads: list[Load]) -> tuple[float, float, float]:
    """Return the same by the product; every leg is known, so that the spread is no matter."""
    va = [watts * complex(1, math.tan(math.acos(factor))) for _, watts, factor, _ in loads]
    found = leg_amps(np.array([va]), np.array([[place for *_, place in loads]]))
    return found.leg_1[0, EVEN], found.leg_2[0, EVEN], found.neutral[0, EVEN]


@pytest.mark.parametrize("model", [IMPEDANCE, CURRENT], ids=["impedance", "current"])
@pytest.mark.parametrize("what, loads", CASES, ids=[row[0] for row in CASES])
def test_legs_and_neutral(what: str, loads: list[Load], model: int) -> None:
    largest = max(power_flow(loads, model))
    # Amps that are nought are held against the largest: a power flow leaves some of its tolerance.
    assert ours(loads) == pytest.approx(power_flow(loads, model), rel=1e-3, abs=1e-4 * largest)


def test_power_factors_part_the_neutral_from_the_difference_of_the_legs() -> None:
    """Legs of 10.0 A at unity and 9.0 A at 0.65: the neutral carries 8.0 A, not 1.0 A."""
    first, second, neutral = power_flow([KETTLE, SUMP], IMPEDANCE)
    assert neutral > 5 * abs(first - second)
    assert ours([KETTLE, SUMP])[2] == pytest.approx(neutral, rel=1e-3)
