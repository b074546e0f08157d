"""Refusals of a document: they name a place in it and never quote it."""

from __future__ import annotations

from service.check import FieldError, Refused
from service.load_profile.readings import MOST_READINGS

POINTER = "/document"


def refused(detail: str) -> Refused:
    """Return the refusal of the document."""
    return Refused([FieldError(POINTER, detail)])


def too_many_readings() -> Refused:
    """Return the refusal of a document with more readings than one may hold."""
    return refused(
        f"send at most {MOST_READINGS:,} readings, three years of quarter hours; "
        "export fewer months, or one meter alone"
    )
