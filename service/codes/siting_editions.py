"""In which editions a rule of where a unit may hang is looked up, and in which order."""

from __future__ import annotations

from functools import lru_cache
from typing import Final

from service.codes.edition import code_editions

#: What does not hang on the residential code.
DEFAULT: Final = "default"
#: The model code that stands in where the edition of a place is unknown.
MODEL_CODE: Final = "irc-2024"


@lru_cache(maxsize=64)
def edition_chain(edition: str | None) -> tuple[str, ...]:
    """Return the editions in which a rule is looked up, the first that has it holding.

    Parameters
    ----------
    edition : str or None
        Id of table code_editions; None, or an id that is not there: unknown.

    Returns
    -------
    tuple of str
        The edition itself, the residential code that it amends, and the default; where the edition
        is unknown, the model code and the default.

    Notes
    -----
    Source: table code_editions, column residential.
    """
    known = code_editions().get(edition or "")
    if known is None:
        return MODEL_CODE, DEFAULT
    return known.id, known.residential, DEFAULT
