"""Drop of the answer against a power flow of others: a line, a load of constant current."""

import math
from typing import Any

import pytest

from tests.checks.conductor_sizing.requests import WALL, Body, body, both

# kind, amps, power factor, length [ft]
CASES = [
    ("backup_feeder", 48.0, 1.0, 150.0),
    ("backup_feeder", 80.0, 0.85, 220.0),
    ("motor_branch", 28.0, 0.8, 90.0),
    ("backup_feeder", 150.0, 0.95, 300.0),
]


def flow(volts: float, amps: float, factor: float, ohm: complex) -> float:
    """Return the volts lost between a stiff source and a load of constant current [V]."""
    import opendssdirect as dss

    watts, vars_ = volts * amps * factor, volts * amps * math.sqrt(1 - factor**2)
    commands = [
        "Clear",
        f"New Circuit.it phases=1 basekv={volts / 1000} pu=1 r1=1e-9 x1=1e-9 r0=1e-9 x0=1e-9",
        f"New Line.run bus1=sourcebus.1 bus2=end.1 phases=1 r1={ohm.real} x1={ohm.imag} "
        f"r0={ohm.real} x0={ohm.imag} c1=0 c0=0 length=1",
        f"New Load.it bus1=end.1 phases=1 kv={volts / 1000} kw={watts / 1000} kvar={vars_ / 1000} "
        "model=5 vminpu=0.1",
        "Set tolerance=1e-10",
        "Solve",
    ]
    for command in commands:
        dss.Text.Command(command)
    dss.Circuit.SetActiveBus("end")
    real, imaginary = dss.Bus.Voltages()[:2]
    return volts - math.hypot(real, imaginary)


@pytest.mark.parametrize("kind, amps, factor, length", CASES)
def test_drop(kind: str, amps: float, factor: float, length: float) -> None:
    """Within 0.1 % of the drop, for the size that the answer gives, both conductors in the line."""
    from service.checks.conductor_sizing.tables import code_tables
    from service.published.conductors import index_of

    circuit: Body = {
        "kind": kind,
        "amps": amps,
        "power_factor": factor,
        "most_breaker_a": None,
        "neutral": "none",
    }
    made: dict[str, Any] = body(circuit, WALL | {"length": length}, drop_target_percent=3)
    tables = code_tables("nec-2023")
    for lane, found in enumerate(both(made)):
        assert found.phase is not None
        size = index_of(found.phase)
        one = complex(tables.resistance[lane, 0, size], tables.reactance[0, size])
        expected = flow(240.0, amps, factor, 2 * one * length * 0.3048)
        assert found.drop_v == pytest.approx(expected, rel=1e-3)
