"""Columns of unmarked lugs, sun on cables and what counts beside 208 V, by whole answers."""

import pytest

from tests.checks.conductor_sizing.requests import Body, body, both

NEAR: Body = {"length": 10, "place": "indoors", "ambient": 86, "way": "pvc40"}
ROOF: Body = {"length": 10, "place": "rooftop", "ambient": 110, "roof_height": 0}
SMALL_LUG: Body = {"smallest": "14", "largest": "1"}
LARGE_LUG: Body = {"smallest": "14", "largest": "1/0"}
INVERTER: Body = {"kind": "inverter_output", "amps": 88, "most_breaker_a": 110}
SOLAR: Body = {"kind": "pv_output", "amps": 32, "most_breaker_a": 40, "neutral": "none"}

# Lug at both ends, copper. Source: NEC 2023 (NFPA 70) 110.14(C)(1)(a), secondary: up to 100 A, or
# marked for 14 to 1 AWG, 60 degC. 110 A: 1 AWG has 110 A at 60 degC, 2 AWG 115 A at 75.
LUGS = [
    (SMALL_LUG, "1"),
    (LARGE_LUG, "2"),
    (SMALL_LUG | {"marked": 75}, "2"),
]


@pytest.mark.parametrize("lug, copper", LUGS)
def test_a_lug_for_14_to_1_awg_takes_60_degrees_at_any_amps(lug: Body, copper: str) -> None:
    assert both(body(INVERTER | {"near": lug, "far": lug}, NEAR))[0].phase == copper


# Way, insulation, copper. Source: NEC 310.15(B)(2), the exemption of XHHW-2, secondary for 2017:
# it is of the conductors; a cable for wet places is read at 75 degC, where 76.7 degC are too hot.
# 32 A behind 40 A in a raceway: 8 AWG has 55 x 0.87 = 47.9 A at 43.3 degC without the roof's
# 33.3 degC, 6 AWG 75 x 0.41 = 31 A and 4 AWG 95 x 0.41 = 39 A with them.
ROOFS = [
    ("pvc40", "thwn_2", "4"),
    ("pvc40", "xhhw_2", "8"),
    ("mc_wet", "thwn_2", None),
    ("mc_wet", "xhhw_2", None),
]


@pytest.mark.parametrize("way, insulation, copper", ROOFS)
def test_the_exemption_on_a_roof_is_of_conductors_in_raceways(
    way: str, insulation: str, copper: str | None
) -> None:
    made = body(SOLAR, ROOF | {"way": way}, insulation=insulation)
    assert both(made)[0].phase == copper


# Volts, neutral, copper. Source: NEC 2023 (NFPA 70) 310.15(E), secondary: a neutral with two
# phases of a wye counts, that of a 120/240 V circuit does not. With one more conductor 4 count:
# 75 x 0.91 x 0.8 = 54.6 A of 6 AWG are below the breaker of 60 A of storage.
WYES = [(240, "unbalance", "6"), (208, "unbalance", "4"), (208, "sensing", "6"), (208, "none", "6")]


@pytest.mark.parametrize("volts, neutral, copper", WYES)
def test_a_neutral_beside_208_v_counts(volts: float, neutral: str, copper: str) -> None:
    part = NEAR | {"ambient": 104, "other_conductors": 1}
    assert both(body({"volts": volts, "neutral": neutral}, part))[0].phase == copper
