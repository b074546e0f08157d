"""Every rule of where a unit may hang is found in the right edition, with its number in SI."""

from __future__ import annotations

import pytest

from service.checks.clearance.rule_numbers import LOCATIONS
from service.codes.siting_editions import edition_chain
from service.codes.siting_rules import (
    aggregate_rule,
    find_siting_rule,
    siting_energy,
    siting_length,
    siting_rule,
    siting_rule_ids,
)
from service.published.loader import load
from service.published.source import Standing
from tests.architecture.source_tree import python_files

TABLE = load("siting_rules")
CA_2022 = ("ca-2022", "irc-2021", "default")
CA_2025 = ("ca-2025", "irc-2024", "default")
IRC_2021 = ("irc-2021", "default")
UNKNOWN = ("irc-2024", "default")


@pytest.mark.parametrize("key", TABLE.rows)
def test_every_row_is_one_rule_of_one_edition_with_at_most_one_number(key: str) -> None:
    row = TABLE.row(key)
    rule = siting_rule(row["rule"], (row["edition"],))
    assert key == rule.id == f"{rule.rule}.{rule.edition}"
    assert rule.edition in {"irc-2021", "irc-2024", "ca-2022", "ca-2025", "default"}
    numbers = [n for n in (rule.metres, rule.joules) if n is not None]
    assert len(numbers) <= 1
    assert all(n > 0 for n in numbers)
    assert all((rule.printed, rule.sections, rule.title, rule.source))
    assert rule.statement.endswith(".")
    assert rule.cite().standing == rule.standing


# rule | editions | inches | standing | source of the number.
LENGTHS = (
    ("opening-distance", CA_2022, 36, "secondary"),  # CRC 2022 R328.4 item 3
    ("opening-distance", CA_2025, 36, "derived"),  # base IRC 2024 R330.4
    ("opening-distance", IRC_2021, 36, "secondary"),  # IRC 2021 R328.4
    ("unit-spacing", CA_2022, 36, "secondary"),  # IRC 2021 R328.3.1
    ("vehicle-path-height", CA_2022, 48, "secondary"),  # CRC 2022 R328.8.1
    ("vehicle-path-height", UNKNOWN, 48, "from_memory"),
    ("vehicle-back-reach", CA_2022, 36, "from_memory"),
    ("vehicle-side-back", CA_2022, 24, "from_memory"),
    ("vehicle-side-reach", CA_2022, 36, "from_memory"),
    ("vehicle-exempt-opening", CA_2022, 90, "from_memory"),  # 7 ft 6 in
    ("vehicle-exempt-bottom", CA_2022, 36, "from_memory"),
    ("bollard-spacing", CA_2025, 60, "from_memory"),
    ("bollard-clearance", CA_2025, 6, "from_memory"),
    ("wheel-barrier-distance", CA_2025, 54, "from_memory"),
    ("wheel-barrier-length", CA_2025, 70, "from_memory"),
    ("working-space-depth-150", CA_2025, 36, "secondary"),  # NEC Table 110.26(A)(1)
    ("working-space-depth-600-condition-1", CA_2025, 36, "secondary"),
    ("working-space-depth-600-condition-2", CA_2025, 42, "secondary"),
    ("working-space-depth-600-condition-3", CA_2025, 48, "secondary"),
    ("working-space-width", UNKNOWN, 30, "secondary"),
    ("handle-height", UNKNOWN, 79, "from_memory"),  # 6 ft 7 in
    ("escape-court-width", UNKNOWN, 36, "from_memory"),
    ("walkway", UNKNOWN, 36, "common_practice"),
    ("gas-vent-distance", UNKNOWN, 36, "secondary"),
    ("pool-distance", UNKNOWN, 60, "secondary"),  # 5 ft
    ("flood-freeboard", UNKNOWN, 12, "from_memory"),
    ("placement-tolerance", UNKNOWN, 1 / 32, "derived"),
)


@pytest.mark.parametrize("rule, editions, inches, standing", LENGTHS)
def test_a_length_is_the_printed_inches_in_metres(
    rule: str, editions: tuple[str, ...], inches: float, standing: str
) -> None:
    assert siting_length(rule, editions) == pytest.approx(inches * 0.0254, abs=1e-12)
    assert siting_rule(rule, editions).standing == Standing(standing)


# rule | kWh. Source: IRC 2021 R328.5, IRC 2024 R330.5.
ENERGIES = (
    ("unit-energy", 20),
    (aggregate_rule("utility_room"), 40),
    (aggregate_rule("attached_garage"), 80),
    (aggregate_rule("detached_garage"), 80),
    (aggregate_rule("exterior_wall"), 80),
    (aggregate_rule("outdoors"), 80),
    ("listing-from-energy", 1),
)


@pytest.mark.parametrize("editions", [CA_2022, CA_2025, IRC_2021, UNKNOWN])
@pytest.mark.parametrize("rule, kwh", ENERGIES)
def test_an_energy_is_the_printed_kilowatt_hours_in_joules(
    rule: str, kwh: float, editions: tuple[str, ...]
) -> None:
    assert siting_energy(rule, editions) == kwh * 3.6e6


# edition of the place | chain.
CHAINS = (
    ("ca-2022", CA_2022),
    ("ca-2025", CA_2025),
    ("model-2021", ("model-2021", "irc-2021", "default")),
    ("model-2024", ("model-2024", "irc-2024", "default")),
    (None, UNKNOWN),
    ("xx-1999", UNKNOWN),
)


@pytest.mark.parametrize("edition, chain", CHAINS)
def test_a_place_s_own_edition_is_asked_first_and_the_default_last(
    edition: str | None, chain: tuple[str, ...]
) -> None:
    assert edition_chain(edition) == chain


# rule | editions | row that holds.
FOUND = (
    ("opening-distance", CA_2022, "opening-distance.ca-2022"),
    ("unit-spacing", CA_2022, "unit-spacing.irc-2021"),
    ("unit-spacing", CA_2025, "unit-spacing.ca-2025"),
    ("opening-distance", UNKNOWN, "opening-distance.irc-2024"),
    ("vehicle-back-reach", CA_2022, "vehicle-back-reach.ca-2022"),
    ("walkway", CA_2022, "walkway.default"),
)


@pytest.mark.parametrize("rule, editions, row", FOUND)
def test_the_first_edition_that_has_the_rule_holds(
    rule: str, editions: tuple[str, ...], row: str
) -> None:
    assert siting_rule(rule, editions).id == row


@pytest.mark.parametrize("rule", ["vehicle-back-reach", "listed-opening-distance"])
def test_the_model_code_of_2021_has_neither_vehicle_geometry_nor_the_listed_distance(
    rule: str,
) -> None:
    assert find_siting_rule(rule, IRC_2021) is None
    assert find_siting_rule(rule, UNKNOWN) is not None
    with pytest.raises(KeyError, match="irc-2021"):
        siting_rule(rule, IRC_2021)


def test_a_rule_that_no_edition_has_is_an_error_and_not_a_silence() -> None:
    with pytest.raises(KeyError, match="no rule 'opening-distanse'"):
        find_siting_rule("opening-distanse", CA_2022)


def test_a_number_of_another_kind_is_refused() -> None:
    with pytest.raises(KeyError, match="no length"):
        siting_length("unit-energy", CA_2022)
    with pytest.raises(KeyError, match="no energy"):
        siting_energy("opening-distance", CA_2022)


def test_the_inferred_section_numbers_of_2025_say_that_they_are() -> None:
    rows = [row for row in TABLE.rows.values() if row["edition"] == "ca-2025"]
    assert len(rows) > 20
    assert all("inferred" in row["sections"] for row in rows)


def test_every_rule_is_listed_once() -> None:
    assert len(siting_rule_ids()) == len({row["rule"] for row in TABLE.rows.values()})


def test_every_rule_is_read_by_the_service() -> None:
    """A number that nothing reads is no rule: it would be believed to hold."""
    code = "\n".join(path.read_text("utf-8") for path in python_files())
    location = {aggregate_rule(one) for one in LOCATIONS}
    for rule in siting_rule_ids():
        told = f'"{rule}"' in code or rule in location
        stem, _, condition = rule.rpartition("-condition-")
        assert told or (condition in {"1", "2", "3"} and f'"{stem}"' in code), rule
