"""The log: one JSON object a line, no line below the level, the server's own lines too."""

from __future__ import annotations

import io
import json
import logging

import pytest

from service.http.log import ServerLog, open_log


def _written(stream: io.BytesIO) -> list[str]:
    return [json.loads(line)["event"] for line in stream.getvalue().splitlines()]


@pytest.mark.parametrize(
    "level, events",
    [("debug", ["low", "high"]), ("warning", ["high"]), ("error", [])],
)
def test_nothing_below_the_level_is_written(level: str, events: list[str]) -> None:
    stream = io.BytesIO()
    log = open_log(level, stream)
    log.debug("low")
    log.warning("high")
    assert _written(stream) == events


def test_a_line_of_the_web_server_becomes_a_line_of_ours() -> None:
    stream = io.BytesIO()
    record = logging.LogRecord("uvicorn.error", logging.ERROR, "", 0, "went %s", ("wrong",), None)
    ServerLog(open_log("info", stream)).emit(record)
    line = json.loads(stream.getvalue())
    assert (line["event"], line["level"], line["logger"]) == (
        "went wrong",
        "error",
        "uvicorn.error",
    )
