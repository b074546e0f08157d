"""Dated cases beside plain ones: alone, in a batch, for the verdict alone and whole."""

import random
from functools import cache
from typing import Any

import numpy as np
import pytest

from service.checks.outage_runtime import CHECK
from service.checks.outage_runtime.columns import columns
from service.checks.outage_runtime.verdicts import verdicts
from service.findings import Verdict
from tests.checks.outage_runtime import random_requests
from tests.checks.outage_runtime.asking import Body, answered, taken
from tests.checks.outage_runtime.year_requests import (
    array,
    cooling,
    generator,
    metered_use,
    solar,
)

CASES = 60
_PLACES: list[Body] = [
    {"kind": "site", "site": "arcata"},
    {"kind": "site", "site": "daggett"},
    {"kind": "county", "state": "CA", "county": "Marin"},
    {"kind": "zone", "zone": 12},
    {"kind": "point", "latitude": 33.83, "longitude": -116.5, "terrain": "low_desert"},
    {"kind": "point", "latitude": 45.0, "longitude": -100.0},
]
_RESTARTS: list[Body] = [
    {"mode": "none"},
    {"mode": "pv_black_start", "least_kw": 0.3, "wait": 5},
    {"mode": "dc_restart", "restart_charge_percent": 30},
]


def _array(draw: random.Random) -> Body:
    found = array(draw.choice([2, 5, 9]), azimuth=draw.choice([90, 180, 270]))
    found |= {"tilt": draw.choice([5, 25, 90]), "coupling": draw.choice(["ac", "ac", "dc"])}
    for name in ("inverter_kw", "shading_percent"):
        if draw.random() < 0.5:
            del found[name]
    return found


def _solar(draw: random.Random) -> Body:
    found = solar(*(_array(draw) for _ in range(draw.randint(1, 3))))
    for name in ("system_losses_percent", "temperature_coefficient", "yield_factor"):
        if draw.random() < 0.5:
            del found[name]
    if draw.random() < 0.15:
        del found["backed_up"]
    return found


def _generator(draw: random.Random) -> Body:
    found = generator(rated_kw=draw.choice([2, 6]))
    if draw.random() < 0.5:
        found["fuel"] = {"kind": "liquid", "fuel": "propane", "tank": draw.choice([0, 3, 20])}
    for name in ("connection", "usable_part", "quality_class"):
        if draw.random() < 0.2:
            del found[name]
    if draw.random() < 0.4:
        found["quiet_hours"] = [{"start_hour": 21.5, "end_hour": 7}]
    return found


def drawn(seed: int) -> Body:
    """Return a request of random loads and battery with sun, weather, generator or a meter."""
    draw = random.Random(f"dated {seed}")
    body = random_requests.request(draw, load_control=None if draw.random() < 0.05 else False)
    body["target_hours"] = draw.choice([2, 6, 12, 24])
    body["battery"].setdefault("continuous_kw", 12)
    body["climate"] = draw.choice(_PLACES)
    kind = seed % 10
    if kind not in (1, 6):
        body["solar"] = _solar(draw)
    if kind in (1, 6) or draw.random() < 0.3:
        units = [cooling(), cooling(kind="heat_pump_heating", indoor=68, design=35)]
        body["conditioning"] = units[: draw.randint(1, 2)]
    if kind == 2:
        body["generator"] = _generator(draw)
    if kind == 3:
        body |= {"dark_allowed": draw.choice([2, 13]), "restart": draw.choice(_RESTARTS)}
    if kind in (4, 8):
        body["use"] = metered_use(draw.choice([1, 2]))
    if draw.random() < 0.3:
        body["starts_carried_percent"] = draw.choice([60, 90, 97])
    return body


@pytest.mark.parametrize("first", range(0, CASES, 10))
def test_the_verdicts_of_dated_requests_are_those_of_the_whole_answers(first: int) -> None:
    """Ten at a time, a plain one among them."""
    bodies = [*(drawn(seed) for seed in range(first, first + 10)), _plain(first)]
    together = verdicts([taken(body) for body in bodies])
    assert together == [answered(body, "brief").verdict for body in bodies]


def test_a_verdict_asked_for_alone_is_the_one_in_the_batch() -> None:
    together = verdicts([taken(drawn(seed)) for seed in range(CASES)])
    alone = [verdicts([taken(drawn(seed))])[0] for seed in range(0, CASES, 4)]
    assert alone == together[::4]
    assert set(together) == set(Verdict), "every verdict is met"


def _plain(seed: int) -> Body:
    return random_requests.request(random.Random(f"plain {seed}"))


@cache
def mixed() -> tuple[list[Any], Any]:
    bodies = [_plain(0), drawn(0), _plain(1), drawn(6), drawn(8), _plain(2)]
    requests = [taken(body) for body in bodies]
    with np.errstate(all="ignore"):
        return requests, columns(**CHECK.arguments(requests))


@pytest.mark.parametrize("case", range(6))
def test_a_case_alone_is_the_case_in_a_batch_with_plain_ones(case: int) -> None:
    """Codes and flags are equal, numbers agree to 1e-9; no number is none."""
    requests, batch = mixed()
    with np.errstate(all="ignore"):
        alone = columns(**CHECK.arguments([requests[case]]))
    assert set(alone) == set(batch)
    for name, values in alone.items():
        if name == "year":
            assert (values[0] is None) == (batch[name][case] is None)
        elif np.issubdtype(values.dtype, np.floating):
            assert np.all(np.isfinite(values)), name
            np.testing.assert_allclose(
                batch[name][case], values[0], rtol=1e-9, atol=1e-9, err_msg=name
            )
        else:
            np.testing.assert_array_equal(batch[name][case], values[0], err_msg=name)
