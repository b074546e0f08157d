"""The text of a document: decoded from raw bytes, and which of the two forms it has."""

from __future__ import annotations

import codecs
import re

from service.load_profile.refusal import refused

_MARKS = (
    (codecs.BOM_UTF8, "utf-8"),
    (codecs.BOM_UTF16_LE, "utf-16-le"),
    (codecs.BOM_UTF16_BE, "utf-16-be"),
)
_DECLARED = re.compile(rb"""^\s*<\?xml[^>]{0,80}encoding\s*=\s*["']([A-Za-z0-9._-]{1,30})["']""")
_KNOWN = {"utf-8": "utf-8", "us-ascii": "utf-8", "iso-8859-1": "latin-1", "windows-1252": "cp1252"}
#: Beyond a first angle bracket, what an XML document may begin with.
_XML = re.compile(r"^\s*<[?!A-Za-z_]")


def text_of(body: bytes) -> str:
    """Return the text of raw bytes: by their byte order mark, by the XML declaration, else UTF-8.

    Bytes that are no UTF-8 in a document without mark and declaration are read as Windows-1252,
    in which spreadsheet programs write a non-breaking space.

    Raises
    ------
    Refused
        The bytes are no text in any of these.
    """
    for mark, encoding in _MARKS:
        if body.startswith(mark):
            return _decoded(body[len(mark) :], encoding)
    declared = _DECLARED.match(body[:200])
    if declared:
        name = declared[1].decode("ascii").lower()
        if name not in _KNOWN:
            raise refused("its XML declaration names an encoding that is not read; send UTF-8")
        return _decoded(body, _KNOWN[name])
    try:
        return body.decode("utf-8")
    except UnicodeDecodeError:
        return _decoded(body, "cp1252")


def _decoded(body: bytes, encoding: str) -> str:
    try:
        return body.decode(encoding)
    except UnicodeDecodeError as error:
        raise refused(f"byte {error.start} is no {encoding}; send the document in UTF-8") from None


def plain_text(document: str) -> str:
    """Return the document without its byte order mark.

    Raises
    ------
    Refused
        It is empty, or holds a character that no text has.
    """
    text = document.removeprefix("\ufeff")
    if not text or text.isspace():
        raise refused("it is empty; send the whole export of the meter data, XML or CSV")
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        raise refused(f"line {line} holds a NUL character; send the export as the utility made it")
    return text


def is_xml(text: str) -> bool:
    """Return whether the text is meant to be XML."""
    return _XML.match(text[:1000]) is not None
