"""The outage stepper on cases with a closed form, and each of its features by itself."""

import csv
import math
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np
import pytest

from service.physics.generator_run import GeneratorRun
from service.physics.outage_steps import StepsRestart, StepsRun, step_outages
from tests.physics.stepped_batches import HOUR, KWH, plain

TABLE = Path(__file__).parents[1] / "reference" / "analytic_cases.csv"
ES = math.sqrt(0.88)
E7 = 10 - 7 * 0.8 / ES  # kWh left at 07:00 in A07
FULL = 7 + (10 - E7) / (ES * 2.5)
FULL_SLOW = 7 + (10 - E7) / (ES * 1.5)


def hours(time: Any) -> float:
    return float(np.ravel(time)[0]) / HOUR


def kwh(energy: Any) -> float:
    return float(np.sum(energy)) / KWH


def run(**changes: Any) -> StepsRun:
    return step_outages(**plain(**changes), account=True)


def sunny_day(**changes: Any) -> StepsRun:
    """A07: 0.8 kW from a full battery, 3.3 kW of sun from 7 to 15 h."""
    case = {"duration": np.array([7.0, 8.0, 40.0]) * HOUR, "load": np.full((3, 1), 800.0)}
    case |= {"source": np.array([0.0, 3300.0, 0.0])}
    return run(**case, discharge_linear=1 / ES, charge_efficiency=ES, **changes)


def dark_then_sun(**changes: Any) -> StepsRun:
    """A15 and A16: 8 kWh, 1 kW, 3 kW of sun from 12 h on."""
    case = {"capacity": 8 * KWH, "start_energy": 8 * KWH, "duration": np.full(2, 12 * HOUR)}
    case |= {"load": np.full((2, 1), 1e3), "source": np.array([0.0, 3e3])}
    return run(**case, **changes)


def curtailed_until(end: float, **changes: Any) -> float:
    """Sun curtailed in A07 if its sunny part ended at that hour [kWh]."""
    case = {"duration": np.array([7.0, end - 7.0]) * HOUR, "load": np.full((2, 1), 800.0)}
    case |= {"source": np.array([0.0, 3300.0])}
    found = run(**case, discharge_linear=1 / ES, charge_efficiency=ES, **changes)
    assert found.account is not None
    return kwh(found.account.curtailed)


def account(found: StepsRun, name: str) -> Any:
    assert found.account is not None
    return getattr(found.account, name)


BLACK_START = StepsRestart(mode=1, black_start_power=1.2e3)

# id, closed form (derived beside it), stepper. An id that stands in the table of analytic cases is
# compared with it too.
CLOSED_FORMS: list[tuple[str, float, Callable[[], float]]] = [
    ("A07b", (15 - FULL) * 2.5, lambda: kwh(account(sunny_day(), "curtailed"))),
    ("A07c", 15 + 10 * ES / 0.8, lambda: hours(sunny_day().held)),
    ("A08b", 13.636363636, lambda: kwh(account(sunny_day(charge_limit=1.5e3), "curtailed"))),
    ("A11", 6.0, lambda: kwh(account(overload(), "unserved"))),
    ("A15", 16.0, lambda: kwh(account(dark_then_sun(), "unserved"))),
    ("A16", 4.0, lambda: kwh(account(dark_then_sun(restart=BLACK_START), "unserved"))),
    ("A16b", 8.0, lambda: kwh(dark_then_sun(restart=BLACK_START).end_energy)),
]


def overload() -> StepsRun:
    """A11: 8 kW on 5 kW for two hours."""
    big = {"capacity": 30 * KWH, "start_energy": 30 * KWH, "discharge_limit": 5e3}
    return run(steps=2, load=np.full((2, 1), 8e3), power_limit_rule=1, **big)


@pytest.mark.parametrize("case,expected,found", CLOSED_FORMS, ids=[c[0] for c in CLOSED_FORMS])
def test_closed_forms(case: str, expected: float, found: Callable[[], float]) -> None:
    """The stepper gives the closed form of each analytic case."""
    assert found() == pytest.approx(expected, rel=1e-9)
    with TABLE.open() as file:
        rows = csv.DictReader(line for line in file if not line.startswith("#"))
        table = {row["id"]: float(row["closed_form_or_ode"]) for row in rows}
    if case in table:
        assert found() == pytest.approx(table[case], rel=1e-8)


@pytest.mark.parametrize("limit,full", [(math.inf, FULL), (1.5e3, FULL_SLOW)])
def test_a_battery_is_full_at_the_closed_form(limit: float, full: float) -> None:
    """Curtailment of a battery filled in A07 and A08 starts at its time, not earlier."""
    step = 1e-3
    rate = 3.3 - 0.8
    before, after = (curtailed_until(full + d, charge_limit=limit) for d in (-step, step))
    refused = max(rate - limit / 1e3, 0.0)
    assert before == pytest.approx(refused * (full - step - 7), abs=1e-9)
    assert after == pytest.approx(refused * (full - 7) + rate * step, abs=1e-9)


def duty(days: int) -> tuple[float, StepsRun]:
    """A12: share of the time that 4 kW run to carry 0.5 kW, over whole cycles."""
    generator = GeneratorRun(
        power=4e3, start_energy=10 * KWH, stop_energy=32 * KWH, allowed=np.ones(24 * days, bool)
    )
    found = step_outages(
        **plain(
            24 * days,
            load=np.full((24 * days, 1), 500.0),
            capacity=40 * KWH,
            start_energy=10 * KWH,
            discharge_linear=1 / 0.95,
            charge_efficiency=0.95,
            generator=generator,
        ),
        account=True,
    )
    return float(account(found, "generator_time")[0]), found


def test_generator_duty_is_the_closed_form() -> None:
    """Over a whole cycle the generator runs for the fraction that keeps the energy even."""
    fraction = (0.5 / 0.95) / (0.5 / 0.95 + 0.95 * 3.5)
    on, off = 22 / (0.95 * 3.5), 22 / (0.5 / 0.95)
    assert on / (on + off) == pytest.approx(fraction, rel=1e-12)
    for days in (10, 30):
        run_time, found = duty(days)
        cycles = int(24 * days / (on + off))
        rest = min(24 * days - cycles * (on + off), on)
        assert run_time / HOUR == pytest.approx(cycles * on + rest, rel=1e-9)
        starts = cycles + (1 if 24 * days > cycles * (on + off) else 0)
        assert account(found, "generator_starts")[0] == starts


@pytest.mark.parametrize(
    "tank,refills,hours_run,used",
    [
        (math.inf, 0, 24.0, 0),  # never dry
        (3.0, 0, 3.0, 0),  # 1 unit an hour: dry after 3 h
        (3.0, 2, 9.0, 2),
        (7.0, 5, 24.0, 3),  # the fourth tank is begun and lasts
    ],
)
def test_fuel_ends_the_run(tank: float, refills: int, hours_run: float, used: int) -> None:
    """A tank lasts fuel over burn; refills happen at once and are counted."""
    generator = GeneratorRun(
        power=2e3,
        start_energy=10 * KWH,
        stop_energy=math.inf,
        allowed=np.ones(24, bool),
        tank=tank,
        refills=refills,
        burn_fixed=0.5 / HOUR,
        burn_linear=0.5 / KWH,
    )
    found = run(generator=generator)
    assert account(found, "generator_time")[0] / HOUR == pytest.approx(hours_run, rel=1e-12)
    assert account(found, "fuel_used")[0] == pytest.approx(hours_run, rel=1e-12)
    assert account(found, "refills_used")[0] == used
    left = 10 - max(24 - hours_run, 0.0)
    assert found.held_seen[0] == (left < 0)


def test_quiet_hours_stop_the_generator_at_the_edge() -> None:
    """It runs exactly in the permitted hours, and starts with the first one after the level."""
    allowed = np.arange(24) % 12 >= 6
    generator = GeneratorRun(
        power=1.5e3, start_energy=9.5 * KWH, stop_energy=math.inf, allowed=allowed
    )
    found = run(generator=generator)
    assert account(found, "generator_time")[0] / HOUR == pytest.approx(12.0, rel=1e-12)
    assert account(found, "generator_starts")[0] == 2
    assert kwh(found.min_energy) == pytest.approx(10 - 6 + 3 - 6, rel=1e-12)


def test_a_generator_brings_a_dark_bus_back() -> None:
    """The bus is down from the floor to the end of the quiet hours, then carried at once."""
    generator = GeneratorRun(
        power=2e3, start_energy=1 * KWH, stop_energy=5 * KWH, allowed=np.arange(24) >= 12
    )
    found = run(generator=generator)
    assert hours(found.first_loss) == pytest.approx(10.0, rel=1e-12)
    assert hours(found.dark_time) == pytest.approx(2.0, rel=1e-12)
    assert found.restarts[0] == 1


def test_a_generator_too_small_for_the_load_leaves_the_bus_dark() -> None:
    """A dark bus does not come back on less than the critical load."""
    generator = GeneratorRun(
        power=900.0, start_energy=1 * KWH, stop_energy=5 * KWH, allowed=np.arange(24) >= 12
    )
    assert hours(run(generator=generator).dark_time) == pytest.approx(14.0, rel=1e-12)


def test_the_generator_holds_the_source_off() -> None:
    """Source power that goes by while the generator forms the bus is lost, not curtailed."""
    generator = GeneratorRun(
        power=2e3, start_energy=10 * KWH, stop_energy=math.inf, allowed=np.ones(24, bool)
    )
    found = run(generator=generator, source=np.full(24, 3e3))
    assert kwh(account(found, "lost_source")) == pytest.approx(72.0, rel=1e-12)
    assert kwh(account(found, "curtailed")) == 0.0
    assert kwh(account(found, "generator_energy")) == pytest.approx(24.0, rel=1e-12)


def test_dc_sun_does_not_lift_the_discharge_limit() -> None:
    """However much DC sun there is, the inverter carries no more than its power."""
    found = run(
        load=np.full((24, 1), 3e3),
        dc_source=np.full(24, 9e3),
        discharge_limit=2e3,
        power_limit_rule=1,
    )
    assert kwh(account(found, "served")) == pytest.approx(48.0, rel=1e-12)
    assert kwh(account(found, "curtailed")) == pytest.approx(7 * 24, rel=1e-12)


def test_dc_restart_waits_for_its_energy() -> None:
    """With the loads off, 0.5 kW of DC sun takes four hours to lift the cells by 1.8 kWh at 0.9."""
    restart = StepsRestart(mode=2, restart_energy=1.8 * KWH)
    case = {"dc_source": np.where(np.arange(24) >= 12, 500.0, 0.0), "dc_charge_efficiency": 0.9}
    found = run(restart=restart, **case)
    assert hours(found.first_loss) == pytest.approx(10.0, rel=1e-12)
    # Up again at 16 h on 1.8 kWh, which 0.5 kW net empties in 3.6 h; then four hours once more.
    assert hours(found.dark_time) == pytest.approx(6 + 4, rel=1e-9)
    assert found.restarts[0] == 2


@pytest.mark.parametrize("allowance,held", [(0.0, 10.0), (1.5, 11.5), (3.0, 22.0), (10.0, 24.0)])
def test_held_counts_dark_time_beyond_the_allowance(allowance: float, held: float) -> None:
    """Dark from 10 to 12 h and from 21 h: the allowance is used up in the one or the other."""
    generator = GeneratorRun(
        power=1e3, start_energy=0.0, stop_energy=math.inf, allowed=(np.arange(24) - 12) % 24 < 9
    )
    case: dict[str, Any] = {"generator": generator, "allowance": allowance * HOUR}
    for stop in (False, True):
        found = step_outages(**plain(**case), stop_when_lost=stop)
        assert hours(found.held) == pytest.approx(held, rel=1e-12)
        assert found.held_seen[0] == (held < 24)


def test_stop_when_lost_says_the_same_up_to_the_loss() -> None:
    """Lanes that are left at the loss have the same times as lanes followed to the end."""
    starts = np.linspace(1, 29, 17) * KWH
    case: dict[str, Any] = {"capacity": 30 * KWH, "restart": BLACK_START}
    case |= {"load": np.full((24, 2), 500.0), "shed_at": [2 * KWH], "restore_at": [4 * KWH]}
    case |= {"source": np.where(np.arange(24) % 12 > 8, 2.5e3, 0.0)}
    whole = step_outages(**plain(**case, start_energy=starts))
    brief = step_outages(**plain(**case, start_energy=starts), stop_when_lost=True)
    assert 0 < int(whole.held_seen.sum()) < 17
    for name in ("held", "held_seen", "first_loss", "first_loss_seen", "tier_first_off"):
        assert np.array_equal(getattr(whole, name), getattr(brief, name)), name


def test_readings_by_starts_are_the_single_runs() -> None:
    """Lanes of two axes, scaled by the first and shifted by the second, equal one run each."""
    rng = np.random.default_rng(3)
    year, sun = rng.uniform(200, 2e3, 96), rng.uniform(0, 3e3, 96) * (np.arange(96) % 24 > 12)
    windows = np.lib.stride_tricks.sliding_window_view
    factor, capacity = np.array([[0.5], [1.0], [1.5]]), np.array([[6.0], [9.0], [12.0]]) * KWH
    case: dict[str, Any] = {"capacity": capacity, "start_energy": capacity, "restart": BLACK_START}
    load, source = windows(year, 73)[:24, np.newaxis, np.newaxis, :], windows(sun, 73)[:24]
    both = step_outages(**plain(**case, load=load, source=source, load_scale=factor))
    assert both.held.shape == (3, 73)
    for i, j in [(0, 0), (1, 40), (2, 72), (2, 5)]:
        one = {"capacity": capacity[i, 0], "start_energy": capacity[i, 0], "restart": BLACK_START}
        one |= {"load": year[j : j + 24, np.newaxis] * factor[i, 0], "source": sun[j : j + 24]}
        single = step_outages(**plain(**one))
        assert both.held[i, j] == pytest.approx(single.held[0], rel=1e-12)
        assert both.end_energy[i, j] == pytest.approx(single.end_energy[0], rel=1e-9, abs=1e-3)


def test_a_step_with_hundreds_of_events_is_followed_to_its_end() -> None:
    """A tier that goes off and on all through one long step is served for its exact share."""
    case: dict[str, Any] = {
        "duration": np.array([4000 * HOUR]),
        "load": np.array([[500.0, 1500.0]]),
    }
    case |= {"source": np.array([1000.0]), "shed_at": [4 * KWH], "restore_at": [6 * KWH]}
    found = run(**case)
    # On: 2 kWh down at 1 kW; off: 2 kWh up at 0.5 kW. First 6 kWh down, then cycles of 6 h.
    cycles, rest = divmod(4000 - 6, 6)
    on = 6 + 2 * cycles + max(rest - 4, 0)
    assert kwh(account(found, "served")[1]) == pytest.approx(1.5 * on, rel=1e-9)
    quick = step_outages(**plain(**case))
    assert quick.end_energy == pytest.approx(found.end_energy, rel=1e-9)
