"""What the heat check refuses, and that every bound of its request is answered with numbers."""

import json
import random

import pytest

from service.checks.heat_exposure import CHECK
from service.checks.heat_exposure.work import work
from tests.checks.heat_exposure.requests import (
    ANSWERING,
    KNOWN,
    WALL,
    Body,
    body,
    refused,
    request_of,
    unit,
    walls,
)

REFUSED = [
    (walls({"eave": {"depth": 24, "height": 40}}), "/place/walls/0/eave/height"),
    (walls({"height": 40}), "/place/walls/0/height"),
    (
        walls({"height": 100, "eave": {"depth": 24, "height": 110}}),
        "/place/walls/0/eave/height",
    ),
    (walls({"screens": [{"distance": 1, "height": 6}]}), "/place/walls/0/screens/0/distance"),
    (walls({"tree": {"through_percent": [1, 2, 3]}}), "/place/walls/0/tree/through_percent"),
    (unit(bottom=None), "/unit/bottom"),
    (body(place={"kind": "outdoors", "walls": [WALL, WALL]}), "/place/walls/1/id"),
    (body(place={"kind": "outdoors", "walls": []}), "/place/walls"),
    (body(limits={"highest": 0, "lowest": 10}), "/limits/highest"),
    (
        body(derating=[{"temperature": 120, "percent": 50}, {"temperature": 110, "percent": 20}]),
        "/derating/1/temperature",
    ),
    (body(derating=[]), "/derating"),
    (body(derating=[{"temperature": 110, "percent": 101}]), "/derating/0/percent"),
    (unit(width=0), "/unit/width"),
    (unit(depth=-2), "/unit/depth"),
    (unit(colour="pink"), "/unit/colour"),
    (walls({"facing": 361}), "/place/walls/0/facing"),
    (body(climate={"kind": "site", "site": "atlantis"}), "/climate/site"),
    (
        body(
            climate={
                "kind": "design_day",
                "highest": 100,
                "daily_range": 20,
                "day_of_year": 200,
                "latitude": 34,
                "longitude": -117,
                "utc_offset_hours": 8,
                "depths": {"edition": "ashrae_2013", "beam": 0.5, "diffuse": 2},
            }
        ),
        "/climate/utc_offset_hours",
    ),
]


@pytest.mark.parametrize("made, pointer", REFUSED)
def test_what_contradicts_itself_is_named(made: Body, pointer: str) -> None:
    assert pointer in refused(made)


def test_every_contradiction_is_named_at_once() -> None:
    made = walls({"height": 40}, {"id": "wall-0", "screens": [{"distance": 0, "height": 6}]})
    made["limits"] = {"highest": 0, "lowest": 10}
    assert set(refused(made)) == {
        "/limits/highest",
        "/place/walls/0/height",
        "/place/walls/1/id",
        "/place/walls/1/screens/0/distance",
    }


def test_what_merely_touches_is_taken() -> None:
    assert refused(walls({"height": 52, "eave": {"depth": 0, "height": 52}})) == []
    assert refused(walls({"screens": [{"distance": 16 / 12, "height": 6}]})) == []


def test_five_hundred_objects_are_answered_and_their_cost_is_told() -> None:
    screens = [{"distance": 3 + at, "height": 2 + at} for at in range(24)]
    made = walls(*({"facing": 15.0 * at, "screens": screens} for at in range(24)))
    request = request_of(made)
    assert work(request) < CHECK.work_limit
    found = CHECK.run(request, frozenset(["series", "working"]))
    assert len(found.walls) == 24
    behind = [wall.behind_degf for wall in found.walls]
    assert behind == sorted(behind)


def drawn(seed: int) -> Body:
    """Return a request of values at and between the bounds of the contract."""
    pick = random.Random(seed)

    def some(low: float, high: float) -> float:
        return pick.choice([low, high, pick.uniform(low, high)])

    def wall(at: int) -> Body:
        made: Body = {"id": str(at), "facing": some(0, 360)}
        if pick.random() < 0.5:
            made["eave"] = {"depth": some(0, 600), "height": some(840, 1200)}
        if pick.random() < 0.5:
            made["screens"] = [{"distance": some(15, 1000), "height": some(0, 300)}]
        if pick.random() < 0.5:
            made["tree"] = {
                "through_percent": [some(0, 100)],
                "from_hour": some(0, 24),
                "to_hour": some(0, 24),
            }
        return made

    size = {"width": some(2, 240), "height": some(2, 240), "depth": some(1, 120)}
    hung = size | {"standoff": some(0, 60), "bottom": some(0, 600)}
    if pick.random() < 0.5:
        hung |= {"mass": some(1, 20_000), "absorptance": some(0.02, 1)}
    if pick.random() < 0.3:
        hung |= {"lag_hours": some(0, 48), "losses": some(0, 20_000)}
    climate: Body = {"kind": "site", "site": pick.choice(["riverside", "palm_springs"])}
    if pick.random() < 0.4:
        climate = {
            "kind": "design_day",
            "highest": some(32, 140),
            "daily_range": some(0.5, 53.9),
            "day_of_year": pick.choice([1, 172, 365]),
            "latitude": some(-90, 90),
            "longitude": -120,
            "utc_offset_hours": -8,
            "depths": {
                "edition": pick.choice(["ashrae_2009", "ashrae_2013"]),
                "beam": some(0.05, 2),
                "diffuse": some(0.5, 4),
            },
        }
    place = pick.choice(
        [
            None,
            {"kind": "garage"},
            {"kind": "outdoors", "walls": [wall(at) for at in range(pick.randint(1, 3))]},
        ]
    )
    low = some(-76, 212)
    return body(
        climate=climate,
        unit=hung,
        place=place,
        limits={
            "lowest": low,
            "highest": some(low, 212),
            "speak_of": pick.choice(["ambient", "inside"]),
        },
        derating=[{"temperature": some(-76, 212), "percent": some(0, 100)}],
        outage={"start_hour": some(0, 24), "hours": some(0.25, 720), "need_kw": some(0.001, 1000)},
        thresholds=[some(-76, 212) for _ in range(pick.randint(0, 8))],
        extreme_rise=some(0, 36),
    )


@pytest.mark.parametrize("seed", range(40))
def test_any_request_of_the_contract_is_answered_with_finite_numbers(seed: int) -> None:
    request = request_of(drawn(seed))
    body_of = ANSWERING.answer(request, frozenset(["series", "working"])).body
    found = json.loads(body_of)
    assert found["verdict"] in ("fail", "undetermined", "conditional", "pass")


def test_the_body_is_read_in_other_units_too() -> None:
    inches = json.loads(json.dumps(KNOWN))
    inches["unit"] |= {"width": "0.9652 m", "height": "71.12 cm", "depth": "355.6 mm"}
    inches["limits"]["highest"] = "71.1111 degC"
    both = [CHECK.run(request_of(one), frozenset()) for one in (inches, KNOWN)]
    metric, customary = both
    assert metric.verdict is customary.verdict
    for one, other in zip(metric.days, customary.days, strict=True):
        assert one.ambient.high == pytest.approx(other.ambient.high, abs=1e-9)
