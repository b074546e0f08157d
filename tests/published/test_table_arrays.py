"""Columns as arrays, and the row that reaches a value."""

import math

import numpy as np
import pytest

from service.published.errors import DataFileError
from service.published.table_arrays import FOOT, INCH, OHM_PER_KFT, at, column, first_reaching

LIMITS = np.array([10.0, 20.0, np.nan])


def test_a_column_stands_in_the_order_of_the_keys_and_is_nan_where_nothing_is_printed() -> None:
    found = column("ac_impedance", ("12", "14", "nothing"), "aluminum_pvc")
    assert found[0] == 3.2
    assert np.isnan(found[1:]).all()
    with pytest.raises(ValueError, match="read-only"):
        found[0] = 1.0


def test_a_column_without_a_unit_is_refused() -> None:
    with pytest.raises(DataFileError, match="column size has no unit"):
        column("ampacity", ("copper/14",), "size")


# value | row. Source: derived; the first limit that is not below the value.
@pytest.mark.parametrize(
    "value, row",
    [(-5, 0), (10, 0), (10 * (1 + 1e-10), 0), (10.001, 1), (20, 1), (1e9, 2), (math.nan, 3)],
)
def test_the_first_limit_that_reaches_a_value_has_the_row(value: float, row: int) -> None:
    assert int(first_reaching(LIMITS, value)) == row


def test_rows_keep_the_shape_of_the_values() -> None:
    rows = first_reaching(LIMITS, [[1.0, 15.0], [30.0, math.nan]])
    assert rows.tolist() == [[0, 1], [2, 3]]


def test_a_row_beyond_the_last_has_no_value() -> None:
    assert at(np.array([1.0, 2.0]), [1, 0]).tolist() == [2.0, 1.0]
    assert np.isnan(at(np.array([1.0, 2.0]), [2, 9])).all()


def test_factors_of_units_are_exact() -> None:
    # Source: NIST Special Publication 811, appendix B: 1 in = 0.0254 m, 1 ft = 0.3048 m.
    assert (INCH, FOOT) == (0.0254, 0.3048)
    assert pytest.approx(1 / 304.8, rel=1e-15) == OHM_PER_KFT
