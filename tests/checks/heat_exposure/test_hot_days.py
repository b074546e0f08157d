"""The hottest days are those of the unit on its wall: no hour of the year is beyond the hot end."""

from typing import Any

import numpy as np
import pytest

from service.checks.heat_exposure.arguments import arguments
from service.checks.heat_exposure.climate_days import climate_days, sky_of_year
from service.checks.heat_exposure.columns import columns
from service.checks.heat_exposure.exposure import Finish
from service.checks.heat_exposure.hot_days import MISSED
from service.checks.heat_exposure.judged import spots_heat
from service.checks.heat_exposure.lit_parts import Mounting, Shades
from service.checks.heat_exposure.readings import HOT
from service.checks.heat_exposure.tree_shade import beam_through, month_of_hour
from service.checks.heat_exposure.unit_faces import face_areas
from service.checks.heat_exposure.year_on_walls import year_on_walls
from service.climate import climate_sites
from tests.checks.heat_exposure.requests import (
    Body,
    answer,
    body,
    request_of,
    rules,
    walls,
    year_of,
)

#: Units of all kinds: usual, black and flat, light, heavy; absorptance, lag, size [in].
UNITS = [(0.45, 3.0, (38, 28, 14)), (0.95, 0.0, (40, 60, 2)), (0.9, 4.0, (30, 40, 8))]
FACINGS = [22.5 * step for step in range(16)]


def year_less_days(made: Body, through: Any = 1.0) -> list[float]:
    """Return by how much the year's hot end lies above that of the days, by wall [K]."""
    request = request_of(made)
    climate = climate_days(request.climate)
    arrays = arguments([request], [climate], remedies=False)
    found = columns(**arrays)["solved"][0]
    place = climate.places[0]
    assert place.year is not None
    spots, first, less = spots_heat(request, climate, found), 0, []
    for spot in spots:
        lane = first
        first += int(np.prod(spot.shape))

        def at(name: str, lane: int = lane) -> Any:
            return arrays[name][lane]

        distance, high = (
            np.reshape(at(f"screen_{part}"), (-1, 1, 1)) for part in ("distance", "height")
        )
        year = year_on_walls(
            place.year.air + at("air_rise")[HOT],
            sky_of_year(place),
            np.array([[at("facing")]]),
            at("albedo")[HOT],
            Mounting(*(at(name) for name in Mounting._fields)),
            Shades(at("edge_depth"), at("edge_height"), distance, high, True, at("wall_height")),
            face_areas(at("width"), at("height"), at("depth")),
            Finish(*(at(name)[HOT] for name in Finish._fields)),
            through,
        )
        less.append(float(year.followed.max()) - (spot.hot_end - spot.kelvin))
    return less


@pytest.mark.parametrize("site", climate_sites())
@pytest.mark.parametrize("height", [None, 108])
def test_no_day_of_the_year_is_hotter_than_the_hot_end(site: str, height: float | None) -> None:
    """All climate sites, 16 facings, one of three units: within the margin that the hot end has."""
    absorptance, lag, (width, tall, depth) = UNITS[list(climate_sites()).index(site) % 3]
    made = walls(*({"facing": facing, "height": height} for facing in FACINGS))
    made["climate"] = {"kind": "site", "site": site}
    size = {"width": width, "height": tall, "depth": depth}
    made["unit"] = made["unit"] | size | {"absorptance": absorptance, "lag_hours": lag}
    assert max(year_less_days(made)) <= MISSED


TREE = [100, 100, 100, 100, 20, 20, 20, 20, 20, 100, 100, 100]
SHADES: list[Body] = [
    {"eave": {"depth": 36, "height": 60}},
    {"screens": [{"distance": 4, "height": 9}]},
    {"tree": {"through_percent": TREE}},
]


@pytest.mark.parametrize("shade", SHADES)
@pytest.mark.parametrize("site", ["chino", "santa_maria", "long_beach", "palm_springs", "burbank"])
def test_the_hottest_day_behind_a_shade_is_sought_behind_it(site: str, shade: Body) -> None:
    """An eave lets the low sun of autumn in, a bare tree that of spring."""
    made = walls(*({"facing": facing} | shade for facing in FACINGS[::2]))
    made["climate"] = {"kind": "site", "site": site}
    through: Any = 1.0
    if "tree" in shade:
        hours = np.arange(8760) % 24
        through = beam_through(month_of_hour(), hours, np.array(TREE) / 100)[np.newaxis]
    assert max(year_less_days(made, through)) <= MISSED


@pytest.mark.parametrize("site, limit", [("chino", 102), ("twentynine_palms", 115)])
def test_a_north_wall_does_not_pass_on_days_without_sun_on_it(site: str, limit: float) -> None:
    """In wind, the kindest reading, the year at Chino comes to 104 degF: no pass at 102."""
    made = walls({"facing": 0})
    made["climate"] = {"kind": "site", "site": site}
    made["limits"] = {"highest": limit, "lowest": -4}
    made["derating"] = [{"temperature": limit, "percent": 100}]
    found = answer(made, "series")
    assert year_of(found).ambient.low > limit
    assert rules(found)["heat-limit"] == "fail"
    assert rules(found)["heat-power"] == "fail"


@pytest.mark.parametrize("site", ["chino", "santa_maria", "burbank", "palm_springs"])
@pytest.mark.parametrize("facing", [0, 90, 180, 270])
def test_the_days_are_as_hot_as_the_year_beside_them(site: str, facing: float) -> None:
    made = walls({"facing": facing}) | {"climate": {"kind": "site", "site": site}}
    found = answer(made, "series")
    year, wall = year_of(found).ambient, found.walls[0].ambient
    assert year.high <= wall.high + 1.8 * MISSED
    assert year.hot <= wall.hot + 0.1


def test_of_the_days_there_the_hotter_is_shown_and_counts() -> None:
    made = walls({"facing": 0}) | {"climate": {"kind": "site", "site": "chino"}}
    found = answer(made)
    there = next(day for day in found.days if day.day == "hottest_there")
    assert there.ambient.high == found.walls[0].ambient.high
    assert there.ambient.high > max(day.ambient.high for day in found.days[:2]) + 5


def test_an_own_year_and_a_garage_know_their_hottest_day_too() -> None:
    garage = {"kind": "garage", "door_faces": "other"}
    found = answer(body(place=garage, wall_air_rise=None), "series")
    assert year_of(found).ambient.high <= max(day.ambient.high for day in found.days) + 1.8
