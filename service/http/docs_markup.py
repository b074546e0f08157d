"""Text of the contract as HTML: escaped, with the few marks that the contract uses."""

from __future__ import annotations

import html
import re

_CODE = re.compile(r"`([^`]+)`")
_STRONG = re.compile(r"\*\*([^*]+)\*\*")


def escape(text: str) -> str:
    """Return the text with every character that HTML would read as markup escaped."""
    return html.escape(text, quote=True)


def inline(text: str) -> str:
    """Return one paragraph's text: code in backticks, strong words in double stars."""
    marked = _CODE.sub(r"<code>\1</code>", escape(text))
    return _STRONG.sub(r"<strong>\1</strong>", marked)


def paragraphs(text: str) -> str:
    """Return the text as paragraphs, which blank lines part."""
    return "\n".join(f"<p>{inline(part)}</p>" for part in text.split("\n\n"))
