"""One function, one behaviour: a case alone and the same case inside a batch."""

import random
from collections.abc import Callable
from functools import cache

import numpy as np

from service.check import Arrays
from service.checks.outage_runtime import CHECK
from service.checks.outage_runtime.columns import columns, verdict_columns
from service.checks.outage_runtime.request import OutageRuntimeRequest
from service.checks.outage_runtime.verdicts import verdicts
from service.findings import Verdict
from tests.checks.outage_runtime import random_requests
from tests.checks.outage_runtime.asking import taken

CASES = 1000
#: Of which every lane of the whole answer is looked at.
WHOLE = 100


@cache
def requests() -> tuple[OutageRuntimeRequest, ...]:
    """Return mixed requests: loads, day profiles and bills, with and without load control."""
    draw = random.Random("batch of a thousand")
    return tuple(taken(random_requests.request(draw)) for _ in range(CASES))


def in_one_call(work: Callable[..., Arrays], some: tuple[OutageRuntimeRequest, ...]) -> Arrays:
    with np.errstate(all="ignore"):
        return work(**CHECK.arguments(some))


@cache
def together() -> Arrays:
    return in_one_call(columns, requests()[:WHOLE])


@cache
def verdicts_together() -> Arrays:
    return in_one_call(verdict_columns, requests())


def assert_same_case(alone: Arrays, batch: Arrays, case: int) -> None:
    """Codes and flags are equal, numbers agree to 1e-9; nothing is missing."""
    assert set(alone) == set(batch)
    for name, values in alone.items():
        ours, theirs = values[0], batch[name][case]
        if np.issubdtype(values.dtype, np.floating):
            np.testing.assert_allclose(theirs, ours, rtol=1e-9, atol=1e-9, err_msg=name)
        else:
            np.testing.assert_array_equal(theirs, ours, err_msg=name)


def test_a_case_alone_is_the_case_in_the_batch() -> None:
    """Every column of all lanes, for each of the 100."""
    for case in range(WHOLE):
        assert_same_case(in_one_call(columns, (requests()[case],)), together(), case)


def test_the_few_lanes_of_a_verdict_are_the_same_alone() -> None:
    """Every column of the lanes that a verdict takes, for each of the 1,000."""
    for case in range(CASES):
        alone = in_one_call(verdict_columns, (requests()[case],))
        assert_same_case(alone, verdicts_together(), case)


def test_the_verdicts_of_many_are_those_of_the_whole_answers() -> None:
    found = verdicts(requests())
    answers = [
        CHECK.explain(request, together(), case, frozenset()).verdict
        for case, request in enumerate(requests()[:WHOLE])
    ]
    assert found[:WHOLE] == answers
    assert set(found) == set(Verdict), "every verdict is met"


def test_no_column_holds_a_number_that_is_none() -> None:
    """No NaN anywhere, and nothing infinite."""
    for batch in (together(), verdicts_together()):
        for name, values in batch.items():
            if name != "year":
                assert np.all(np.isfinite(values)), name


def test_no_requests_have_no_verdicts() -> None:
    assert verdicts([]) == []
