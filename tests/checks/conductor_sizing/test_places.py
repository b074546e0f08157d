"""Where raceways and cables may lie, by whole answers."""

import pytest

from tests.checks.conductor_sizing.requests import Body, body, both, rules

FEEDER: Body = {"kind": "backup_feeder", "most_breaker_a": 100}
EARTH: Body = {"length": 50, "place": "buried", "ambient": 86, "cover": 18}
WALL: Body = {"length": 50, "place": "outside_wall", "ambient": 104}
ATTIC: Body = {"length": 50, "place": "attic", "ambient": 140}
ROOF: Body = {"length": 50, "place": "rooftop", "ambient": 95}

# Way, part, rule of the raceway's place, rule of cover; None: no such finding. Source: NEC 348.12,
# 350.10, 352.12, 356.10, 358.10 and 362.12 from memory, not verified; 18 in by Table 300.5(A).
RACEWAYS = [
    ("pvc40", EARTH, None, "pass"),
    ("rmc", EARTH, None, "pass"),
    ("emt", EARTH, "conditional", "pass"),
    ("lfmc", EARTH, "conditional", "pass"),
    ("lfnc_b", EARTH | {"cover": 17}, "conditional", "fail"),
    ("fmc", EARTH, "fail", None),
    ("ent", EARTH, "fail", None),
    ("fmc", WALL, "fail", None),
    ("fmc", ATTIC, None, None),
    ("ent", WALL, "conditional", None),
    ("emt", WALL, None, None),
    ("pvc40", WALL, None, None),
    # 122 degF are 50 degC.
    ("pvc40", ATTIC | {"ambient": 122}, None, None),
    ("pvc40", ATTIC | {"ambient": 123}, "conditional", None),
    ("pvc80", ATTIC, "conditional", None),
    ("ent", ATTIC, "conditional", None),
    ("emt", ATTIC, None, None),
    # 95 degF and 60 more close above a roof in the sun.
    ("pvc40", ROOF | {"roof_height": 0}, "conditional", None),
    ("pvc40", ROOF | {"roof_height": 1}, None, None),
]


@pytest.mark.parametrize("way, part, place, cover", RACEWAYS)
def test_where_a_raceway_may_lie(
    way: str, part: Body, place: str | None, cover: str | None
) -> None:
    copper, _ = both(body(FEEDER, part | {"way": way}))
    found = rules(copper)
    assert (found.get("raceway-place"), found.get("burial-cover")) == (place, cover)
    if place is not None:
        assert copper.verdict != "pass"


# Way, what lies above, cover [in], rule of cover. Source: Table 300.5(A), one transcription: under
# a building 0 in for cables in a raceway, or of type MC or MI identified for direct burial.
UNDER = [
    ("uf_b", "under_building", 0, "fail"),
    ("use_2", "under_building", 24, "fail"),
    ("tc_er_jp", "under_building", 0, "fail"),
    ("mc_wet", "under_building", 0, "pass"),
    ("pvc40", "under_building", 0, "pass"),
    ("uf_b", "other", 24, "pass"),
    ("uf_b", "other", 23, "fail"),
]


@pytest.mark.parametrize("way, under, cover, verdict", UNDER)
def test_a_cable_under_a_building_lies_in_a_raceway(
    way: str, under: str, cover: float, verdict: str
) -> None:
    copper, _ = both(body(FEEDER, EARTH | {"way": way, "under": under, "cover": cover}))
    assert rules(copper)["burial-cover"] == verdict


@pytest.mark.parametrize("way", ["nm_b", "se", "mc", "ac"])
def test_what_may_not_be_buried_is_not_told_to_lie_deep_enough(way: str) -> None:
    for row in both(body(FEEDER, EARTH | {"way": way, "cover": 30})):
        assert rules(row)["conditions-of-use"] == "fail"
        assert "burial-cover" not in rules(row)


# Way, trade size of two conductors of 14 AWG and a ground: 3 x 0.0097 in2. 3/8 in of 0.116 in2
# would hold them. Source: NEC 348.20(A), 356.20(A): 1/2 in but for short whips, from memory, not
# verified.
@pytest.mark.parametrize("way", ["fmc", "lfnc_a", "lfnc_b", "lfmc", "emt"])
def test_no_trade_size_below_one_half_is_taken(way: str) -> None:
    circuit = {"kind": "inverter_output", "amps": 10, "most_breaker_a": 15, "neutral": "none"}
    part = {"length": 30, "place": "indoors", "ambient": 86, "way": way}
    copper, _ = both(body(circuit, part))
    assert copper.phase == "14"
    assert copper.raceways[0].trade_size == "1/2"
