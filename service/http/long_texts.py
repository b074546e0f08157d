"""A JSON body that wraps one long document: everything beside its texts is bounded.

Such a body may be tens of MiB, and JSON of that length could make a hundred million values, which
no time and no memory is meant for. One look over its texts says how much of it is anything else.
"""

from __future__ import annotations

import re

from service.http.problem import Problem

#: Bytes beside the texts, and texts, that a few fields need at most.
_MOST_BESIDE = 16 * 1024
_MOST_TEXTS = 1_000
#: A text, closed or not: what is looked at once is never looked at again.
_TEXT = re.compile(rb'"[^"\\]*+(?:\\.[^"\\]*+)*+"?', re.S)


def refuse_structure(body: bytes) -> None:
    """Let a body pass that is little more than texts.

    Raises
    ------
    Problem
        It is longer than the contract needs beside its texts.
    """
    if len(body) <= _MOST_BESIDE:
        return
    inside = 0
    for count, text in enumerate(_TEXT.finditer(body)):
        inside += text.end() - text.start()
        if count >= _MOST_TEXTS:
            break
    if len(body) - inside > _MOST_BESIDE:
        detail = (
            f"Beside its texts the body may have at most {_MOST_BESIDE:,} bytes, in "
            f"{_MOST_TEXTS:,} texts; send the document as one text."
        )
        raise Problem("too-large", detail)
