"""Dated rules of codes, standards and permit authorities, and which of them govern a permit."""

from service.codes.edition import Edition, code_editions
from service.codes.release import default_permit_date
from service.codes.resolver import Resolution, editions
from service.codes.standby_rule import standby_rule

__all__ = [
    "Edition",
    "Resolution",
    "code_editions",
    "default_permit_date",
    "editions",
    "standby_rule",
]
