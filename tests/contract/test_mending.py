"""Data made inside the contract are mended where only a rule between fields is broken."""

import pytest

from tests.contract.mending import mend
from tests.contract.subject import component, dummy_contract
from tests.load_profile.asking import asked

CASES = [
    # field, made, mended
    ("run", "30 m", "30 m"),
    ("run", "20 mi", "10000 ft"),
    ("run", "-3 ft", "0 ft"),
    ("run", 5.0, 5.0),
    (
        "run",
        {"as": "range", "low": 9.0, "high": "2 ft", "likely": 5.0},
        {"as": "range", "low": "2 ft", "high": 9.0, "likely": 5.0},
    ),
    (
        "run",
        {"as": "range", "low": 9.0, "high": 2.0, "likely": None},
        {"as": "range", "low": 2.0, "high": 9.0, "likely": None},
    ),
    (
        "run",
        {"as": "one_of", "values": ["20 mi", 3.0]},
        {"as": "one_of", "values": ["10000 ft", 3.0]},
    ),
    ("months", ["1 MWh", 700.0], ["1 MWh", 700.0]),
    ("months", ["99 MWh"], ["20000 kWh"]),
    ("shapes", [{"kind": "round", "across": "9 ft"}], [{"kind": "round", "across": "100 in"}]),
    ("grid", [["20 mi"]], [["10000 ft"]]),
    ("name", "9 ft", "9 ft"),
    ("colour", "red", "red"),
    ("wet", None, None),
]


@pytest.mark.parametrize("field, made, mended", CASES)
def test_a_value_is_mended_as_little_as_the_rules_need(
    field: str, made: object, mended: object
) -> None:
    schema = component(dummy_contract(), "DummyRequest")
    assert mend(dummy_contract(), schema, {field: made}) == {field: mended}


_WATTS = {"x-unit": "W", "minimum": 0, "maximum": 50_000}
LOADS = {
    "properties": {
        "watts_low": _WATTS,
        "watts": _WATTS,
        "watts_high": _WATTS,
        "hours_per_day": {"x-unit": "h", "minimum": 0, "maximum": 24, "default": 24.0},
        "windows": {},
    }
}
ROWS = [
    # made, mended
    ({"watts": 5.0, "watts_low": 9.0}, {"watts": 9.0, "watts_low": 5.0}),
    (
        {"watts": 9.0, "watts_low": 1.0, "watts_high": "5 W"},
        {"watts": "5 W", "watts_low": 1.0, "watts_high": 9.0},
    ),
    (
        {"hours_per_day": "9 h", "windows": [{"start_hour": 22, "end_hour": 2}]},
        {"hours_per_day": 4, "windows": [{"start_hour": 22, "end_hour": 2}]},
    ),
    (
        {"windows": [{"start_hour": 1, "end_hour": 2}, {"start_hour": 4, "end_hour": 7}]},
        {
            "hours_per_day": 3,
            "windows": [{"start_hour": 1, "end_hour": 2}, {"start_hour": 4, "end_hour": 7}],
        },
    ),
    ({"hours_per_day": 9.0, "windows": None}, {"hours_per_day": 9.0, "windows": None}),
]


@pytest.mark.parametrize("made, mended", ROWS)
def test_a_load_is_mended_as_little_as_the_rules_need(
    made: dict[str, object], mended: dict[str, object]
) -> None:
    assert mend({}, LOADS, made) == mended


def test_a_curve_rises_in_temperature_and_gives_no_power_back() -> None:
    schema: dict[str, object] = {"properties": {"derating": {}}}
    curve = [{"temperature": 50, "percent": part} for part in ("80 %", 90, 20, 100)]
    mended = mend({}, schema, {"derating": curve})["derating"]
    assert [point["temperature"] for point in mended] == [90.0, 92.0, 94.0, 96.0]
    assert [point["percent"] for point in mended] == ["80 %", 90, 0.0, 0.0]


_PERCENT = {"x-unit": "%", "minimum": 0, "maximum": 100}
_ENDS = ("power_percent_worst", "power_percent_low", "power_percent_high")


@pytest.mark.parametrize(
    "made, mended",
    [((90.0, 40.0, "10 %"), ("10 %", 40.0, 90.0)), ((None, 40.0, 10.0), (None, 10.0, 40.0))],
)
def test_what_heat_leaves_is_put_in_order(
    made: tuple[object, ...], mended: tuple[object, ...]
) -> None:
    schema = {"properties": dict.fromkeys(_ENDS, _PERCENT)}
    heat = dict(zip(_ENDS, made, strict=True))
    assert mend({}, schema, heat) == dict(zip(_ENDS, mended, strict=True))


def test_heat_speaks_of_an_inverter_alone() -> None:
    names = ("inverter", "generator", "motors", "heat_derating")
    schema: dict[str, object] = {"properties": {name: {} for name in names}}
    made = {"generator": {"rated_kw": 9.0}, "motors": [], "heat_derating": {}}
    assert mend({}, schema, made)["heat_derating"] is None


def test_an_id_that_stands_twice_in_a_list_is_given_its_place() -> None:
    schema = {"type": "array", "items": {"properties": {"id": {"type": "string"}}}}
    made = [{"id": "a"}, {"id": "b"}, {"id": "a"}]
    assert mend({}, schema, made) == [{"id": "a"}, {"id": "b"}, {"id": "2-a"}]


@pytest.mark.parametrize("made", ["", "a", "b", "\ud800", "x" * 1000])
def test_any_text_in_the_place_of_a_document_becomes_one_that_is_read(made: str) -> None:
    schema = {"properties": {"document": {"type": "string"}}}
    mended = mend({}, schema, {"document": made})["document"]
    assert asked(mended).statistics.readings >= 2
