"""Circuits of many requests at once are those of each alone and of whole answers."""

import json

from service.checks.conductor_sizing import CHECK
from service.checks.conductor_sizing.request import ConductorSizingRequest
from service.checks.conductor_sizing.verdicts import made_of, verdicts
from tests.checks.conductor_sizing.requests import ANSWERING, WALL, Body, body
from tests.checks.conductor_sizing.test_answers import extreme


def request_of(made: Body) -> ConductorSizingRequest:
    request, _ = ANSWERING.take(json.dumps(made).encode())
    assert isinstance(request, ConductorSizingRequest)
    return request


def test_a_batch_of_runs_of_one_part_and_of_a_hundred_and_of_both_editions() -> None:
    asked = [request_of(extreme(seed)) for seed in range(20)]
    asked += [
        request_of(body(None, WALL | {"length": length}, edition=edition))
        for length in (10, 90, 300)
        for edition in ("nec-2020", "nec-2023")
    ]
    together = verdicts(asked)
    assert together == [verdicts([request])[0] for request in asked]
    assert together == [CHECK.run(request, frozenset()).verdict for request in asked]
    assert len(set(together)) > 1
    for request, made in zip(asked, made_of(asked), strict=True):
        (alone,) = made_of([request])
        assert [one.row.phase for one in made] == [one.row.phase for one in alone]
        assert [one.row.ground for one in made] == [one.row.ground for one in alone]
