"""The outage stepper against the outage engine and against an independent scalar reference."""

import math
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray

from service.physics.outage_engine import simulate_outage
from service.physics.outage_steps import StepsRestart, StepsRun, step_outages
from tests.oracles.outage_generator_reference import House, Interval, Walk
from tests.physics.stepped_batches import (
    HOUR,
    KWH,
    Batch,
    random_batch,
    with_dc_sun,
    with_generator,
)

LANES = 250


def with_black_start(batch: Batch, seed: int) -> tuple[Batch, Batch]:
    """The batch for the stepper and for the engine, most lanes with a black start."""
    rng = np.random.default_rng(seed)
    lanes = batch["load"].shape[2]
    has = rng.random(lanes) < 0.7
    power = np.where(has, rng.uniform(0, 3e3, lanes), np.inf)
    delay = rng.choice([0.0, 300.0, 5e3], lanes)
    restart = StepsRestart(mode=has, black_start_power=power, black_start_delay=delay)
    asked = {"black_start_power": power, "black_start_delay": delay}
    return batch | {"restart": restart}, batch | asked


@pytest.mark.parametrize("account", [False, True])
@pytest.mark.parametrize("seed", [1, 2])
def test_random_outages_are_those_of_the_engine(seed: int, account: bool) -> None:
    """Times, losses, restarts and energies agree, with tiers, sun, black start and both rules."""
    ours, engine = with_black_start(random_batch(seed, LANES), seed)
    run, expected = step_outages(**ours, account=account), simulate_outage(**engine)
    for name in ("first_loss", "tier_first_off", "first_power_limit"):
        assert getattr(run, name) == pytest.approx(getattr(expected, name), rel=1e-9, abs=1e-5)
        seen = f"{name}_seen"
        assert np.array_equal(getattr(run, seen), getattr(expected, seen))
    assert run.dark_time == pytest.approx(expected.down_time, rel=1e-9, abs=1e-4)
    assert np.array_equal(run.restarts, expected.restarts)
    assert int(run.restarts.sum()) > LANES
    for name in ("end_energy", "min_energy"):
        assert getattr(run, name) == pytest.approx(getattr(expected, name), rel=1e-9, abs=3.6e-3)
    if account:
        assert_energies(run, expected)


def assert_energies(run: StepsRun, expected: Any) -> None:
    account = run.account
    assert account is not None
    names = ("served", "unserved", "source_used", "curtailed", "lost_source", "conversion_loss")
    for name in names:
        found, stated = getattr(account, name), getattr(expected, name)
        assert found == pytest.approx(stated, rel=1e-9, abs=1e-2), name


def lane(value: Any, i: int) -> float:
    return float(np.asarray(value)[i])


def house(batch: Batch, i: int) -> House:
    """One lane of a batch in kWh, kW and hours."""
    restart, generator = batch.get("restart", StepsRestart()), batch.get("generator")
    mode = int(np.broadcast_to(restart.mode, batch["load"].shape[2:])[i])
    found = House(
        capacity=batch["capacity"][i] / KWH,
        start=batch["start_energy"][i] / KWH,
        floor=batch["floor"][i] / KWH,
        fixed=batch["discharge_fixed"][i] / 1e3,
        linear=batch["discharge_linear"][i],
        square=batch["discharge_square"][i] * 1e3,
        charge_efficiency=batch["charge_efficiency"][i],
        dc_efficiency=batch["dc_charge_efficiency"][i],
        discharge_limit=batch["discharge_limit"][i] / 1e3,
        charge_limit=batch["charge_limit"][i] / 1e3,
        tiers=[(batch["shed_at"][k, i] / KWH, batch["restore_at"][k, i] / KWH) for k in range(2)],
        proportional=bool(batch["power_limit_rule"][i]),
        restart_energy=lane(restart.restart_energy, i) / KWH if mode == 2 else math.inf,
    )
    if generator is not None:
        found.power = lane(generator.power, i) / 1e3
        found.start_at = lane(generator.start_energy, i) / KWH
        found.stop_at = lane(generator.stop_energy, i) / KWH
        found.run_charge_limit = lane(generator.charge_limit, i) / 1e3
        found.tank, found.refills = lane(generator.tank, i), int(lane(generator.refills, i))
        found.burn_fixed = lane(generator.burn_fixed, i) * HOUR
        found.burn_linear = lane(generator.burn_linear, i) * KWH
    return found


def intervals(batch: Batch, i: int) -> list[Interval]:
    generator = batch.get("generator")
    steps = range(len(batch["duration"]))
    return [
        (
            batch["duration"][t] / HOUR,
            [float(power) / 1e3 for power in batch["load"][t, :, i]],
            batch["source"][t, i] / 1e3,
            batch["dc_source"][t, i] / 1e3,
            generator is not None and bool(generator.allowed[t, i]),
        )
        for t in steps
    ]


def seen(time: NDArray[np.float64], mask: NDArray[np.bool_]) -> float:
    return float(time) / HOUR if mask else math.nan


def found_in(run: StepsRun, i: int) -> dict[str, float]:
    """What the stepper says of a lane, in kWh and hours; NaN for what never came."""
    found = {
        "end": run.end_energy[i] / KWH,
        "least": run.min_energy[i] / KWH,
        "dark": run.dark_time[i] / HOUR,
        "restarts": float(run.restarts[i]),
        "first_loss": seen(run.first_loss[i], run.first_loss_seen[i]),
        "first_limit": seen(run.first_power_limit[i], run.first_power_limit_seen[i]),
    }
    for k in range(2):
        found[f"off {k}"] = seen(run.tier_first_off[k, i], run.tier_first_off_seen[k, i])
    if run.account is None:
        return found
    account = run.account
    found |= {
        "generated": account.generator_energy[i] / KWH,
        "run_time": account.generator_time[i] / HOUR,
        "starts": float(account.generator_starts[i]),
        "fuel": account.fuel_used[i],
        "refills": float(account.refills_used[i]),
        "used": account.source_used[i] / KWH,
        "refused": account.curtailed[i] / KWH,
        "passed": account.lost_source[i] / KWH,
        "loss": account.conversion_loss[i] / KWH,
    }
    for k in range(3):
        found |= {f"served {k}": account.served[k, i] / KWH}
        found |= {f"unserved {k}": account.unserved[k, i] / KWH}
    return found


def expected_of(walk: Walk) -> dict[str, float]:
    expected = {
        "end": walk.energy,
        "least": walk.least,
        "dark": walk.dark,
        "restarts": float(walk.restarts),
        "first_loss": walk.first_loss,
        "first_limit": walk.first_limit,
        "generated": walk.generated,
        "run_time": walk.run_time,
        "starts": float(walk.starts),
        "fuel": walk.fuel,
        "refills": float(walk.refills_used),
        "used": walk.used,
        "refused": walk.refused,
        "passed": walk.passed,
        "loss": walk.loss,
    }
    expected |= {f"off {k}": time for k, time in enumerate(walk.first_off)}
    for k in range(3):
        expected |= {f"served {k}": walk.served[k], f"unserved {k}": walk.unserved[k]}
    return expected


@pytest.mark.parametrize("account", [False, True])
@pytest.mark.parametrize("kind", ["generator", "dc restart", "generator and dc restart"])
def test_random_outages_match_the_scalar_reference(kind: str, account: bool) -> None:
    """Generator, fuel, quiet hours, DC sun and DC restart agree with a walk event by event."""
    batch = with_dc_sun(random_batch(5, LANES), 6, restarts=kind != "generator")
    if kind != "dc restart":
        batch = with_generator(batch, 7)
    run = step_outages(**batch, account=account)
    met: dict[str, float] = {}
    for i in range(LANES):
        walk = Walk(house(batch, i), 3)
        walk.walk(intervals(batch, i))
        found, expected = found_in(run, i), expected_of(walk)
        stated = {name: expected[name] for name in found}
        assert found == pytest.approx(stated, rel=1e-9, abs=1e-7, nan_ok=True), i
        for name in ("restarts", "starts", "refills"):
            met[name] = met.get(name, 0.0) + expected[name]
    wanted = ["restarts"] if kind == "dc restart" else ["restarts", "starts", "refills"]
    assert all(met[name] > LANES / 2 for name in wanted), met
