"""Query parameters: only ``include`` where an operation knows it, each at most once."""

from __future__ import annotations

from collections.abc import Sequence
from urllib.parse import parse_qsl

from service.check import Includes
from service.http.problem import Problem
from service.http.wording import listed, nearest, quoted

_NONE: Includes = frozenset()
_MOST = 20
_LONGEST = 2000


def includes_asked(query: bytes, known: Sequence[str]) -> Includes:
    """Return the values of ``include``, divided by commas; none without a query.

    Raises
    ------
    Problem
        A parameter or value is unknown or repeated; the detail names every one.
    """
    if not query:
        return _NONE
    parameters = _parameters(query)
    faults: list[str] = []
    asked: list[str] = []
    seen: set[str] = set()
    for name, value in parameters:
        if name != "include" or not known:
            there_is = "there is only include" if known else "there is none here"
            faults.append(f"remove the parameter {quoted(name)}: {there_is}")
        elif name in seen:
            faults.append("write include once, its values divided by commas")
        else:
            asked = value.split(",")
        seen.add(name)
    faults.extend(_value_faults(asked, known))
    if faults:
        raise Problem("invalid", f"The query is outside the contract: {'; '.join(faults)}.")
    return frozenset(asked)


def no_query(query: bytes) -> None:
    """Refuse any parameter at all."""
    includes_asked(query, ())


def _parameters(query: bytes) -> list[tuple[str, str]]:
    if len(query) <= _LONGEST:
        try:
            return parse_qsl(
                query.decode("ascii"),
                keep_blank_values=True,
                strict_parsing=True,
                errors="strict",
                max_num_fields=_MOST,
            )
        except ValueError:
            pass
    detail = "The query is outside the contract: write name=value, percent-encoded, in UTF-8."
    raise Problem("invalid", detail)


def _value_faults(asked: Sequence[str], known: Sequence[str]) -> list[str]:
    faults = []
    for place, value in enumerate(asked):
        if value not in known:
            near = nearest(value, known)
            meant = f'write "{near}", not {quoted(value)}' if near else f"remove {quoted(value)}"
            faults.append(f"{meant}: include knows {listed(known)}")
        elif value in asked[:place]:
            faults.append(f"write {quoted(value)} once in include")
    return faults
