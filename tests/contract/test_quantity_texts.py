"""The contract's pattern of a quantity's text says exactly what the service takes."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.http.schema_text import MAX_LENGTH, pattern, units_taken
from service.quantities.units import UNITS, UnitTextError, from_text

ONE_UNIT_A_DIMENSION = {unit.dimension: name for name, unit in UNITS.items()}
CASES = [
    # text, unit of the field, taken
    ("30 m", "ft", True),
    ("30m", "ft", True),
    (" 30 m ", "ft", True),
    ("+30.5e1 m", "ft", True),
    (".5 ft", "ft", True),
    ("5. ft", "ft", True),
    ("-40 degF", "degF", True),
    ("3/4 in", "ft", True),
    ("1 1/2 in", "ft", True),
    ("1-1/2 in", "ft", True),
    ("3/4 m", "ft", False),
    ("3/0 in", "ft", False),
    ("3/4 kWh", "kWh", False),
    ("12 kWh", "kWh", True),
    ("12 Kwh", "kWh", False),
    ("12", "kWh", False),
    ("kWh", "kWh", False),
    ("1e999 kWh", "kWh", False),
    ("12 kWh\n", "kWh", False),
    ("12\tkWh", "kWh", False),
    ("12\u00a0kWh", "kWh", False),
    ("\u0661\u0662 kWh", "kWh", False),
    ("1,000 kWh", "kWh", False),
    ("20 %", "%", True),
    ("20 percent", "%", True),
    ("0.2 1", "%", False),
]


def taken(text: str, unit: str) -> bool:
    try:
        from_text(text, unit)
    except UnitTextError:
        return False
    return True


def fits(text: str, unit: str) -> bool:
    # ECMA-262 reads `$` as the very end; Python would take a line break before it.
    return re.fullmatch(pattern(unit)[1:-1], text) is not None and len(text) <= MAX_LENGTH


@pytest.mark.parametrize("text, unit, expected", CASES)
def test_a_text_is_taken_exactly_when_it_fits_the_pattern(
    text: str, unit: str, expected: bool
) -> None:
    assert fits(text, unit) is expected
    assert taken(text, unit) is expected


@pytest.mark.parametrize("unit", ONE_UNIT_A_DIMENSION.values())
@given(data=st.data())
def test_every_text_that_fits_the_pattern_is_taken(unit: str, data: st.DataObject) -> None:
    if units_taken(unit):
        text = data.draw(st.from_regex(pattern(unit)[1:-1], fullmatch=True))
        assert len(text) <= MAX_LENGTH
        assert taken(text, unit)


_CHARACTERS = st.sampled_from("0123456789.+-eE /% \t\n\u00a0\u0661kWhftminpercentdegF")


@given(text=st.text(_CHARACTERS, max_size=14), unit=st.sampled_from(["ft", "kWh", "%", "degF"]))
def test_no_other_text_is_taken(text: str, unit: str) -> None:
    assert taken(text, unit) is fits(text, unit)


def test_the_pattern_is_anchored_and_written_for_every_reader_of_json_schema() -> None:
    for unit in UNITS:
        assert pattern(unit).startswith("^")
        assert pattern(unit).endswith("$")
        assert "\\s" not in pattern(unit), "readers differ in what they call a space"
        assert "\\d" not in pattern(unit), "readers differ in what they call a digit"
