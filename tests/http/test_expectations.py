"""The walk over a body that did not fit accepts what the decoder accepts, and nothing else."""

from __future__ import annotations

import json
from typing import Annotated, Any, Literal

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from msgspec import Meta, Struct

from service.facts import FactOneOf, FactRange, FactUnknown
from service.http.expect import UnboundedError, expectation_of
from service.http.walk import Walk
from service.quantities.fields import PRINTABLE


class Small(Struct, tag="small", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """One kind."""

    size: Annotated[int, Meta(ge=0, le=9)]


class Large(Struct, tag="large", tag_field="kind", forbid_unknown_fields=True, kw_only=True):
    """Another kind."""

    size: Annotated[float, Meta(gt=0, lt=9)]
    open: bool = False


_Number = Annotated[float, Meta(ge=-5, le=5)]
_Text = Annotated[str, Meta(min_length=1, max_length=3, pattern=PRINTABLE)]


class Sample(Struct, forbid_unknown_fields=True, kw_only=True):
    """Every construct that a request may have, without units."""

    must: Annotated[int, Meta(ge=-3, le=3)]
    number: _Number | None = None
    text: _Text | None = None
    choice: Literal["a", "b", 1] | None = None
    one_or_many: _Number | Annotated[list[_Number], Meta(max_length=2)] = 1.0
    kinds: Annotated[list[Small | Large], Meta(min_length=1, max_length=2)] | None = None
    kind: Small | Large | None = None
    fact: _Number | FactRange[_Number] | FactOneOf[_Number] | FactUnknown | None = None
    table: Annotated[dict[_Text, bool], Meta(max_length=2)] = {}
    flag: bool = False


_scalars = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-10, 10),
    st.sampled_from([10**20, -(10**400), 2.0, -0.0, 1e308, 8.999]),
    st.floats(-10, 10),
    st.sampled_from(["", "a", "b", "abc", "abcd", "a\n", "\u0007", "\u2028", "é", "small"]),
)
_tagged = st.fixed_dictionaries(
    {},
    optional={
        "kind": st.sampled_from(["small", "large", "none", 1, None]),
        "as": st.sampled_from(["range", "one_of", "unknown", "coarse", 2]),
        "size": _scalars,
        "open": _scalars,
        "low": _scalars,
        "likely": _scalars,
        "high": _scalars,
        "values": st.lists(_scalars, max_size=3),
    },
)
_values = st.one_of(
    _scalars,
    _tagged,
    st.lists(st.one_of(_scalars, _tagged), max_size=3),
    st.dictionaries(st.sampled_from(["a", "b", "long name", ""]), _scalars, max_size=3),
)
_numbers = st.one_of(st.floats(-5, 5), st.integers(-5, 5))
_small = st.fixed_dictionaries({"kind": st.just("small"), "size": st.integers(0, 9)})
_large = st.fixed_dictionaries(
    {"kind": st.just("large"), "size": st.floats(0.5, 8.5)}, optional={"open": st.booleans()}
)
_ranges = st.fixed_dictionaries(
    {"as": st.just("range"), "low": _numbers, "high": _numbers}, optional={"likely": _numbers}
)
_one_of = st.fixed_dictionaries(
    {"as": st.just("one_of"), "values": st.lists(_numbers, min_size=1, max_size=12)}
)
_texts = st.sampled_from(["a", "é", "abc"])
_fitting: dict[str, st.SearchStrategy[Any]] = {
    "number": _numbers,
    "text": _texts,
    "choice": st.sampled_from(["a", "b", 1, None]),
    "one_or_many": st.one_of(_numbers, st.lists(_numbers, max_size=2)),
    "kinds": st.lists(st.one_of(_small, _large), min_size=1, max_size=2),
    "kind": st.one_of(_small, _large, st.none()),
    "fact": st.one_of(_numbers, _ranges, _one_of, st.just({"as": "unknown"})),
    "table": st.dictionaries(_texts, st.booleans(), max_size=2),
    "flag": st.booleans(),
}


@st.composite
def _bodies(draw: st.DrawFn) -> Any:
    """Draw a body that fits, then put something else in at most two places, or anything at all."""
    if draw(st.integers(0, 19)) == 19:
        return draw(_values)
    body: Any = draw(st.fixed_dictionaries({"must": st.integers(-3, 3)}, optional=_fitting))
    for _ in range(draw(st.sampled_from([0, 1, 1, 2]))):
        places = [(body, name) for name in [*body, "other"]]
        places += [
            (held, name) for held in body.values() if isinstance(held, dict) for name in held
        ]
        inside, name = draw(st.sampled_from(places))
        inside[name] = draw(_values)
    return body


_expected = expectation_of(Sample)


def _decoder_takes(body: bytes) -> bool:
    try:
        msgspec.json.decode(body, type=Sample)
    except msgspec.ValidationError:
        return False
    return True


def _one_kind(value: Any) -> Any:
    """Return the value with whole numbers as such: JSON does not tell 10.0 from 10."""
    if isinstance(value, dict):
        return {name: _one_kind(held) for name, held in value.items()}
    if isinstance(value, list):
        return [_one_kind(held) for held in value]
    return int(value) if isinstance(value, float) and value.is_integer() else value


def _out_of_order(value: Any) -> bool:
    if not isinstance(value, dict) or value.get("as") != "range":
        return False
    low, likely, high = value["low"], value.get("likely"), value["high"]
    return bool(low > high or (likely is not None and not low <= likely <= high))


@settings(max_examples=1500)
@given(_bodies())
def test_walk_finds_an_error_exactly_where_the_decoder_refuses(value: Any) -> None:
    body = json.dumps(value).encode()
    walk = Walk()
    _expected.read(json.loads(body), "", walk)
    taken = _decoder_takes(json.dumps(_one_kind(value)).encode())
    if taken and _out_of_order(value.get("fact")):
        taken = False
    assert (not walk.errors) is taken, walk.errors


@given(_bodies())
def test_every_pointer_leads_into_the_body_or_to_a_field_that_it_lacks(value: Any) -> None:
    walk = Walk()
    _expected.read(value, "", walk)
    for pointer, _ in walk.errors:
        here = value
        steps = pointer.split("/")[1:]
        for at, part in enumerate(steps):
            name = part.replace("~1", "/").replace("~0", "~")
            if isinstance(here, list):
                here = here[int(name)]
            elif name in here:
                here = here[name]
            else:
                assert at == len(steps) - 1


class _NoBound(Struct):
    number: float


class _NoLength(Struct):
    text: str


class _NoCount(Struct):
    rows: list[bool]


class _LoneTag(Struct):
    only: Small | None = None


@pytest.mark.parametrize("request_struct", [_NoBound, _NoLength, _NoCount, _LoneTag])
def test_a_struct_without_bounds_is_refused_when_the_service_starts(
    request_struct: type[Struct],
) -> None:
    with pytest.raises(UnboundedError):
        expectation_of(request_struct)
