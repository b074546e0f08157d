"""Load profile as an operation: one document in, raw or as JSON, one answer."""

from __future__ import annotations

from service.check import JSON, MIB, MSGPACK, Includes, Operation, RawBody
from service.load_profile.answer import LoadProfileAnswer
from service.load_profile.cleaned import cleaned
from service.load_profile.csv_document import read_csv
from service.load_profile.document_text import is_xml, plain_text, text_of
from service.load_profile.espi_document import read_espi
from service.load_profile.explain import explained
from service.load_profile.readings import HOUR
from service.load_profile.request import LONGEST, LoadProfileRequest

#: Offset of local standard time where nothing states it (common practice, no source) [h].
_DEFAULT_OFFSET = -8
#: Predicted time on one core [ms], by characters of the document, measured on both forms.
_LEAST_MS = 2.0
_XML_PER_CHARACTER = 65.0 / MIB
_CSV_PER_CHARACTER = 180.0 / MIB
#: No document takes longer: the bounds on lines, elements and readings hold it [ms].
_MOST_MS = 1700.0


def run(request: LoadProfileRequest, includes: Includes) -> LoadProfileAnswer:
    """Return the answer to one document.

    Raises
    ------
    Refused
        The document cannot be read, or holds no electricity readings.
    """
    text = plain_text(request.document)
    stated = None if request.utc_offset_hours is None else round(request.utc_offset_hours * HOUR)
    default = _DEFAULT_OFFSET * HOUR
    if is_xml(text):
        metered = read_espi(text, stated, default)
    else:
        metered = read_csv(text, stated, default, request.daylight_saving)
    return explained(metered, cleaned(metered), request.reference, includes)


def work(request: LoadProfileRequest) -> float:
    """Return the predicted time [ms]."""
    each = _XML_PER_CHARACTER if is_xml(request.document) else _CSV_PER_CHARACTER
    return min(_LEAST_MS + each * len(request.document), _MOST_MS)


def from_raw(body: bytes) -> LoadProfileRequest:
    """Return the request that a raw body is.

    Raises
    ------
    Refused
        The bytes are no text.
    """
    return LoadProfileRequest(document=text_of(body))


LOAD_PROFILE = Operation(
    id="load-profile",
    title="Load profile",
    description=(
        "The home's own meter data, read and cleaned: an ESPI energy usage feed (XML) or a CSV "
        "as utilities export it, in readings of 15, 30 or 60 minutes, at most 105,408 of them "
        "(three years of quarter hours). It answers with statistics, gaps, what was mended, what "
        "is doubtful, the highest demand, and one clean year of 8760 hours to pass on as the use "
        "of other checks; nothing is stored. Names, addresses and account numbers are neither "
        "read nor logged nor shown. The same document gives the same answer as JSON and raw."
    ),
    tag="checks",
    request=LoadProfileRequest,
    answer=LoadProfileAnswer,
    run=run,
    work=work,
    limit=32 * MIB,
    work_limit=_MOST_MS,
    includes=("day_shapes",),
    bodies=(JSON,),
    answers=(JSON, MSGPACK),
    raw=RawBody(
        media=(
            "application/octet-stream",
            "application/atom+xml",
            "application/xml",
            "text/xml",
            "text/csv",
        ),
        limit=LONGEST,
        request=from_raw,
    ),
    examples={
        "a-week-of-quarter-hours": "A week of an invented home as CSV; no whole year, no profile.",
        "b-energy-usage-feed": "A day of an invented home as an energy usage feed.",
        "c-sections-of-a-day": "Two days as CSV, a section with its own header for each.",
    },
)
