"""What holds of every stepped outage, and its limit for short steps."""

import math
from typing import Any

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.integrate import solve_ivp

from service.physics.outage_steps import StepsRestart, StepsRun, step_outages
from tests.physics.stepped_batches import (
    HOUR,
    KWH,
    Batch,
    plain,
    random_batch,
    with_dc_sun,
    with_generator,
)

SEEDS = [11, 12, 13]


def split(batch: Batch, parts: int) -> Batch:
    """Every step cut into equal parts."""
    found = dict(batch)
    for name in ("duration", "load", "source", "dc_source"):
        if name in found:
            found[name] = np.repeat(found[name], parts, axis=0)
    found["duration"] = found["duration"] / parts
    if "generator" in found:
        old = found["generator"]
        fields = {name: getattr(old, name) for name in old.__slots__}
        fields["allowed"] = np.repeat(old.allowed, parts, axis=0)
        found["generator"] = type(old)(**fields)
    return found


def assert_same(run: StepsRun, other: StepsRun) -> None:
    for name in ("held", "first_loss", "tier_first_off", "dark_time", "first_power_limit"):
        found, expected = getattr(run, name), getattr(other, name)
        assert found == pytest.approx(expected, rel=1e-9, abs=1e-4), name
    assert run.end_energy == pytest.approx(other.end_energy, rel=1e-9, abs=3.6e-3)
    assert run.min_energy == pytest.approx(other.min_energy, rel=1e-9, abs=3.6e-3)
    assert np.array_equal(run.restarts, other.restarts)


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("rich", [False, True])
def test_splitting_a_step_changes_nothing(seed: int, rich: bool) -> None:
    """Steps cut in two give the same times and energies."""
    batch = random_batch(seed, 200)
    if rich:
        batch = with_generator(with_dc_sun(batch, seed), seed)
    assert_same(step_outages(**split(batch, 2)), step_outages(**batch))


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("rich", [False, True])
def test_energies_balance(seed: int, rich: bool) -> None:
    """Start, source and generator equal end, served and losses, with everything or an AC source."""
    batch = random_batch(seed, 200) | {"restart": StepsRestart(mode=1, black_start_power=500.0)}
    if rich:
        batch = with_generator(with_dc_sun(batch, seed), seed)
    run = step_outages(**batch, account=True)
    account = run.account
    assert account is not None
    gained = batch["start_energy"] + account.source_used + account.generator_energy
    spent = run.end_energy + account.served.sum(axis=0) + account.conversion_loss
    assert gained == pytest.approx(spent, rel=1e-9)
    length = batch["duration"][:, np.newaxis]
    sun = ((batch["source"] + batch.get("dc_source", 0.0)) * length).sum(axis=0)
    whole = account.source_used + account.curtailed + account.lost_source
    assert whole == pytest.approx(sun, rel=1e-9)
    asked = (batch["load"] * length[:, np.newaxis]).sum(axis=0)
    assert account.served + account.unserved == pytest.approx(asked, rel=1e-9)


@pytest.mark.parametrize("seed", SEEDS)
def test_adding_energies_up_changes_no_time(seed: int) -> None:
    """The path that adds energies up and the one that does not give the same outage."""
    batch = random_batch(seed, 200)
    assert_same(step_outages(**batch), step_outages(**batch, account=True))
    batch = with_generator(with_dc_sun(batch, seed), seed)
    assert_same(step_outages(**batch), step_outages(**batch, account=True))


@pytest.mark.parametrize("seed", SEEDS)
def test_a_larger_battery_is_never_lost_earlier(seed: int) -> None:
    """Without tiers, capacity never shortens the time held."""
    batch = random_batch(seed, 1, steps=200, sunny=0.5)
    batch |= {"load": batch["load"][:, :1] * 0.6, "shed_at": None, "restore_at": None}
    capacity = np.linspace(2, 60, 300) * KWH
    run = step_outages(**batch | {"capacity": capacity, "start_energy": capacity, "floor": 0.0})
    assert np.all(np.diff(run.held) >= 0.0)
    assert len(np.unique(run.held)) > 5


def test_shifting_load_sun_and_start_together_shifts_nothing() -> None:
    """A lane that starts an hour later in a profile shifted by that hour has the same outage."""
    rng = np.random.default_rng(4)
    load, sun = rng.uniform(0, 2e3, (200, 2)), rng.uniform(0, 4e3, 200)
    case: dict[str, Any] = {"shed_at": [4 * KWH], "restore_at": [6 * KWH]}
    base = step_outages(**plain(100, load=load[40:140], source=sun[40:140], **case))
    for hours in (1, 7, 33):
        later, shine = np.roll(load, hours, axis=0), np.roll(sun, hours)
        rows = slice(40 + hours, 140 + hours)
        moved = step_outages(**plain(100, load=later[rows], source=shine[rows], **case))
        assert_same(moved, base)


def test_lanes_do_not_see_each_other() -> None:
    """A lane alone and among others has the same outage."""
    batch = with_generator(with_dc_sun(random_batch(21, 60), 22), 23)
    whole = step_outages(**batch)
    generator = batch["generator"]
    for i in (0, 17, 59):
        alone = {
            k: v[..., i : i + 1] if np.ndim(v) and k != "duration" else v
            for k, v in batch.items()
            if k not in ("generator", "restart")
        }
        restart = batch["restart"]
        alone["restart"] = type(restart)(
            mode=restart.mode[i : i + 1], restart_energy=restart.restart_energy[i : i + 1]
        )
        alone["generator"] = type(generator)(
            **{name: getattr(generator, name)[..., i : i + 1] for name in generator.__slots__}
        )
        one = step_outages(**alone)
        assert one.held[0] == whole.held[i]
        assert one.end_energy[0] == pytest.approx(whole.end_energy[i], rel=1e-12, abs=1e-6)


def smooth(seed: int) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Amplitudes and phases of a load in W that is positive and smooth over a day."""
    rng = np.random.default_rng(seed)
    return rng.uniform(50, 250, 3), rng.uniform(0, 2 * math.pi, 3)


def load_at(seconds: Any, waves: tuple[NDArray[np.float64], NDArray[np.float64]]) -> Any:
    parts = [
        amplitude * np.sin(2 * math.pi * (k + 1) * seconds / (24 * HOUR) + phase)
        for k, (amplitude, phase) in enumerate(zip(*waves, strict=True))
    ]
    return 900.0 + sum(parts)


def mean_load(edges: NDArray[np.float64], waves: Any) -> NDArray[np.float64]:
    """Mean of the smooth load over each step, from its integral."""
    total = 900.0 * edges
    for k, (amplitude, phase) in enumerate(zip(*waves, strict=True)):
        pace = 2 * math.pi * (k + 1) / (24 * HOUR)
        total = total - amplitude / pace * np.cos(pace * edges + phase)
    return np.asarray(np.diff(total) / np.diff(edges))


@pytest.mark.parametrize("seed", [31, 32, 33, 34])
def test_smooth_load_agrees_with_the_ode(seed: int) -> None:
    """On mean powers the loss nears that of scipy's ODE solver with the square of the step."""
    waves, loss = smooth(seed), {"fixed": 25.0, "linear": 1.03, "square": 1e-5}

    def rate(seconds: float, _: Any) -> list[float]:
        power = float(load_at(seconds, waves))
        return [-(loss["fixed"] + loss["linear"] * power + loss["square"] * power**2)]

    def empty(_: float, energy: Any) -> float:
        return float(energy[0])

    event: Any = empty
    event.terminal = True
    exact = solve_ivp(
        rate, (0, 40 * HOUR), [12 * KWH], events=event, rtol=1e-11, atol=1.0, max_step=600
    )
    for step in (3600.0, 1800.0, 900.0, 225.0, 60.0):
        edges = np.arange(0, 40 * HOUR + 1, step)
        run = step_outages(
            **plain(
                duration=np.diff(edges),
                load=mean_load(edges, waves)[:, np.newaxis],
                capacity=12 * KWH,
                start_energy=12 * KWH,
                discharge_fixed=loss["fixed"],
                discharge_linear=loss["linear"],
                discharge_square=loss["square"],
            )
        )
        bound = 10.0 * (step / 900) ** 2
        assert float(run.held[0]) == pytest.approx(float(exact.t_events[0][0]), abs=bound), step
