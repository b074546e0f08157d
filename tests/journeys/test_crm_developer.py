"""A developer of a sales system: from a wrong body to a right one, and a form out of a list."""

from __future__ import annotations

import copy
from typing import Any

import pytest

from tests.assessment.sites import asked, put, steps_of
from tests.journeys.conftest import Client, Json

_SITE = "/v1/site-assessment"
_REMOVED = object()
#: A first try at a body, with most of what can be wrong in it.
_FIRST_TRY: Json = {
    "reference": "lead 42",
    "place": {"state": "california"},
    "wishes": {
        "target_hour": 24,
        "essential_set": "standart",
        "loads": [
            {"kind": "catalogue", "appliance": "fridge"},
            {"kind": "own", "watts": "60"},
            {"kind": "own", "name": "Pump", "watts": "2 volts", "quantity": 1.5},
            {"appliance": "tv"},
        ],
    },
    "home": {
        "type": {"as": "one_off", "values": ["house"]},
        "monthly_kwh": {"as": "range", "low": 900, "high": 300},
        "well_pump": True,
        "side/wall~north": "garage",
    },
    "equipment": {"reserve_percent": "110 %"},
    "candidates": [
        {"id": "a", "battery": {"energy": {"kind": "usable", "kwh": -3}, "count": 0}},
        {"id": "a", "battery": {"energy": {"kwh": 9}, "ambient": "25 C"}},
    ],
}
#: What the developer does about each error, and the word of its remedy that says so.
_REMEDIES: dict[str, tuple[str, Any]] = {
    "/reference": ("matches", "lead-42"),
    "/place/state": ("2 characters", "CA"),
    "/wishes/target_hour": ('"target_hours" instead', _REMOVED),
    "/wishes/essential_set": ('"standard"', "standard"),
    "/wishes/loads/0/appliance": ("one of", "refrigerator"),
    "/wishes/loads/1/name": ("add this field", "Lamp"),
    "/wishes/loads/1/watts": ("write 60", 60),
    "/wishes/loads/2/watts": ("one of the units", "1.5 kW"),
    "/wishes/loads/2/quantity": ("whole number", 1),
    "/wishes/loads/3/kind": ('"catalogue"', "catalogue"),
    "/home/type/as": ('"one_of"', "one_of"),
    "/home/monthly_kwh/low": ("not above `high`", 200),
    "/home/well_pump": ('"v240"', "v240"),
    "/home/side~1wall~0north": ("no such field", _REMOVED),
    "/equipment/reserve_percent": ("100", "80 %"),
    "/candidates/0/battery/energy/kwh": ("from 0.1", 12),
    "/candidates/0/battery/count": ("from 1", 1),
    "/candidates/1/battery/energy/kind": ('"usable"', "usable"),
    "/candidates/1/battery/ambient": ("degF", "77 degF"),
    "/candidates/1/id": ("own id", "b"),
}


def _mended(body: Json, pointer: str, remedy: Any) -> Json:
    """Return the body with the field at the pointer set, or taken away."""
    if remedy is not _REMOVED:
        return put(body, (pointer, remedy))
    changed = copy.deepcopy(body)
    *way, last = steps_of(pointer)
    here: Any = changed
    for step in way:
        here = here[int(step)] if isinstance(here, list) else here[step]
    del here[last]
    return changed


def _errors(client: Client, body: Json) -> dict[str, str]:
    answer = client.post(_SITE, json=body)
    if answer.status_code == 200:
        return {}
    problem = answer.json()
    assert (answer.status_code, problem["type"]) == (422, "/problems/invalid")
    assert answer.headers["content-type"] == "application/problem+json"
    return {error["pointer"]: error["detail"] for error in problem["errors"]}


def test_a_wrong_body_is_told_every_bad_field_at_once(client: Client) -> None:
    # A rule between fields is looked at once every field by itself is right.
    between_fields = {"/candidates/1/id"}
    assert set(_errors(client, _FIRST_TRY)) == set(_REMEDIES) - between_fields


def test_each_remedy_done_its_error_goes_and_no_other_comes_until_the_answer_is_200(
    client: Client,
) -> None:
    body = _FIRST_TRY
    errors = _errors(client, body)
    done = []
    while errors:
        pointer = next(iter(errors))
        word, remedy = _REMEDIES[pointer]
        assert word in errors[pointer], (pointer, errors[pointer])
        body = _mended(body, pointer, remedy)
        left = _errors(client, body)
        expected = {k: v for k, v in errors.items() if k != pointer}
        assert left == expected or not expected, pointer
        errors = left
        done.append(pointer)
    assert sorted(done) == sorted(_REMEDIES)
    assert client.post(_SITE, json=body).status_code == 200


def test_a_bodys_errors_do_not_depend_on_the_order_they_are_mended_in(client: Client) -> None:
    body = _FIRST_TRY
    for pointer, (_, remedy) in reversed(_REMEDIES.items()):
        body = _mended(body, pointer, remedy)
    assert _errors(client, body) == {}


def test_the_problem_type_is_a_page_that_explains_it(client: Client) -> None:
    problem = client.post(_SITE, json={}).json()
    page = client.get(problem["type"])
    assert page.status_code == 200
    assert problem["title"] in page.text


@pytest.fixture(scope="module")
def rows(client: Client) -> list[Json]:
    """Return the site facts that a form is built from."""
    listed = client.get("/v1/reference/facts")
    assert listed.status_code == 200
    found: list[Json] = listed.json()["rows"]
    return found


def _numbers(row: Json) -> list[Any]:
    low, high, unit = row["minimum"], row["maximum"], row["unit"]
    middle = (low + high) / 2
    return [low, middle, high, f"{middle} {unit}"]


def _bare(row: Json) -> list[Any]:
    return _numbers(row) if row["value"] == "number" else row["choices"]


def _forms(row: Json) -> list[Any]:
    """Return every way in which the form's field may be answered."""
    bare = _bare(row)
    found = [*bare, {"as": "one_of", "values": bare[:3]}, {"as": "unknown"}, None]
    found += [{"as": "coarse", "answer": c["answer"]} for c in row["coarse_answers"]]
    if row["value"] == "number":
        low, middle, high, text = bare
        found += [
            {"as": "range", "low": low, "high": high},
            {"as": "range", "low": low, "likely": middle, "high": high},
            {"as": "range", "low": low, "likely": text, "high": high},
        ]
    return found


_PLAIN: Json = {"place": {"state": "CA"}, "wishes": {"essential_set": "bare", "target_hours": 8}}


def test_every_row_of_the_form_is_taken_in_every_form_it_offers(
    client: Client, rows: list[Json]
) -> None:
    assert len(rows) > 5
    for row in rows:
        assert row["value"] in ("number", "choice"), row["pointer"]
        for answer in _forms(row):
            sent = client.post(_SITE, json=put(_PLAIN, (row["pointer"], answer)))
            assert sent.status_code == 200, (row["pointer"], answer, sent.text)


def test_a_form_filled_from_end_to_end_is_taken(client: Client, rows: list[Json]) -> None:
    for place in range(4):
        fields = [(row["pointer"], _forms(row)[place % len(_forms(row))]) for row in rows]
        assert client.post(_SITE, json=put(_PLAIN, *fields)).status_code == 200


def test_a_number_outside_the_bounds_of_its_row_is_refused(
    client: Client, rows: list[Json]
) -> None:
    for row in rows:
        if row["value"] == "number":
            for value in (row["minimum"] - 1, row["maximum"] + 1):
                errors = _errors(client, put(_PLAIN, (row["pointer"], value)))
                assert list(errors) == [row["pointer"]]


def test_a_bare_answer_ends_its_question_and_unknown_leaves_it_open(
    client: Client, rows: list[Json]
) -> None:
    for row in rows:
        if not row["choices"]:
            continue
        pointer = row["pointer"]
        site = put(_PLAIN, (pointer, row["choices"][0]))
        assert pointer not in asked(client.post(_SITE, json=site).json())
        unknown = client.post(_SITE, json=put(_PLAIN, (pointer, {"as": "unknown"}))).json()
        question = asked(unknown)[pointer]
        assert (question["question"], question["ask_by"]) == (row["question"], row["ask_by"])
        assert set(question["range"]) == set(row["choices"])


def test_every_appliance_of_the_list_is_taken_as_a_load(client: Client) -> None:
    known = client.get("/v1/reference/appliances").json()["rows"]
    for start in range(0, len(known), 60):
        loads = [
            {"kind": "catalogue", "appliance": row["id"], "watts": row["run_w_typical"]}
            for row in known[start : start + 60]
        ]
        sent = client.post(_SITE, json={"place": {"state": "CA"}, "wishes": {"loads": loads}})
        assert sent.status_code == 200, sent.text


def test_every_example_of_the_contract_is_taken_as_it_stands(
    client: Client, contract: Json
) -> None:
    tried = 0
    for path, item in contract["paths"].items():
        body = item.get("post", {}).get("requestBody", {}).get("content", {})
        for example in body.get("application/json", {}).get("examples", {}).values():
            assert client.post(path, json=example["value"]).status_code == 200
            tried += 1
    assert tried >= 6
