"""Requests that fit the contract and cannot be: which field is refused, and when none is."""

import json
from typing import Any

import pytest

from service.checks.outage_runtime import CHECK
from service.http.answering import Answering
from service.http.problem import Problem
from tests.checks.outage_runtime.asking import Body, appliance, known, load, taken, window


def fridge(**more: Any) -> Body:
    return appliance("refrigerator", **more)


REFUSED: list[tuple[str, list[Body], list[str]]] = [
    # what, rows, pointers of the refusal, all at once
    (
        "more hours than its window",
        [load(1, windows=window(17, 23), hours_per_day=6.5)],
        ["/use/rows/0/hours_per_day"],
    ),
    ("all day in a window", [load(1, windows=window(17, 23))], ["/use/rows/0/hours_per_day"]),
    (
        "windows that overlap count once",
        [load(1, windows=window(17, 20) + window(19, 21), hours_per_day=5)],
        ["/use/rows/0/hours_per_day"],
    ),
    (
        "past midnight",
        [fridge(windows=window(22, 6), hours_per_day=8.25)],
        ["/use/rows/0/hours_per_day"],
    ),
    ("low above typical", [load(10, watts_low=11)], ["/use/rows/0/watts_low"]),
    ("high below typical", [load(10, watts_high=9)], ["/use/rows/0/watts_high"]),
    (
        "every one of them",
        [
            load(10, watts_low=11, watts_high=9),
            fridge(),
            fridge(windows=window(0, 1), hours_per_day=2),
        ],
        ["/use/rows/0/watts_low", "/use/rows/0/watts_high", "/use/rows/2/hours_per_day"],
    ),
]


@pytest.mark.parametrize("what, rows, pointers", REFUSED, ids=[case[0] for case in REFUSED])
def test_refused(what: str, rows: list[Body], pointers: list[str]) -> None:
    with pytest.raises(Problem) as caught:
        taken(known(rows))
    assert [error.pointer for error in caught.value.errors] == pointers, what
    assert all(len(error.detail) > 20 for error in caught.value.errors), "the remedy is said"


TAKEN: list[tuple[str, Body]] = [
    ("hours that just fit", load(1, windows=window(17, 23), hours_per_day=6)),
    ("just past midnight", load(1, windows=window(22, 6), hours_per_day=8)),
    ("the whole day by two windows", load(1, windows=window(6, 18) + window(18, 6))),
    ("a window that ends as it starts", load(1, windows=window(5, 5))),
    ("the catalogue's hours in a shorter window", fridge(windows=window(5, 6))),
    ("low and high at typical", load(10, watts_low=10, watts_high=10)),
]


@pytest.mark.parametrize("what, row", TAKEN, ids=[case[0] for case in TAKEN])
def test_taken(what: str, row: Body) -> None:
    assert len(taken(known([row])).use.rows) == 1, what  # type: ignore[union-attr]  # it is loads


def test_no_request_that_fits_is_predicted_to_be_too_much_work() -> None:
    """Sixty rows of four windows each over two weeks stay within what one request may take."""
    spans = [{"start_hour": k, "end_hour": k + 1} for k in range(4)]
    rows = [load(1, windows=spans, hours_per_day=1) for _ in range(60)]
    body = json.dumps(known(rows, target_hours=336)).encode()
    _, predicted = Answering(CHECK).take(body)
    assert 0 < predicted < CHECK.work_limit
