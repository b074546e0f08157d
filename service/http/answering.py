"""From the bytes of a request to the bytes of its answer, without a server around it.

The endpoint and the command line both answer through this, so that they answer alike.
"""

from __future__ import annotations

from typing import NamedTuple

from msgspec import Struct

from service.check import JSON, Includes, Operation, Refused
from service.http.decoder import Decoder
from service.http.digest import default_json, digest_of
from service.http.long_texts import refuse_structure
from service.http.problem import Problem, invalid
from service.quantities.encoder import round_answer, to_json, to_msgpack


class Answered(NamedTuple):
    """An answer ready to send: its bytes, and the digest of what it says."""

    body: bytes
    digest: bytes


class Answering:
    """Answers the requests of one operation, in two steps that may run on different threads."""

    def __init__(self, operation: Operation) -> None:
        self.operation = operation
        self._decoder = Decoder(operation.request)

    def take(self, body: bytes, media: str = JSON) -> tuple[Struct, float]:
        """Return the request that the body states, and the time it will take [ms].

        Raises
        ------
        Problem
            The body cannot be read, is outside the contract, or asks for too much work.
        """
        request = self._read(body, media)
        errors = self.operation.refusals(request)
        if errors:
            raise invalid(errors)
        predicted = self.operation.work(request)
        if predicted > self.operation.work_limit:
            raise Problem(
                "too-much-work",
                f"This request would take about {predicted:.0f} ms of computing and at most "
                f"{self.operation.work_limit:.0f} ms are given to one; {self.operation.lighten}.",
            )
        return request, predicted

    def _read(self, body: bytes, media: str) -> Struct:
        raw = self.operation.raw
        if raw is None:
            return self._decoder.decode(body, media)
        if media not in raw.media:
            refuse_structure(body)
            return self._decoder.decode(body, media)
        try:
            request: Struct = raw.request(body)
        except Refused as refused:
            raise invalid(refused.errors) from None
        return request

    def answer(self, request: Struct, includes: Includes, media: str = JSON) -> Answered:
        """Return the answer to a request that was taken.

        Raises
        ------
        Problem
            The operation refuses it.
        """
        try:
            answer = self.operation.run(request, includes)
        except Refused as refused:
            raise invalid(refused.errors) from None
        round_answer(answer)
        body = to_json(answer) if media == JSON else to_msgpack(answer)
        usual = not includes and media == JSON and getattr(answer, "reference", None) is None
        return Answered(body, digest_of(body if usual else default_json(answer, includes)))
