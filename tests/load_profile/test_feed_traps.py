"""The traps of energy usage feeds, each met by an invented feed that has it."""

from __future__ import annotations

from itertools import permutations

import pytest

from tests.load_profile.asking import asked, refusal, wh
from tests.load_profile.feeds import (
    DELIVERED_WH,
    ESPI,
    METER_READING,
    NEW_YEAR,
    block,
    entry,
    feed,
    local_time,
    meter,
    plain_feed,
    reading_type,
    steps,
    usage_point,
)

HOUR = 3600
TIMES = entry(local_time(), "ltp/1")
GAS = {"uom": 169, "commodity": 7}


def kinds(answer_spans: object) -> list[str]:
    assert isinstance(answer_spans, list)
    return [span.kind for span in answer_spans]


def ids(doubts: object) -> list[str]:
    assert isinstance(doubts, list)
    return [doubt.id for doubt in doubts]


# 1: flat feeds, joined by links


def two_meters(link: str) -> str:
    """Return a feed in which two meters' blocks are told apart by links alone."""
    point = ["up/a", "up/b"]
    entries = [TIMES, entry(usage_point(0), point[0]), entry(usage_point(1), point[1])]
    for place, (name, fields) in enumerate((("a", DELIVERED_WH), ("b", GAS))):
        read, blocks = f"mr/{name}", f"ib/{name}"
        related = {"collection": blocks, "single": f"{blocks}/1", "up": ""}[link]
        entries.append(entry(METER_READING, read, point[place], [related, f"rt/{name}"]))
        entries.append(entry(reading_type(**fields), f"rt/{name}"))
    for name, value in (("b", 7000), ("a", 500)):
        up = f"mr/{name}" if link == "up" else f"ib/{name}"
        entries.append(entry(block(steps(48, value=value)), f"ib/{name}/1", up))
    return feed(*entries)


@pytest.mark.parametrize("link", ["collection", "single", "up"])
def test_blocks_belong_to_the_meter_that_their_links_name(link: str) -> None:
    answer = asked(two_meters(link))
    assert answer.statistics.readings == 48
    assert answer.statistics.max_w == 500 + 230


def test_blocks_without_links_belong_to_the_meter_before_them() -> None:
    entries = (
        entry(usage_point(1)),
        entry(METER_READING),
        entry(reading_type(**GAS)),
        entry(block(steps(24, value=9000))),
        entry(usage_point(0)),
        entry(METER_READING),
        entry(reading_type(**DELIVERED_WH)),
        entry(block(steps(24))),
    )
    answer = asked(feed(TIMES, *entries))
    assert answer.statistics.max_w == 730


def test_several_blocks_in_one_entry_are_all_read() -> None:
    one, two = block(steps(24)), block(steps(24, start=NEW_YEAR + 86_400))
    answer = asked(feed(TIMES, meter([one + two])))
    assert (answer.statistics.readings, answer.gap_count) == (48, 0)


# 2: several usage points, gas among them, and the reverse flow


def test_a_gas_meter_in_the_same_document_is_left_out_and_said() -> None:
    answer = asked(
        feed(
            TIMES,
            meter([block(steps(24, value=90_000))], "gas", service=1, type_fields=GAS),
            meter([block(steps(24))], "electric"),
        )
    )
    assert answer.statistics.max_w == 730
    assert ["gas" in doubt.statement for doubt in answer.doubts] == [True]


def test_a_document_of_gas_alone_is_refused_and_says_so() -> None:
    only = feed(TIMES, meter([block(steps(24))], service=1, type_fields=GAS))
    assert "gas" in refusal(only)


def test_of_two_electric_meters_the_larger_is_answered_for_and_the_other_said() -> None:
    answer = asked(
        feed(
            TIMES,
            meter([block(steps(24, value=100))], "barn"),
            meter([block(steps(24, value=5000))], "home"),
        )
    )
    assert answer.statistics.min_w == 5000
    assert ids(answer.doubts) == ["several-meters"]


def reverse_flow(sent: int) -> str:
    """Return a feed with energy delivered and energy received as two series of one meter."""
    entries = [TIMES, entry(usage_point(0), "up/1")]
    for name, direction, value in (("d", 1, 500), ("r", 19, sent)):
        fields = DELIVERED_WH | {"flowDirection": direction}
        entries += [
            entry(METER_READING, f"up/1/mr/{name}", "up/1", [f"ib/{name}", f"rt/{name}"]),
            entry(reading_type(**fields), f"rt/{name}"),
            entry(block([(s, n, value) for s, n, _ in steps(48)]), f"ib/{name}/1", f"ib/{name}"),
        ]
    return feed(*entries)


def test_reverse_flow_gives_both_sums_and_no_profile() -> None:
    answer = asked(reverse_flow(300))
    assert answer.directions.drawn_kwh == pytest.approx(48 * 0.5)
    assert answer.directions.sent_kwh == pytest.approx(48 * 0.3)
    assert answer.directions.net_of_a_source
    assert answer.profile is None
    assert "nets a source" in (answer.no_profile or "")
    assert ids(answer.doubts) == ["net-of-source"]


def test_a_series_of_nothing_sent_back_nets_no_source() -> None:
    assert not asked(reverse_flow(0)).directions.net_of_a_source


# 3: missing time periods


def test_readings_without_a_time_follow_each_other_from_the_start_of_their_block() -> None:
    bare = block([(None, None, 100 + i) for i in range(24)], start=NEW_YEAR)
    answer = asked(feed(TIMES, meter([bare], type_fields=DELIVERED_WH | {"intervalLength": 3600})))
    assert answer.statistics.readings == 24
    assert answer.statistics.last_start == "2025-01-01T23:00:00-08:00"


def test_a_reading_without_a_time_follows_the_one_before_it() -> None:
    mixed = block([(NEW_YEAR + HOUR, HOUR, 1), (None, None, 2), (None, HOUR, 4)], start=NEW_YEAR)
    answer = asked(feed(TIMES, meter([mixed], type_fields=DELIVERED_WH | {"intervalLength": 3600})))
    assert answer.statistics.first_start == "2025-01-01T01:00:00-08:00"
    assert (answer.gap_count, wh(answer)) == (0, 7)


def test_readings_whose_time_nothing_tells_are_counted_as_unread() -> None:
    good, bare = block(steps(24)), block([(None, HOUR, 5)] * 3)
    answer = asked(feed(TIMES, meter([good, bare])))
    assert (answer.statistics.readings, answer.unread_count) == (24, 3)
    assert answer.unread[0].place == "reading 25"


# 4: the multiplier and all else that may be absent


@pytest.mark.parametrize("power, factor", [(None, 1), (0, 1), (3, 1000), (-1, 0.1)])
def test_an_absent_multiplier_is_ten_to_the_power_of_nothing(
    power: int | None, factor: float
) -> None:
    fields = {} if power is None else {"powerOfTenMultiplier": power}
    assert wh(asked(plain_feed([(NEW_YEAR, HOUR, 40)], **fields))) == 40 * factor


def test_a_feed_that_states_nothing_but_readings_is_delivered_watt_hours() -> None:
    answer = asked(feed(entry(block(steps(24)))))
    assert answer.statistics.readings == 24
    assert [a.pointer for a in answer.assumptions] == ["/utc_offset_hours"]


# 5: epochs are UTC; the comments' hours are no data; a standard day always has 24 hours


@pytest.mark.parametrize("offset, first", [(-8, "00:00:00-08:00"), (-5, "03:00:00-05:00")])
def test_times_are_made_local_by_the_offset_of_the_feed(offset: int, first: str) -> None:
    answer = asked(plain_feed(steps(24), offset=offset * HOUR))
    assert answer.statistics.first_start == f"2025-01-01T{first}"


def test_hours_in_comments_are_no_data() -> None:
    commented = plain_feed(steps(24)).replace(
        "<timePeriod>", "<timePeriod><!-- start date: 6/1/1999 8:00:00 AM -->"
    )
    assert asked(commented) == asked(plain_feed(steps(24)))


def test_summer_and_both_days_of_the_switch_stay_in_standard_time() -> None:
    # A lamp burns 19:00 to 20:00 Pacific Standard Time every day of 2025.
    lamp = [(NEW_YEAR + i * HOUR, HOUR, 900 if i % 24 == 19 else 100) for i in range(8760)]
    profile = asked(plain_feed(lamp)).profile
    assert profile is not None
    assert [i for i, w in enumerate(profile.watts) if w == 900] == list(range(19, 8760, 24))


def test_the_request_states_the_offset_that_the_feed_does_not() -> None:
    bare = feed(meter([block(steps(24))]))
    assert asked(bare).assumptions[0].value == -8.0
    stated = asked(bare, utc_offset_hours=-5.0)
    assert stated.assumptions == []
    assert stated.statistics.first_start == "2025-01-01T03:00:00-05:00"


# 6: unordered, overlapping and reissued blocks


def day(number: int, value: int = 500) -> str:
    return block(steps(24, start=NEW_YEAR + number * 86_400, value=value))


@pytest.mark.parametrize("order", list(permutations(range(3))))
def test_the_order_of_blocks_does_not_matter(order: tuple[int, ...]) -> None:
    mixed = asked(feed(TIMES, meter([day(n) for n in order])))
    assert mixed == asked(feed(TIMES, meter([day(0), day(1), day(2)])))


@pytest.mark.parametrize("order", [(0, 1), (1, 0)])
def test_the_block_issued_last_stands_wherever_it_is(order: tuple[int, int]) -> None:
    issued = [("2025-01-02T00:00:00Z", day(0, 500)), ("2025-01-05T00:00:00Z", day(0, 2000))]
    chosen = [issued[i] for i in order]
    answer = asked(feed(TIMES, meter([b for _, b in chosen], updated=[t for t, _ in chosen])))
    assert answer.statistics.min_w == 2000
    assert kinds(answer.repaired) == ["reissued"]
    assert answer.repaired[0].readings == 24


def test_a_reading_that_stands_twice_counts_once() -> None:
    answer = asked(feed(TIMES, meter([day(0), day(0)])))
    assert kinds(answer.repaired) == ["duplicate"]
    assert wh(answer) == wh(asked(feed(TIMES, meter([day(0)]))))


def test_a_corrected_hour_replaces_its_four_quarters() -> None:
    quarters = block([(NEW_YEAR + i * 900, 900, 100) for i in range(8)])
    hour = block([(NEW_YEAR, HOUR, 999)])
    times = ["2025-01-02T00:00:00Z", "2025-01-03T00:00:00Z"]
    answer = asked(feed(TIMES, meter([quarters, hour], updated=times)))
    assert wh(answer) == 999 + 400
    assert answer.repaired[0].readings == 4


# 7: gaps, by the readings and not by what the block says


def test_a_gap_is_seen_although_the_block_says_that_it_covers_it() -> None:
    kept = [one for i, one in enumerate(steps(24)) if not 8 <= i < 16]
    answer = asked(feed(TIMES, meter([block(kept, start=NEW_YEAR, duration=86_400)])))
    assert [(gap.start, gap.hours) for gap in answer.gaps] == [("2025-01-01T08:00:00-08:00", 8.0)]
    assert answer.gap_hours == 8.0


# 8: demand and cumulative registers


@pytest.mark.parametrize("length", [900, 1800, 3600])
def test_readings_in_watts_are_energy_over_their_time(length: int) -> None:
    answer = asked(plain_feed([(NEW_YEAR + i * length, length, 1200) for i in range(8)], uom=38))
    assert wh(answer) == pytest.approx(1200 * 8 * length / 3600)
    assert answer.statistics.mean_w == 1200


def test_energy_is_preferred_to_a_demand_of_the_same_meter() -> None:
    entries = [TIMES, entry(usage_point(0), "up/1")]
    for name, unit, value in (("w", 38, 9000), ("wh", 72, 500)):
        fields = DELIVERED_WH | {"uom": unit}
        entries += [
            entry(METER_READING, f"up/1/mr/{name}", "up/1", [f"ib/{name}", f"rt/{name}"]),
            entry(reading_type(**fields), f"rt/{name}"),
            entry(block(steps(24, value=value)), f"ib/{name}/1", f"ib/{name}"),
        ]
    answer = asked(feed(*entries))
    assert answer.statistics.max_w == 730
    assert ids(answer.doubts) == ["left-out-readings"]


def test_the_states_of_a_register_are_subtracted() -> None:
    # 1000, 1500, 1500 + 700: two hours of 500 Wh and 700 Wh between three states.
    states = [(NEW_YEAR, HOUR, 1000), (NEW_YEAR + HOUR, HOUR, 1500), (NEW_YEAR + 7200, HOUR, 2200)]
    answer = asked(plain_feed(states, accumulationBehaviour=3))
    assert wh(answer) == 1200
    assert answer.statistics.first_start == "2025-01-01T01:00:00-08:00"
    assert ids(answer.doubts) == ["register-differenced"]


def test_a_register_that_goes_back_tells_nothing_of_that_hour() -> None:
    values = (1000, 1500, 20, 420)
    states = [(NEW_YEAR + i * HOUR, HOUR, value) for i, value in enumerate(values)]
    answer = asked(plain_feed(states, accumulationBehaviour=3))
    assert (wh(answer), answer.gap_hours) == (900, 1.0)


# 9: steps of 900, 1800 and 3600 s; a daily feed has no shape


@pytest.mark.parametrize("length", [900, 1800, 3600])
def test_every_usual_step_gives_the_same_hours(length: int) -> None:
    made = [
        (NEW_YEAR + i * length, length, 1000 * length / 3600)
        for i in range(365 * 24 * 3600 // length)
    ]
    answer = asked(plain_feed([(s, n, f"{v:g}") for s, n, v in made]))
    assert answer.statistics.interval_minutes == length / 60
    assert answer.profile is not None
    assert answer.profile.watts == [1000.0] * 8760


def test_a_daily_feed_gives_energy_and_is_refused_a_profile() -> None:
    answer = asked(plain_feed([(NEW_YEAR + i * 86_400, 86_400, 20_000) for i in range(365)]))
    assert answer.statistics.energy_kwh == pytest.approx(7300)
    assert (answer.profile, answer.demand) == (None, None)
    assert ids(answer.doubts) == ["no-day-shape"]
    assert "hourly" in (answer.no_profile or "")


def test_a_few_daily_readings_among_hourly_ones_are_left_out_and_said() -> None:
    days = [(NEW_YEAR + (3 + i) * 86_400, 86_400, 20_000) for i in range(2)]
    answer = asked(plain_feed([*steps(72), *days]))
    assert answer.statistics.readings == 72
    assert ids(answer.doubts) == ["left-out-readings"]


# 10: names of elements by namespace, whatever the prefix; what is personal is never read


def test_a_prefix_makes_no_difference() -> None:
    plain = plain_feed(steps(24))
    prefixed = plain.replace(f' xmlns="{ESPI}"', "").replace(
        "<feed ", f'<a:feed xmlns:e="{ESPI}" xmlns:a="http://www.w3.org/2005/Atom" ', 1
    )
    for name in ("UsagePoint", "ServiceCategory", "kind", "MeterReading", "ReadingType", "uom"):
        prefixed = prefixed.replace(f"<{name}", f"<e:{name}").replace(f"</{name}", f"</e:{name}")
    for name in (
        *("flowDirection", "accumulationBehaviour", "LocalTimeParameters", "tzOffset"),
        *("IntervalBlock", "IntervalReading", "timePeriod", "start", "duration", "value"),
    ):
        prefixed = prefixed.replace(f"<{name}>", f"<e:{name}>").replace(
            f"</{name}>", f"</e:{name}>"
        )
    prefixed = prefixed.replace("</feed>", "</a:feed>")
    assert asked(prefixed) == asked(plain)


def test_the_same_names_in_another_namespace_are_no_readings() -> None:
    other = plain_feed(steps(24)).replace(ESPI, "http://www.w3.org/other")
    assert "ESPI" in refusal(other)


def test_summaries_with_values_and_addresses_are_passed_by() -> None:
    summary = (
        f'<ElectricPowerUsageSummary xmlns="{ESPI}"><billingPeriod><start>5</start></billingPeriod>'
        "<overallConsumptionLastPeriod><value>99999</value></overallConsumptionLastPeriod>"
        "</ElectricPowerUsageSummary>"
    )
    customer = f'<Customer xmlns="{ESPI}"><name>Invented Person</name></Customer>'
    plain = plain_feed(steps(24))
    with_more = plain.replace("</feed>", entry(summary) + entry(customer) + "</feed>")
    assert asked(with_more) == asked(plain)
