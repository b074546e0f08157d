"""Each rule of the outage engine on the smallest case that shows it; the sums are in the tests."""

import math

import numpy as np
import pytest

from service.physics.outage_engine import OutageRun, simulate_outage
from tests.physics.one_outage import Step, in_hours, in_kwh, outage

ONE_TIER = {"shed": [5.0], "restore": [6.0]}


def happened(run: OutageRun) -> list[tuple[float, int, int]]:
    """Hours, code and class of every event."""
    rows = zip(run.trace_time, run.trace_event, run.trace_tier, strict=True)
    found = [(in_hours(time), int(code[0]), int(tier[0])) for time, code, tier in rows]
    return [(round(hours, 9), code, tier) for hours, code, tier in found if code > 0]


@pytest.mark.parametrize("efficiency", [0.87, 0.9, 0.93, 0.951, 0.9777, 1 / 3])
@pytest.mark.parametrize("load", [0.1, 0.7, 1.1, 3.3])
def test_lasting_exactly_to_the_end_is_no_loss(efficiency: float, load: float) -> None:
    """The outage ends as the battery does: no loss, whatever rounding does; longer is a loss."""
    hours = 10 * efficiency / load
    steps: list[Step] = [(hours / 7, [load], 0, 0)] * 7
    assert not outage(steps, linear=1 / efficiency).first_loss_seen[0]
    longer = outage([*steps, (1e-6, [load], 0, 0)], linear=1 / efficiency)
    assert in_hours(longer.first_loss) == pytest.approx(hours, rel=1e-11)


@pytest.mark.parametrize("start", [0.0, 0.5, 1.0])
def test_start_at_or_below_the_floor_is_dark_at_once(start: float) -> None:
    """No bus from the first second, and nothing drawn."""
    run = outage([(3, [1.0], 0, 0)], start=start, floor=1.0, fixed=0.1)
    assert (in_hours(run.first_loss), bool(run.first_loss_seen[0])) == (0.0, True)
    assert (in_hours(run.down_time), in_kwh(run.unserved), in_kwh(run.end_energy)) == (3, 3, start)


def test_a_loss_is_counted_from_the_first_load_that_is_missed() -> None:
    """The draw at no load empties 1 kWh in 10 h; the load comes at 12 h."""
    run = outage([(12, [0.0], 0, 0), (1, [1.0], 0, 0)], start=1.0, fixed=0.1)
    assert in_hours(run.down_time) == pytest.approx(3.0)
    assert in_hours(run.first_down) == pytest.approx(10.0)
    assert in_hours(run.first_loss) == 12.0


def test_no_critical_load_is_never_lost() -> None:
    """An empty battery costs the tier its load; critical load, which is none, is not missed."""
    run = outage([(20, [0.0, 1.0], 0, 0)])
    assert not run.first_loss_seen[0]
    assert in_hours(run.tier_first_off_energy) == 10.0


def test_a_tier_starts_off_at_its_shed_level() -> None:
    """Energy of exactly the shed level is not above it: off from the first second."""
    run = outage([(1, [1.0, 1.0], 0, 0)], start=5.0, **ONE_TIER)
    assert (in_hours(run.tier_first_off), in_kwh(run.served)) == (0.0, 1.0)


def test_shedding_goes_before_the_loss_of_the_bus() -> None:
    """A tier shed at the floor goes at 5 h, and in the same instant the bus."""
    run = outage([(9, [1.0, 1.0], 0, 0)], shed=[0.0], restore=[1.0], trace=True)
    assert happened(run) == [(5.0, 1, 1), (5.0, 3, -1)]


def test_of_equal_levels_the_last_class_goes_first_and_the_first_comes_back_first() -> None:
    """Shed at 5 kWh, both; back at 6 kWh while the sun gives 3 kW to 1 kW of critical load."""
    steps: list[Step] = [(3, [1.0, 1.0, 1.0], 0, 0), (5, [1.0, 0.5, 0.5], 3.0, 0)]
    run = outage(steps, shed=[5.0, 5.0], restore=[6.0, 6.0], trace=True)
    # 5 kWh / 3 kW = 5/3 h; 4/3 h of 1 kW leave 11/3 kWh; the climb of 7/3 kWh at 2 kW takes 7/6 h.
    first, back = round(5 / 3, 9), round(3 + 7 / 6, 9)
    assert happened(run)[:4] == [(first, 1, 2), (first, 1, 1), (back, 2, 1), (back, 2, 2)]


def test_a_second_tier_stays_where_the_first_has_turned_discharge_into_charge() -> None:
    """At 5 kWh the last class goes, and the sun carries what is left."""
    run = outage([(9, [1.0, 1.0, 1.0], 2.5, 0)], start=5.2, shed=[5.0, 5.0], restore=[6.0, 6.0])
    assert run.tier_first_off_energy_seen[:, 0].tolist() == [False, True]


def test_a_restore_level_above_the_capacity_means_full() -> None:
    """Shed at 8 kWh with a band of 5: back when the battery is full, not never."""
    steps: list[Step] = [(3, [1.0, 1.0], 0, 0), (9, [1.0, 0.5], 2.0, 0)]
    run = outage(steps, shed=[8.0], restore=[13.0], trace=True)
    # 1 h to 8 kWh, 2 h to 6 kWh, then 1 kW lifts the missing 4 kWh in 4 h.
    assert happened(run) == [(1.0, 1, 1), (7.0, 2, 1)]
    assert in_hours(run.full_first) == pytest.approx(7.0)


def test_a_tier_without_band_stays_off() -> None:
    """Shed at the capacity: never on, and no chatter under the sun."""
    run = outage([(50, [0.5, 1.0], 1.0, 0)], shed=[10.0], restore=[10.0])
    assert (in_kwh(run.served[1]), int(run.events[0])) == (0.0, 0)


def test_tiers_that_energy_never_sheds_go_with_the_bus() -> None:
    """Without levels, or with minus infinity for one of two lanes, all goes at the floor."""
    run = outage([(9, [1.0, 1.0], 0, 0)])
    assert in_hours(run.tier_first_off) == in_hours(run.first_loss) == 5.0
    both = simulate_outage(
        duration=[9.0],
        load=np.ones((1, 2, 1)),
        capacity=10.0,
        start_energy=10.0,
        floor=0.0,
        discharge_fixed=0.0,
        discharge_linear=1.0,
        discharge_square=0.0,
        charge_efficiency=1.0,
        discharge_limit=math.inf,
        charge_limit=math.inf,
        shed_at=[[-math.inf, 5.0]],
        restore_at=[[math.inf, 6.0]],
    )
    assert both.first_loss.tolist() == [5.0, 7.5]


# Sun of a day with 1 kW critical load, draw at no load and efficiency; whether the bus is back.
RESTARTS = [
    (0.9, 0.0, 1.0, 0.5, math.inf, False, "weaker than the load"),
    (1.0, 0.0, 1.0, 0.5, math.inf, True, "exactly the load, nothing else to cover"),
    (1.05, 0.1, 1.0, 0.5, math.inf, False, "covers the load but not the draw at no load"),
    (1.1, 0.1, 0.9, 0.5, math.inf, False, "covers both, but not the loss of charging"),
    (1.2, 0.1, 0.9, 0.5, math.inf, True, "covers all"),
    (1.2, 0.1, 0.9, 1.3, math.inf, False, "below the least power of a black start"),
    (1.2, 0.1, 0.9, 0.5, 0.05, False, "charging is too small for the draw at no load"),
    (1.2, 0.1, 0.9, None, math.inf, False, "no black start"),
]


@pytest.mark.parametrize("sun,fixed,efficiency,least,charge_limit,back,why", RESTARTS)
def test_restart(
    sun: float,
    fixed: float,
    efficiency: float,
    least: float | None,
    charge_limit: float,
    back: bool,
    why: str,
) -> None:
    """The source must cover load, draw at no load and conversion, and reach the stated power."""
    run = outage(
        [(2, [1.0], 0, 0), (3, [1.0], sun, 0)],
        start=0.0,
        fixed=fixed,
        efficiency=efficiency,
        black_start=least,
        charge_limit=charge_limit,
    )
    assert int(run.restarts[0]) == int(back), why
    assert in_hours(run.down_time) == (2.0 if back else 5.0)
    assert in_kwh(run.lost_source) == pytest.approx(0.0 if back else 3 * sun)


def test_restart_needs_no_power_for_tiers_that_stay_off() -> None:
    """1.5 kW of sun restart 1 kW critical load; the shed tier waits for its level, 0.6 kWh."""
    steps: list[Step] = [(1, [1.0, 1.0], 0, 0), (4, [1.0, 0.2], 1.5, 0)]
    run = outage(steps, start=0.0, shed=[0.5], restore=[0.6], black_start=0.0, trace=True)
    assert happened(run) == [(1.0, 5, -1), (2.2, 2, 1)]
    unshed = outage([(1, [1.0, 1.0], 0, 0), (4, [1.0, 1.0], 1.5, 0)], start=0.0, black_start=0.0)
    assert int(unshed.restarts[0]) == 0


def test_black_start_waits_for_the_delay_without_a_break() -> None:
    """Half an hour of sun, a break, then 45 minutes of the sun before the bus is back."""
    steps: list[Step] = [
        *[(0.5, [1.0], 2.0, 0), (0.5, [1.0], 0.2, 0), (0.5, [1.0], 2.0, 0), (2, [1.0], 3.0, 0)],
    ]
    run = outage(steps, start=0.0, black_start=1.5, delay=0.75)
    assert in_hours(run.down_time) == pytest.approx(1.75, rel=1e-12)
    # Lost: 1.0 + 0.1 + 1.0 kWh, and a quarter of an hour of 3 kW.
    assert in_kwh(run.lost_source) == pytest.approx(2.1 + 0.75, rel=1e-12)


def test_first_loss_stays_the_first_and_every_restart_counts() -> None:
    """Two nights of 2 kW on 10 kWh, each followed by a day of sun."""
    night_day: list[Step] = [(12, [2.0], 0, 0), (12, [2.0], 4.0, 0)]
    run = outage(night_day * 2, black_start=1.0)
    assert (in_hours(run.first_loss), int(run.restarts[0])) == (5.0, 2)
    # The first night is dark for 7 h; each day refills 10 kWh in 5 h and refuses 2 kW for 7 h.
    assert in_hours(run.down_time) == pytest.approx(14.0)
    assert in_kwh(run.curtailed) == pytest.approx(28.0)
    assert in_hours(run.full_first) == pytest.approx(17.0)


def test_hold_at_full_takes_the_draw_at_no_load_from_the_surplus() -> None:
    """0.1 kW over 0.8 is 0.125 kW: of 1 kW surplus 0.875 kW are refused; 0.12 kW do not hold."""
    run = outage([(4, [1.0], 2.0, 0)], fixed=0.1, efficiency=0.8)
    assert in_kwh(run.curtailed) == pytest.approx(4 * 0.875)
    assert in_kwh(run.end_energy) == 10.0
    falling = outage([(4, [1.0], 1.12, 0)], fixed=0.1, efficiency=0.8)
    assert in_kwh(falling.end_energy) == pytest.approx(10 - 4 * (0.1 - 0.8 * 0.12))
    assert not falling.full_first_seen[0]


def test_unused_generator_power_is_neither_lost_nor_curtailed() -> None:
    """A full battery beside a 4 kW generator: 1 kW is delivered."""
    run = outage([(3, [1.0], 0, 4.0)])
    assert in_kwh(run.generator_used) == 3.0
    assert in_kwh(run.curtailed) == in_kwh(run.lost_source) == in_kwh(run.source_used) == 0.0


@pytest.mark.parametrize("excludes,used,lost,generated", [(True, 0, 6, 9), (False, 6, 0, 3)])
def test_generator_beside_the_sun(excludes: bool, used: int, lost: int, generated: int) -> None:
    """3 kW load, 2 kW sun, 4 kW generator: the sun is off beside it, or else goes first."""
    run = outage([(3, [3.0], 2.0, 4.0)], excludes=excludes)
    assert in_kwh(run.source_used) == pytest.approx(used)
    assert in_kwh(run.lost_source) == pytest.approx(lost)
    assert in_kwh(run.generator_used) == pytest.approx(generated)


@pytest.mark.parametrize("power,restarts", [(0.9, 0), (1.1, 1)])
def test_generator_restarts_the_bus_if_it_covers_the_load(power: float, restarts: int) -> None:
    """No black start is stated; a generator needs none, but must carry 1 kW."""
    run = outage([(1, [1.0], 0, 0), (1, [1.0], 0, power)], start=0.0)
    assert int(run.restarts[0]) == restarts


OVER: list[Step] = [
    (1, [1.0, 1.0, 2.0], 0, 0),
    (1, [3.0, 1.0, 2.0], 0, 0),
    (1, [1.0, 1.0, 2.0], 0, 0),
]


def test_power_limit_drops_whole_tiers_only_while_it_lasts() -> None:
    """6 kW on a 4.5 kW inverter: the last class goes for an hour, and is back."""
    run = outage(OVER, capacity=30.0, limit=4.5)
    assert (run.served[:, 0] / 3.6e6).tolist() == [5.0, 3.0, 4.0]
    assert run.tier_first_off_power_seen[:, 0].tolist() == [False, True]
    assert in_hours(run.tier_first_off_power[1]) == in_hours(run.first_power_limit) == 1.0
    assert in_hours(run.power_limited_time) == 1.0
    assert not run.tier_first_off_energy_seen.any()
    assert not run.overload[0]


def test_power_limit_in_proportion() -> None:
    """6 kW on a 4.5 kW inverter: three quarters of everything; nothing is off."""
    run = outage(OVER, capacity=30.0, limit=4.5, rule=1)
    assert (run.served[:, 0] / 3.6e6) == pytest.approx([2 + 2.25, 2 + 0.75, 4 + 1.5])
    assert not run.tier_first_off_seen.any()


@pytest.mark.parametrize("rule", [0, 1])
def test_critical_load_alone_over_the_limit_is_an_overload(rule: int) -> None:
    """3 kW critical on 2.5 kW beside 0.2 kW of sun: 0.3 kW are not served, and it is said."""
    steps: list[Step] = [(1, [1.0], 0.2, 0), (2, [3.0], 0.2, 0)]
    run = outage(steps, capacity=30.0, limit=2.5, rule=rule)
    assert in_kwh(run.unserved) == pytest.approx(0.6)
    assert run.overload[0]
    assert in_hours(run.first_overload) == 1.0
    assert not run.first_loss_seen[0]


def test_power_and_energy_are_told_apart() -> None:
    """The tier is dropped for power in the first hour and shed for energy later."""
    steps: list[Step] = [(1, [3.0, 2.0], 0, 0), (9, [1.0, 1.0], 0, 0)]
    run = outage(steps, limit=4.0, **ONE_TIER)
    assert in_hours(run.tier_first_off_power) == in_hours(run.tier_first_off) == 0.0
    assert in_hours(run.tier_first_off_energy) == pytest.approx(1 + 2 / 2)


def test_rounding_of_sums_does_not_trip_the_limit() -> None:
    """1.1 + 2.2 W is not above 3.3 W, though its floating-point sum is."""
    watts = np.array([0.0011, 0.0022]) * 1e3
    assert watts.sum() > 3.3
    run = outage([(1, [0.0011, 0.0022], 0, 0)], limit=0.0033)
    assert not run.first_power_limit_seen[0]


def test_the_trace_holds_start_events_and_interval_ends() -> None:
    """6 kW on 4.5 kW from the first hour; the bus goes, and the rest is dark."""
    steps: list[Step] = [(1, [1.0, 1.0], 0, 0), (1, [4.0, 2.0], 0, 0), (2, [3.0, 1.0], 0, 0)]
    run = outage(steps, capacity=9.0, limit=4.5, shed=[0.5], restore=[1.0], trace=True)
    columns = zip(run.trace_time, run.trace_energy, run.trace_event, run.trace_tier, strict=True)
    rows = [(in_hours(t), in_kwh(e), int(c[0]), int(k[0])) for t, e, c, k in columns]
    assert rows == [
        (0.0, 9.0, -1, -1),
        (1.0, 7.0, 0, -1),
        (1.0, 7.0, 6, 1),
        (2.0, 3.0, 0, -1),
        (2.625, 0.5, 1, 1),
        (pytest.approx(2.625 + 0.5 / 3), 0.0, 3, -1),
        (4.0, 0.0, 0, -1),
    ]
