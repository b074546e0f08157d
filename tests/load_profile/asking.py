"""A document in, an answer out, without a server."""

from __future__ import annotations

import json
from typing import Any

import pytest

from service.check import Refused
from service.load_profile import LOAD_PROFILE
from service.load_profile.answer import LoadProfileAnswer
from service.load_profile.request import LoadProfileRequest


def asked(
    document: str,
    *includes: str,
    utc_offset_hours: float | None = None,
    daylight_saving: bool | None = None,
) -> LoadProfileAnswer:
    """Return the answer to a document."""
    request = LoadProfileRequest(
        document=document, utc_offset_hours=utc_offset_hours, daylight_saving=daylight_saving
    )
    answer: LoadProfileAnswer = LOAD_PROFILE.run(request, frozenset(includes))
    return answer


def refusal(document: str) -> str:
    """Return the detail with which a document is refused."""
    with pytest.raises(Refused) as caught:
        asked(document)
    assert [error.pointer for error in caught.value.errors] == ["/document"]
    return caught.value.errors[0].detail


def as_json(document: str, **fields: Any) -> bytes:
    """Return the JSON body of a document."""
    return json.dumps({"document": document, **fields}).encode()


def wh(answer: LoadProfileAnswer) -> float:
    """Return the energy of the readings that stand [Wh], to the watt-hour."""
    return round(answer.statistics.energy_kwh * 1000, 3)
