"""Single-phase motors: tables of the code, planning ranges, and defaults by kind."""

import math
from itertools import pairwise

import pytest

from service.published.loader import load
from service.published.motors import (
    code_letter,
    compressor_range,
    full_load_current,
    locked_rotor_current,
    motor_kind,
    motor_kind_ids,
)
from service.published.source import Standing

# letter | low | high [kVA/hp]. Source: NEC, table 430.7(B).
LETTERS = (
    ("A", 0.0, 3.14),
    ("B", 3.15, 3.54),
    ("G", 5.6, 6.29),
    ("H", 6.3, 7.09),
    ("M", 10.0, 11.19),
    ("U", 20.0, 22.39),
    ("V", 22.4, 22.4),
)

# hp | letter | low, high or their mean | kVA. Source: public worked examples of table 430.7(B).
EXAMPLES = (
    (20.0, "G", 1, 125.8),
    (20.0, "H", 2, 134.0),
)

# hp | volts | full-load amps [A]. Source: NEC, table 430.248; the volts of a nameplate beside those
# of the column, and the next larger row, are our reading of it.
FULL_LOAD = (
    (1 / 6, 115.0, 4.4),
    (1 / 3, 115.0, 7.2),
    (0.33, 115.0, 7.2),
    (0.4, 115.0, 9.8),
    (0.5, 110.0, 9.8),
    (0.5, 127.0, 9.8),
    (1.0, 115.0, 16.0),
    (1.0, 200.0, 9.2),
    (1.0, 208.0, 8.8),
    (1.0, 220.0, 8.0),
    (1.0, 240.0, 8.0),
    (5.0, 230.0, 28.0),
    (6.0, 230.0, 40.0),
    (10.0, 200.0, 57.5),
    (10.1, 230.0, None),
    (1.0, 480.0, None),
)

# hp | volts | locked-rotor amps [A]. Source: NEC 2008, table 430.251(A); below its first row and at
# 200 V, our reading of it.
LOCKED_ROTOR = (
    (0.25, 115.0, 6 * 5.8),
    (0.1667, 115.0, 6 * 4.4),
    (0.5, 115.0, 58.8),
    (0.5, 230.0, 29.4),
    (1.0, 240.0, 48.0),
    (2.0, 208.0, 80.0),
    (2.0, 200.0, 80.0),
    (4.0, 230.0, 168.0),
    (10.0, 208.0, 332.0),
    (10.1, 230.0, None),
    (1.0, 480.0, None),
)

# tons | amps low, high | locked-rotor amps low, high [A]. Source: from memory, not verified; upper
# ends from published electrical tables of older units.
COMPRESSORS = (
    (1.0, 6.5 / 1.5, 9.0, 38.0 / 1.5, 48.0),
    (3.0, 13.0, 18.0, 70.0, 96.0),
    (3.2, 15.0 * 3.2 / 3.5, 20.5, 83.0 * 3.2 / 3.5, 112.0),
    (5.0, 21.0, 32.0, 125.0, 170.0),
)

# Rated-load amps | locked-rotor amps [A]. Source: published electrical tables of fixed-speed
# single-phase units at 208/230 V.
PUBLISHED_PAIRS = (
    (7.6, 45.0),
    (12.4, 61.0),
    (14.4, 82.0),
    (18.0, 96.0),
    (20.4, 104.0),
    (26.4, 129.0),
    (32.1, 169.0),
    (17.6, 90.0),
    (23.6, 120.0),
    (30.8, 141.0),
    (18.6, 105.0),
    (20.5, 109.0),
    (27.6, 158.0),
)

COMPRESSOR_KINDS = ("compressor_scroll", "compressor_reciprocating")
KINDS = (
    *COMPRESSOR_KINDS,
    "well_pump",
    "sump_pump",
    "pool_pump",
    "refrigerator",
    "garage_door",
    "furnace_blower",
    "other",
)

# kind | locked-rotor power factor | running one | torque | slip | inertia [s] | efficiency |
# winding out | breakaway | constant | square | pressure. Source: derived; the first from published
# parameters of a two-winding compressor motor, the rest engineering choices.
PINNED_KINDS = (
    ("compressor_scroll", 0.66, 0.95, 0.35, 0.035, 0.045, 0.85, 0.6, 0.12, 0.10, 0.0, 0.85),
    ("compressor_reciprocating", 0.66, 0.95, 0.35, 0.035, 0.045, 0.85, 0.6, 0.2, 0.15, 0.0, 0.8),
    ("well_pump", 0.55, 0.74, 1.2, 0.042, 0.08, 0.62, 0.75, 0.15, 0.06, 0.94, 0.0),
    ("sump_pump", 0.60, 0.65, 1.2, 0.042, 0.10, 0.55, 0.6, 0.15, 0.06, 0.94, 0.0),
    ("refrigerator", 0.72, 0.85, 2.2, 0.040, 0.20, 0.75, 0.6, 0.20, 0.15, 0.0, 0.8),
)


@pytest.mark.parametrize("letter, low, high", LETTERS)
def test_each_letter_has_its_band(letter: str, low: float, high: float) -> None:
    assert code_letter(letter) == (low, high)


def test_the_bands_follow_one_another_without_a_gap() -> None:
    letters = list(load("motor_code_letters").rows)
    assert letters == list("ABCDEFGHJKLMNPRSTUV")
    for below, above in pairwise(letters):
        assert code_letter(above)[0] - code_letter(below)[1] == pytest.approx(0.01, abs=1e-9)


@pytest.mark.parametrize("hp, letter, end, kva", EXAMPLES)
def test_a_letter_gives_the_kva_of_a_worked_example(
    hp: float, letter: str, end: int, kva: float
) -> None:
    low, high = code_letter(letter)
    assert hp * (low, high, (low + high) / 2)[end] == pytest.approx(kva, abs=0.11)


def test_an_average_letter_gives_the_amps_of_a_worked_example() -> None:
    # 20 hp, 240 V, code H taken as 6.7 kVA/hp: 558 A. Source: public worked example.
    average = sum(code_letter("H")) / 2
    assert 20.0 * average * 1000 / 240.0 == pytest.approx(558.0, abs=0.5)


def test_a_letter_gives_the_amps_of_a_manual() -> None:
    # 1/4 hp, 230 V, code M read as 11.2 kVA/hp: 12.2 A. Source: public generator manual.
    assert 0.25 * code_letter("M")[1] * 1000 / 230.0 == pytest.approx(12.2, abs=0.05)


@pytest.mark.parametrize("hp, volts, amps", FULL_LOAD)
def test_full_load_amps_of_the_row_or_the_next(hp: float, volts: float, amps: float | None) -> None:
    assert full_load_current(hp, volts) == amps


@pytest.mark.parametrize("hp, volts, amps", LOCKED_ROTOR)
def test_locked_rotor_amps_of_the_row_or_the_next(
    hp: float, volts: float, amps: float | None
) -> None:
    assert locked_rotor_current(hp, volts) == amps


def test_a_conductor_takes_a_quarter_more_than_full_load_amps() -> None:
    # 1 hp, 115 V: 20 A. Source: public worked example of NEC 430.22.
    assert (full_load_current(1.0, 115.0) or 0.0) * 1.25 == 20.0


@pytest.mark.parametrize("row", load("motor_locked_rotor_currents").rows)
@pytest.mark.parametrize("column", ["a_115v", "a_230v"])
def test_locked_rotor_amps_are_six_times_full_load_amps(row: str, column: str) -> None:
    locked = load("motor_locked_rotor_currents").exact(row, column)
    assert locked == 6 * load("motor_full_load_currents").exact(row, column)


@pytest.mark.parametrize("row", load("motor_locked_rotor_currents").rows)
def test_at_208_volts_they_are_nearly_six_times(row: str) -> None:
    locked = load("motor_locked_rotor_currents").number(row, "a_208v")
    full = load("motor_full_load_currents").number(row, "a_208v")
    assert locked / full == pytest.approx(6.0, rel=0.011)


@pytest.mark.parametrize("tons, rla_low, rla_high, lra_low, lra_high", COMPRESSORS)
def test_a_size_has_its_range(
    tons: float, rla_low: float, rla_high: float, lra_low: float, lra_high: float
) -> None:
    assert compressor_range(tons) == pytest.approx((rla_low, rla_high, lra_low, lra_high))


def test_ranges_rise_with_size_and_are_from_memory() -> None:
    table = load("compressor_ranges")
    assert table.standing is Standing.FROM_MEMORY
    for below, above in pairwise(compressor_range(table.number(k, "tons")) for k in table.rows):
        assert all(a < b for a, b in zip(below, above, strict=True))


@pytest.mark.parametrize("rated, locked", PUBLISHED_PAIRS)
def test_published_pairs_lie_between_the_ends_of_the_ratio(rated: float, locked: float) -> None:
    for name in COMPRESSOR_KINDS:
        kind = motor_kind(name)
        assert kind.lra_over_rla_low <= locked / rated <= kind.lra_over_rla_high


def test_no_kind_stands_outside_the_pinned_list() -> None:
    assert motor_kind_ids() == KINDS


@pytest.mark.parametrize(
    "name, pf, run, lrt, slip, h, eff, out, away, const, sq, press", PINNED_KINDS
)
def test_each_kind_has_its_values(
    name: str,
    pf: float,
    run: float,
    lrt: float,
    slip: float,
    h: float,
    eff: float,
    out: float,
    away: float,
    const: float,
    sq: float,
    press: float,
) -> None:
    kind = motor_kind(name)
    motor = (kind.locked_rotor_power_factor, kind.running_power_factor, kind.locked_rotor_torque)
    assert (*motor, kind.rated_slip, kind.inertia_s) == (pf, run, lrt, slip, h)
    assert (kind.efficiency, kind.start_winding_out) == (eff, out)
    assert (kind.breakaway, kind.constant, kind.square, kind.pressure) == (away, const, sq, press)


def test_a_pool_pump_starts_with_the_torque_of_a_capacitor_start_motor() -> None:
    # 150 to 175 percent of rated torque. Source: public pool-pump guide.
    assert 1.5 <= motor_kind("pool_pump").locked_rotor_torque <= 1.75


@pytest.mark.parametrize("name", KINDS)
def test_a_kind_holds_together(name: str) -> None:
    kind = motor_kind(name)
    ratios = (4.0, 6.0, 9.0) if name == "refrigerator" else (4.5, 6.0, 6.5)
    assert (kind.lra_over_rla_low, kind.lra_over_rla, kind.lra_over_rla_high) == ratios
    assert kind.pressure_turns == 60.0
    assert kind.breakaway < kind.locked_rotor_torque
    assert math.fmod(kind.poles, 2.0) == 0.0
    assert kind.poles >= 2.0
    assert load("motor_kinds").row(name)["label"]
    assert load("motor_kinds").cite(name).standing is Standing.DERIVED
    if not kind.pressure:
        assert kind.pressure_unequalised == 0.0


@pytest.mark.parametrize("name", KINDS)
def test_only_a_compressor_takes_a_kit_and_a_soft_starter(name: str) -> None:
    kind = motor_kind(name)
    kit = (kind.kit_torque, kind.kit_power_factor, kind.kit_winding_out)
    bare = (kind.locked_rotor_torque, kind.locked_rotor_power_factor, kind.start_winding_out)
    assert kit == ((1.2, 0.75, 0.8) if name in COMPRESSOR_KINDS else bare)
    assert kind.soft_startable == float(name in COMPRESSOR_KINDS)


def test_what_does_not_exist_is_refused() -> None:
    with pytest.raises(KeyError):
        motor_kind("windmill")
    with pytest.raises(KeyError):
        code_letter("I")
