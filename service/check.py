"""The records every part of the house is registered by: Operation, Check, and Refused.

::

    Operation                      what answers one POST path; a RawBody beside it, if it has one
    +-- Check                      an operation that the site assessment composes

A check is a pure calculation between two translations: request -> ``arguments`` -> arrays ->
``columns`` -> arrays -> ``explain`` -> answer. ``columns`` serves one request and ten thousand.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Any, NamedTuple

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

#: Arrays by name; axis 0 is the case, or a flat axis cut by an ``*_offsets`` array.
Arrays = Mapping[str, NDArray[Any]]
Includes = frozenset[str]

#: Asked of a check by the assessment, which reads neither alternatives nor second-rank results; or
#: alternatives, and no second-rank results. The contract knows neither.
BRIEF: Includes = frozenset({"brief"})
WITH_ALTERNATIVES: Includes = frozenset({"brief", "alternatives"})

JSON = "application/json"
MSGPACK = "application/vnd.msgpack"
MIB = 1024 * 1024


class FieldError(NamedTuple):
    """One bad field: where it is (RFC 6901) and what to do about it."""

    pointer: str
    detail: str


class Refused(Exception):
    """The request is well formed and still cannot be taken: every reason at once."""

    def __init__(self, errors: Sequence[FieldError]) -> None:
        super().__init__("; ".join(f"{e.pointer}: {e.detail}" for e in errors))
        self.errors = tuple(errors)


def nothing_to_refuse(_request: Any) -> list[FieldError]:
    """Return no error: the contract alone says what this operation takes."""
    return []


@dataclass(frozen=True, slots=True, kw_only=True)
class RawBody:
    """A body that is no JSON: one document as its maker wrote it.

    An operation that has one takes the same document inside a JSON body too, as one long text
    beside a few short fields; both give the same answer.

    Attributes
    ----------
    media : tuple of str
        Media types it comes as, ``application/octet-stream`` first.
    limit : int
        Largest raw body [byte].
    request : callable
        ``request(body) -> request``: the wire struct; raises nothing but `Refused`.
    """

    media: tuple[str, ...]
    limit: int
    request: Callable[[bytes], Any]


@dataclass(frozen=True, slots=True, kw_only=True)
class Operation:
    """One POST path: what it takes, what it answers, what it costs.

    Attributes
    ----------
    id : str
        Last part of the path, ``/v1/<id>``, and folder of its examples.
    title, description : str
        Words of the contract.
    tag : str
        Tag of the contract.
    request, answer : type[Struct]
        Wire structs of the body and of the 200 answer.
    run : callable
        ``run(request, includes) -> answer``; raises nothing but `Refused`.
    work : callable
        ``work(request) -> float``: predicted time on one core [ms], before any work.
    refusals : callable
        ``refusals(request) -> [FieldError]``: rules between fields that the contract cannot say.
    limit : int
        Largest body [byte].
    work_limit : float
        Largest predicted time taken at all [ms].
    lighten : str
        What the caller may do about a request that would take longer.
    includes : tuple of str
        Values that ``?include=`` knows here.
    bodies : tuple of str
        Media types in which the request struct is accepted.
    answers : tuple of str
        Media types answered.
    raw : RawBody or None
        What else is accepted: a document that is no request struct.
    examples : mapping
        Example name -> its one-line summary; the bodies stand in the contract's example folder.
    """

    id: str
    title: str
    description: str
    tag: str
    request: type[Struct]
    answer: type[Struct]
    run: Callable[[Any, Includes], Any]
    work: Callable[[Any], float]
    refusals: Callable[[Any], list[FieldError]] = nothing_to_refuse
    limit: int = 2 * MIB
    work_limit: float = 1500.0
    lighten: str = "ask for fewer cases, a shorter time or a coarser step, or send it in parts"
    includes: tuple[str, ...] = ("working", "series")
    bodies: tuple[str, ...] = (JSON, MSGPACK)
    answers: tuple[str, ...] = (JSON, MSGPACK)
    raw: RawBody | None = None
    examples: Mapping[str, str] = field(default_factory=dict)

    @property
    def path(self) -> str:
        """Return the path of the operation."""
        return f"/v1/{self.id}"

    @property
    def accepted(self) -> tuple[str, ...]:
        """Return every media type of a body."""
        return self.bodies + (self.raw.media if self.raw else ())

    def limit_of(self, media: str) -> int:
        """Return the largest body of a media type [byte]."""
        return self.raw.limit if self.raw and media in self.raw.media else self.limit


class FromSite(NamedTuple):
    """A check's request worked out of site facts, or the facts that are missing for it.

    ``missing`` holds pointers of the site request; ``pointers`` maps a pointer of the check's
    request to the pointer of the site request it came from, longest prefix first. ``trials`` are
    values for site fields whose questions name no plain range: pointer, with ``*`` for the
    candidate's place -> values to answer again with. ``asked`` are questions for what is missing
    where no declared fact stands for it, at pointers of the site.
    """

    request: Struct | None
    missing: tuple[str, ...]
    pointers: Mapping[str, str]
    trials: Mapping[str, tuple[Any, ...]] = MappingProxyType({})
    asked: tuple[Any, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Check(Operation):
    """An operation that the site assessment composes.

    Attributes
    ----------
    arguments : callable
        ``arguments([request, ...]) -> Arrays``: wire structs to SI arrays.
    columns : callable
        ``columns(**arrays) -> Arrays``: the calculation, pure; never raises for data.
    explain : callable
        ``explain(request, columns, row, includes) -> answer`` in the field's units and words.
    facts_read : tuple of str
        Pointers of the site request that can move the answer.
    after : tuple of str
        Ids of the checks whose answers it takes.
    heeds : tuple of str
        Ids of the checks whose answers it takes where they are made, and does without otherwise.
    from_site : callable
        ``from_site(site, candidate, answers) -> FromSite``; site facts already resolved.
    verdicts : callable
        ``verdicts([request, ...]) -> [Verdict, ...]``: the verdicts alone, many at once; the same
        as those of the whole answers.
    needs : callable
        ``needs(site) -> [Figure, ...]``: what the site asks of any candidate.
    figures : callable
        ``figures(answer) -> [Figure, ...]``: the numbers of an answer that the assessment shows.
    reruns : float
        How many whole answers its reruns for the open facts of a site come to, where they cost
        most.
    array_rate : float
        Cases a second that `columns` does on one core in a large batch, for `work` of sweeps.
    """

    arguments: Callable[[Sequence[Any]], Arrays]
    columns: Callable[..., Arrays]
    explain: Callable[[Any, Arrays, int, Includes], Any]
    facts_read: tuple[str, ...] = ()
    after: tuple[str, ...] = ()
    heeds: tuple[str, ...] = ()
    from_site: Callable[[Any, Any, Mapping[str, Any]], FromSite]
    verdicts: Callable[[Sequence[Any]], list[Any]]
    needs: Callable[[Any], list[Any]]
    figures: Callable[[Any], list[Any]]
    reruns: float = 4.0
    array_rate: float = 1.0


def run_check(
    arguments: Callable[[Sequence[Any]], Arrays],
    columns: Callable[..., Arrays],
    explain: Callable[[Any, Arrays, int, Includes], Any],
) -> Callable[[Any, Includes], Any]:
    """Return the `run` of a check: its three steps for the one request."""

    def run(request: Any, includes: Includes) -> Any:
        with np.errstate(all="ignore"):
            answered = columns(**arguments([request]))
        return explain(request, answered, 0, includes)

    return run
