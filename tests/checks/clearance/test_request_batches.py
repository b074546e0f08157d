"""A request answered alone, among others, by its verdict alone, its places in any order."""

import numpy as np
import pytest

from service.checks.clearance import CHECK
from service.checks.clearance.arguments import arguments
from service.checks.clearance.columns import columns
from service.checks.clearance.explain import explain
from service.checks.clearance.verdicts import verdicts
from service.checks.clearance.work import work
from tests.checks.clearance.random_bodies import random_body
from tests.checks.clearance.requests import answer_of, body, request_of, room, wall

REQUESTS = [request_of(random_body(seed)) for seed in range(60)]


def test_a_request_among_others_is_answered_as_alone() -> None:
    together = columns(**arguments(REQUESTS))
    for row, request in enumerate(REQUESTS):
        assert explain(request, together, row, frozenset()) == answer_of(request)


def test_verdicts_alone_are_those_of_whole_answers() -> None:
    whole = [answer_of(request, "brief").verdict for request in REQUESTS]
    assert verdicts(REQUESTS) == whole
    assert len(set(whole)) == 4


@pytest.mark.parametrize("seed", range(0, 60, 4))
def test_the_order_of_places_changes_no_place(seed: int) -> None:
    made = random_body(seed)
    made["places"] = [*made["places"], wall(id="another", length=150), room(id="a room")]
    turned = made | {"places": made["places"][::-1]}
    one, other = (answer_of(request_of(each)) for each in (made, turned))
    assert one.verdict is other.verdict

    def by_name(found: object) -> dict[str, object]:
        return {
            place.id: (place.verdict, place.placed, place.arrangement, place.fails_by,
                       [kind.permitted for kind in place.units])
            for place in found.places  # type: ignore[attr-defined]
        }  # fmt: skip

    assert by_name(one) == by_name(other)


def test_a_batch_without_requests_is_empty() -> None:
    found = columns(**arguments([]))
    assert found["solved"].shape == (0,)
    assert np.array_equal(found["lane_offsets"], [0])


def test_more_is_predicted_to_cost_more_and_never_beyond_the_limit() -> None:
    small = request_of(body())
    large = request_of(body(*(wall(id=f"wall-{at}") for at in range(12))))
    assert work(small) < work(large) < CHECK.work_limit
