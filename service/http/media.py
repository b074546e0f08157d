"""Media types: what a body is written in, and what its sender takes for an answer."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache

from service.check import JSON
from service.http.problem import Problem

#: A longer header is refused unread.
_LONGEST = 1000
_KEPT = 256
_OWS = " \t"
#: Types whose sender may say that the text is UTF-8.
_TEXTS = (JSON, "text/csv", "text/xml", "application/xml", "application/atom+xml")


def body_media(value: bytes | None, encoding: bytes | None, accepted: tuple[str, ...]) -> str:
    """Return the media type of the body.

    Parameters
    ----------
    value, encoding : bytes or None
        The headers Content-Type and Content-Encoding.
    accepted : tuple of str
        Media types that the path reads.

    Raises
    ------
    Problem
        There is none, it is none of the accepted ones, or the body is compressed.
    """
    if encoding is not None and encoding.strip().lower() != b"identity":
        detail = "Send the body uncompressed, without Content-Encoding."
        header = (b"accept-encoding", b"identity")
        raise Problem("unsupported-media-type", detail, headers=[header])
    media = _parsed(value) if value is not None and len(value) <= _LONGEST else None
    if media in accepted:
        return media
    names = " or ".join(accepted)
    had = "There is no Content-Type" if value is None else "This Content-Type is not read here"
    detail = f"{had}; send {names}, in UTF-8, with no other parameter than charset=utf-8."
    accept = (b"accept", ", ".join(accepted).encode())
    raise Problem("unsupported-media-type", detail, headers=[accept])


@lru_cache(_KEPT)
def _parsed(value: bytes) -> str | None:
    """Return the media type, None where a parameter other than a text's charset=utf-8 follows."""
    media, *parameters = (p.strip(_OWS).lower() for p in value.decode("latin-1").split(";"))
    for parameter in filter(None, parameters):
        name, _, content = parameter.partition("=")
        if media not in _TEXTS or name != "charset" or content.strip('"') != "utf-8":
            return None
    return media


def answer_media(accept: bytes | None, offered: tuple[str, ...]) -> str:
    """Return the media type to answer in: the one preferred, the first offered among equals.

    Raises
    ------
    Problem
        Accept leaves none of those offered.
    """
    if accept is None or accept == b"*/*":
        return offered[0]
    chosen = _chosen(accept, offered) if len(accept) <= _LONGEST else None
    if chosen is None:
        detail = f"Accept leaves none of the media types here; accept {' or '.join(offered)}."
        raise Problem("not-acceptable", detail)
    return chosen


@lru_cache(_KEPT)
def _chosen(accept: bytes, offered: tuple[str, ...]) -> str | None:
    ranges = [_range(part) for part in accept.decode("latin-1").split(",") if part.strip(_OWS)]
    if not ranges:
        return offered[0]
    weights = {media: _weight(media, [r for r in ranges if r is not None]) for media in offered}
    best = max(offered, key=lambda media: weights[media])
    return best if weights[best] > 0 else None


def _range(part: str) -> tuple[str, float] | None:
    """Return a media range and its weight, None where it is malformed or too narrow for us."""
    media, *parameters = (p.strip(_OWS).lower() for p in part.split(";"))
    weight = 1.0
    for parameter in filter(None, parameters):
        name, _, content = parameter.partition("=")
        if name.strip(_OWS) == "q":
            number = _quality(content.strip(_OWS))
            if number is None:
                return None
            weight = number
            break
        if (name, content.strip('"')) != ("charset", "utf-8"):
            return None
    return media, weight


def _quality(text: str) -> float | None:
    whole, _, decimals = text.partition(".")
    if whole not in ("0", "1") or len(decimals) > 3 or (decimals and not decimals.isdigit()):
        return None
    return min(float(text), 1.0)


def _weight(media: str, ranges: Sequence[tuple[str, float]]) -> float:
    """Return the weight of the most specific range that covers the media type, 0 for none."""
    kind = media.partition("/")[0]
    for covering in (media, f"{kind}/*", "*/*"):
        weights = [weight for name, weight in ranges if name == covering]
        if weights:
            return max(weights)
    return 0.0
