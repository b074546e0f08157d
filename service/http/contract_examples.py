"""The examples of an operation, read from the contract's example folder."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any, NamedTuple

from service.check import JSON, Operation

REQUEST = ".request.json"
RESPONSE = ".response.json"
#: What a raw request ends in -> the media type it is sent as.
RAW_REQUESTS = {".request.xml": "application/xml", ".request.csv": "text/csv"}


class Example(NamedTuple):
    """One request and the answer it has: JSON values, or a raw document as its text."""

    name: str
    summary: str
    request: Any
    response: Any
    media: str = JSON

    @property
    def is_raw(self) -> bool:
        """Return whether the request is a raw document."""
        return self.media != JSON

    @property
    def body(self) -> bytes:
        """Return the request as it is sent."""
        text = self.request if self.is_raw else json.dumps(self.request, ensure_ascii=False)
        return str(text).encode()


def request_files(folder: Path) -> list[tuple[str, Path, str]]:
    """Return name, file and media type of every request of a folder, sorted by name."""
    endings = {REQUEST: JSON, **RAW_REQUESTS}
    return sorted(
        (path.name.removesuffix(ending), path, media)
        for ending, media in endings.items()
        for path in folder.glob("*" + ending)
    )


def examples_of(operation: Operation, root: Path) -> list[Example]:
    """Return the examples of the operation, sorted by name.

    Raises
    ------
    ValueError
        A file has no summary in the operation, or a summary has no file.
    """
    folder = root / operation.id
    found = request_files(folder)
    named = [name for name, _, _ in found]
    if sorted(operation.examples) != named:
        raise ValueError(
            f"{operation.id}: the folder has the examples {named}, "
            f"the operation names {sorted(operation.examples)}"
        )
    return [
        Example(
            name,
            operation.examples[name],
            _request(path, media),
            json.loads((folder / (name + RESPONSE)).read_text("utf-8")),
            media,
        )
        for name, path, media in found
    ]


def _request(path: Path, media: str) -> Any:
    text = path.read_bytes().decode()
    return json.loads(text) if media == JSON else text
