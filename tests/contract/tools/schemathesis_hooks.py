"""What the fuzzer must be told: how to read MessagePack, and what a schema cannot say.

A request that fits the schema is refused rightly in three cases alone: a text holds a number
outside the bounds of its field (``"0 kWh"``), the three numbers of a range are out of order, or a
rule between fields, declared by its operation, is broken.
"""

from __future__ import annotations

import json
from collections.abc import Sequence
from functools import cache
from typing import Any, cast

import msgspec
import schemathesis

from service.app import operations
from service.check import JSON, MSGPACK, Operation
from service.http.decoder import Decoder
from service.http.problem import Problem


@schemathesis.deserializer(MSGPACK)
def read_msgpack(_ctx: schemathesis.DeserializationContext, response: schemathesis.Response) -> Any:
    """Return the answer, so that it is held to its schema as JSON is."""
    return msgspec.msgpack.decode(response.content)


@schemathesis.check
def refuses_only_beyond_the_schema(
    _ctx: schemathesis.CheckContext, response: schemathesis.Response, case: schemathesis.Case[Any]
) -> None:
    """Fail where a request that fits the schema is refused for what the schema could have said."""
    generated = case.meta
    if (
        response.status_code != 422
        or generated is None
        or not generated.generation.mode.is_positive
    ):
        return
    operation = _operations().get(case.operation.path)
    if operation is not None and _breaks_a_rule_between_fields(operation, case.body):
        return
    for error in response.json()["errors"]:
        pointer = error["pointer"]
        value, owner = _at(case.body, pointer), _at(case.body, pointer.rpartition("/")[0])
        told = isinstance(value, str) or _is_range(value) or _is_range(owner)
        assert told, f"the schema takes {value!r} at {pointer}: {error['detail']}"


def _is_range(value: Any) -> bool:
    return isinstance(value, dict) and value.get("as") == "range"


@cache
def _operations() -> dict[str, Operation]:
    return {operation.path: operation for operation in operations()}


def _breaks_a_rule_between_fields(operation: Operation, body: Any) -> bool:
    try:
        request = Decoder(operation.request).decode(json.dumps(body).encode(), JSON)
    except Problem:
        return False
    return len(operation.refusals(request)) > 0


def _at(value: Any, pointer: str) -> Any:
    """Return the part of a JSON value that an RFC 6901 pointer names."""
    for token in pointer.split("/")[1:]:
        name = token.replace("~1", "/").replace("~0", "~")
        if isinstance(value, Sequence):
            value = value[int(name)]
        else:
            value = cast(dict[str, Any], value)[name]
    return value
