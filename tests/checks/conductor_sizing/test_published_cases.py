"""Published cases come out; published answers that do not hold do not."""

from collections.abc import Callable, Mapping
from pathlib import Path

import numpy as np
import pytest

from service.checks.conductor_sizing.conditions_of_use import conditions_of_use
from service.checks.conductor_sizing.dwelling_service import dwelling_service
from service.checks.conductor_sizing.equipment_ground import equipment_ground
from service.checks.conductor_sizing.overcurrent_device import overcurrent_device
from service.checks.conductor_sizing.raceway_fill import raceway_fill
from service.checks.conductor_sizing.rooftop import rooftop_ambient
from service.checks.conductor_sizing.voltage_drop import approximate_drop, exact_drop
from service.published.parse import parse
from service.published.table import Table
from tests.checks.conductor_sizing.circuits import FT, TABLES, named, segments, sized
from tests.checks.conductor_sizing.table_arrays import (
    BY_SIZE,
    CMIL,
    CONDUIT,
    FILL,
    IMPEDANCE,
    IN,
    PER_KFT,
    PVC,
    RACEWAYS,
    RATINGS,
    STEEL,
    TRADE_SIZES,
    ZERO_CELSIUS,
    at,
    column,
)

REFERENCE = Path(__file__).parents[2] / "reference"
Inputs = Mapping[str, str]


def reference(name: str) -> Table:
    return parse(name, (REFERENCE / f"{name}.csv").read_text(encoding="utf-8"))


CASES = reference("conductor_cases")
LONGEST = reference("longest_runs")


def drop(given: Inputs) -> float:
    if "size" in given:
        per_metre = TABLES.resistance[int(given["material"]), PVC, at(given["size"])]
    elif "k" in given:
        per_metre = float(given["k"]) / float(given["cmil"]) / FT
    else:
        per_metre = float(given["ohm_per_kft"]) / 1000 / FT
    ohm = per_metre * float(given["feet"]) * FT
    return float(approximate_drop(float(given["amps"]), ohm, 0.0))


def terminals(given: Inputs) -> str:
    lasting, short = float(given["continuous"]), float(given["other"])
    found = sized(
        amps=lasting + short, raised_amps=1.25 * lasting + short, parts=[(1.0, 30.0, 2, 2)]
    )
    return named(found.size)[0]


def conditions(given: Inputs) -> float:
    if "fahrenheit" in given:
        kelvin = (float(given["fahrenheit"]) - 32) / 1.8 + ZERO_CELSIUS
        kelvin = float(rooftop_ambient(kelvin, float(given["inches"]) * IN, True, 0.75 * IN))
    else:
        kelvin = float(given["celsius"]) + ZERO_CELSIUS
    part = (100.0, kelvin - ZERO_CELSIUS, int(given["counted"]), int(given["column"]))
    found = conditions_of_use(segments([part]), TABLES.factors, TABLES.ampacity, np.array([0]))
    return float(found.ampacity[0, at(given["size"])])


def service(given: Inputs) -> float:
    volt_amperes = float(given["volt_amperes"]) / float(given["factor"])
    return volt_amperes / (float(given["volts"]) * 3**0.5)


def dwelling(given: Inputs) -> str:
    seventy_five = TABLES.ampacity[int(given["material"]), 1][np.newaxis]
    admitted = dwelling_service([float(given["rating"])], seventy_five, seventy_five, True)
    return named(admitted.argmax(axis=1))[0]


def fill(given: Inputs) -> str:
    pairs = [pair.split(":") for pair in given["conductors"].split()]
    thhn = column(11, 11, BY_SIZE)[0]
    found = raceway_fill(
        np.array([[thhn[at(size)] for size, _ in pairs]]),
        np.array([[int(count) for _, count in pairs]]),
        np.array([[RACEWAYS.index(given["raceway"])]]),
        column(2, 6, CONDUIT),
        FILL,
        given["nipple"] == "1",
    )
    return str(TRADE_SIZES[found.trade_size[0]])


def ground(given: Inputs) -> str:
    before, after = CMIL[[at(given["from"])]], CMIL[[at(given["to"])]]
    rating = np.array([float(given["rating"])])
    found = equipment_ground(rating, after, before, TABLES.ground, np.array([0]))
    return named(found.size)[0]


RULES: dict[str, Callable[[Inputs], float | str]] = {
    "drop": drop,
    "terminals": terminals,
    "conditions": conditions,
    "service": service,
    "dwelling": dwelling,
    "fill": fill,
    "ground": ground,
}


@pytest.mark.parametrize("key", CASES.rows)
def test_a_published_case(key: str) -> None:
    row = CASES.rows[key]
    given = dict(pair.split("=", 1) for pair in row["inputs"].split(";"))
    found = RULES[row["rule"]](given)
    if isinstance(found, str):
        assert found == row["expected"]
        assert (found == row["published"]) == (row["status"] == "holds")
    else:
        close = pytest.approx(float(row["expected"]), abs=float(row["tolerance"]))
        assert found == close
        assert (float(row["published"]) == close) == (row["status"] == "holds")


def test_six_conductors_of_208_a_take_a_device_of_225_a() -> None:
    assert overcurrent_device(208.0, RATINGS).rating == 225.0


@pytest.mark.parametrize("size", LONGEST.rows)
def test_the_longest_run_at_one_percent(size: str) -> None:
    amps, longest = LONGEST.number(size, "amps"), LONGEST.number(size, "longest")
    # The print takes Table 9 for every size.
    r = column(7, 7, IMPEDANCE)[0, at(size)] * PER_KFT * longest * FT
    x = TABLES.reactance[STEEL, at(size)] * longest * FT
    assert approximate_drop(amps, r, x, 0.85) == pytest.approx(2.4, rel=0.012)
    # The exact drop in magnitude differs from the formula by less than the print's rounding.
    along = np.asarray(approximate_drop(amps, r, x, 0.85))
    across = np.asarray(2 * amps * (x * 0.85 - r * (1 - 0.85**2) ** 0.5))
    assert exact_drop(240.0, False, along, across) == pytest.approx(float(along), rel=0.003)


def test_there_are_as_many_cases_as_were_published() -> None:
    assert len(CASES.rows) == 20
    assert len(LONGEST.rows) == 21
    assert sum(row["status"] == "wrong" for row in CASES.rows.values()) == 2
