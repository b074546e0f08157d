"""The appliance catalogue is whole, and its typical energies are the reviewed ones."""

import pytest

from service.published.appliances import (
    APPLIANCE_IDS,
    Appliance,
    Season,
    Tier,
    catalogue,
    from_table,
    parse_windows,
)
from service.published.errors import DataFileError
from service.published.loader import load
from service.published.parse import parse
from service.published.source import Standing


def energy_kwh(appliance: Appliance) -> float:
    # US DOE Energy Saver formula: watts x hours / 1000, with the share of the hours it is on.
    hours_on = appliance.duty_typ * appliance.hours_per_day
    return appliance.run_w_typ * hours_on / 1000


# appliance | kWh a day, typical. Source: review of the loads, own arithmetic from the watts, duty
# and hours of each row before this catalogue was typed; common practice.
TYPICAL_ENERGY = (
    ("refrigerator", 1.188),
    ("freezer", 0.95),
    ("phones", 0.12),
    ("led_lights", 0.3),
    ("medical_cpap", 0.36),
    ("medical_o2", 8.4),
    ("gas_furnace_fan", 4.2),
    ("ceiling_fan", 0.4),
    ("window_fan", 0.4),
    ("tv", 0.5),
    ("computer", 0.6),
    ("microwave", 0.25),
    ("coffee", 0.25),
    ("dishwasher", 0.9),
    ("clothes_washer", 0.225),
    ("dryer_electric", 2.16),
    ("water_heater_er", 10.8),
    ("water_heater_hp", 2.16),
    ("well_pump", 1.44),
    ("sump_pump_third", 0.96),
    ("pool_pump_vs", 3.2),
    ("range_electric", 1.25),
    ("induction_plate", 0.375),
    ("ev_l2", 14.4),
    ("portable_heater", 5.4),
)


@pytest.mark.parametrize("appliance_id, kwh", TYPICAL_ENERGY)
def test_typical_energy_is_the_reviewed_one(appliance_id: str, kwh: float) -> None:
    assert energy_kwh(catalogue()[appliance_id]) == pytest.approx(kwh, rel=0.01)


def test_modem_and_router_share_the_reviewed_energy_of_both() -> None:
    both = energy_kwh(catalogue()["modem"]) + energy_kwh(catalogue()["router"])
    assert both == pytest.approx(0.36, rel=1e-9)


# appliance | locked-rotor amperes at 230 V | power factor at start. Source: NEC Table 430.251(A)
# for pump motors; planning values for compressors; power factors: common practice.
STARTS = (
    ("well_pump", 29.4, 0.60),
    ("well_pump_1hp", 48, 0.60),
    ("pool_pump_single", 60, 0.55),
    ("ac_central_2t", 62, 0.66),
    ("ac_central_3t", 96, 0.66),
    ("ac_central_second", 96, 0.66),
    ("ac_central_4t", 130, 0.66),
    ("ac_central_5t", 170, 0.66),
)


@pytest.mark.parametrize("appliance_id, amperes, power_factor", STARTS)
def test_derived_starts_follow_from_locked_rotor_current(
    appliance_id: str, amperes: float, power_factor: float
) -> None:
    start_w = catalogue()[appliance_id].total_start_w
    assert start_w == pytest.approx(amperes * 230 * power_factor, abs=0.51)


@pytest.mark.parametrize("tons", [2, 4, 5])
def test_air_conditioners_scale_by_tons(tons: int) -> None:
    three, other = catalogue()["ac_central_3t"], catalogue()[f"ac_central_{tons}t"]
    for low, high in (
        (three.run_w_low, other.run_w_low),
        (three.run_w_typ, other.run_w_typ),
        (three.run_w_high, other.run_w_high),
    ):
        assert high == pytest.approx(low * tons / 3, abs=0.5)


def test_three_tons_draw_what_their_efficiency_says() -> None:
    assert catalogue()["ac_central_3t"].run_w_typ == pytest.approx(36_000 / 12.4, rel=0.002)


def test_the_second_air_conditioner_equals_the_first() -> None:
    first, second = (
        load("appliances").row("ac_central_3t"),
        load("appliances").row("ac_central_second"),
    )
    assert {k: v for k, v in first.items() if k not in ("id", "name")} == {
        k: v for k, v in second.items() if k not in ("id", "name")
    }


@pytest.mark.parametrize("appliance", catalogue().values(), ids=APPLIANCE_IDS)
def test_every_row_is_consistent(appliance: Appliance) -> None:
    row = appliance
    assert row.name
    assert row.volts in (120, 240)
    assert 0 < row.run_w_low <= row.run_w_typ <= row.run_w_high
    assert 0 < row.duty_low <= row.duty_typ <= row.duty_high <= 1
    assert 0 < row.hours_per_day <= sum(end - start for start, end in row.windows)
    assert row.always_on == (row.hours_per_day == 24)
    assert row.total_start_w == 0 or row.total_start_w >= row.run_w_typ
    assert row.has_motor or row.total_start_w == 0
    assert row.season_factor_winter > 0
    # A household circuit of 120 V gives at most 20 A; what draws more is wired to 240 V.
    assert row.volts == 240 or row.run_w_high <= 20 * 120


def test_ids_are_unique_words_in_table_order() -> None:
    assert tuple(catalogue()) == APPLIANCE_IDS
    assert all(name.isidentifier() and name == name.lower() for name in APPLIANCE_IDS)


def test_medical_devices_are_marked_and_critical() -> None:
    marked = {row.id for row in catalogue().values() if row.life_support}
    assert marked == {"medical_cpap", "medical_o2"}
    assert all(catalogue()[name].tier is Tier.CRITICAL for name in marked)


def test_a_well_pump_is_a_240_volt_load_until_told_otherwise() -> None:
    pumps = [row for row in catalogue().values() if row.id.startswith("well_pump")]
    assert len(pumps) == 2
    assert all(row.volts == 240 and row.tier is Tier.CRITICAL for row in pumps)


def test_cooling_is_absent_in_winter_and_heating_in_summer() -> None:
    season = {row.id: row.season for row in catalogue().values()}
    assert {name for name in season if season[name] is Season.SUMMER} == {
        "ceiling_fan",
        "window_fan",
        "ac_central_2t",
        "ac_central_3t",
        "ac_central_second",
        "ac_central_4t",
        "ac_central_5t",
        "ac_mini_split_1t",
        "ac_room_10k",
    }
    assert {name for name in season if season[name] is Season.WINTER} == {
        "gas_furnace_fan",
        "portable_heater",
    }


def test_only_lighting_is_used_longer_in_winter() -> None:
    longer = {r.id: r.season_factor_winter for r in catalogue().values()}
    assert {name: factor for name, factor in longer.items() if factor != 1} == {"led_lights": 1.3}


def test_the_standing_of_a_row_is_its_weakest() -> None:
    assert catalogue()["medical_o2"].standing is Standing.FROM_MEMORY
    assert catalogue()["computer"].standing is Standing.COMMON_PRACTICE
    table = load("appliances")
    assert table.cite("computer", "hours_per_day").standing is Standing.PUBLISHED
    assert table.cite("computer", "duty_low").standing is Standing.COMMON_PRACTICE
    assert table.cite("computer", "tier").title == table.title


# text | windows
WINDOWS = (
    ("00-24", ((0, 24),)),
    ("05-07;17-23", ((5, 7), (17, 23))),
    ("22-06", ((0, 6), (22, 24))),
    ("17-19;07-08", ((7, 8), (17, 19))),
    ("23-00;00-01", None),
    ("22-06;05-07", None),
    ("06-06", None),
    ("24-06", None),
    ("06-25", None),
    ("06", None),
    ("", None),
    ("nan-06", None),
)


@pytest.mark.parametrize("text, windows", WINDOWS)
def test_windows_are_sorted_and_split_at_midnight(
    text: str, windows: tuple[tuple[float, float], ...] | None
) -> None:
    if windows is None:
        with pytest.raises(ValueError):
            parse_windows(text)
    else:
        assert parse_windows(text) == windows


ROW = (
    "# title: t\n# edition: e\n# section: s\n# standing: derived\n"
    + "".join(f"# unit.{column}: 1\n" for column in load("appliances").header.units)
    + "id,name,volts,run_w_low,run_w_typ,run_w_high,total_start_w,duty_low,duty_typ,duty_high,"
    "hours_per_day,window_local,tier,season,season_factor_winter,has_motor,always_on,life_support\n"
    "lamp,Lamp,120,1,2,3,0,1,1,1,5,17-23,normal,all,1,no,no,no\n"
)


# cell | by what | what the refusal says
BAD_CELLS = (
    ("17-23", "evening", "row lamp"),
    ("normal", "luxury", "'luxury' is not a valid Tier"),
    ("all", "spring", "'spring' is not a valid Season"),
    ("no,no,no", "no,0,no", "'0' is neither yes nor no"),
)


@pytest.mark.parametrize("old, new, problem", BAD_CELLS)
def test_a_cell_that_is_no_word_of_the_catalogue_is_refused(
    old: str, new: str, problem: str
) -> None:
    head, lamp = ROW.split("lamp", 1)
    assert from_table(parse("bad", ROW))["lamp"].run_w_high == 3
    with pytest.raises(DataFileError, match=r"bad\.csv: row lamp") as refused:
        from_table(parse("bad", head + "lamp" + lamp.replace(old, new)))
    assert problem in str(refused.value)
