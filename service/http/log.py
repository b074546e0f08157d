"""The log: one JSON line an event on standard output; never a body, never a raw query."""

from __future__ import annotations

import logging
import sys
from collections.abc import MutableMapping
from typing import Any, BinaryIO

import msgspec
import structlog

from service import __version__

_LEVELS = {"debug": 10, "info": 20, "warning": 30, "error": 40}
_encode = msgspec.json.Encoder(enc_hook=str).encode


def _render(_logger: Any, _method: str, event: MutableMapping[str, Any]) -> bytes:
    return _encode(event)


def _add_version(
    _logger: Any, _method: str, event: MutableMapping[str, Any]
) -> MutableMapping[str, Any]:
    event["service.version"] = __version__
    return event


def open_log(level: str, stream: BinaryIO | None = None) -> Any:
    """Return the logger of the service.

    Parameters
    ----------
    level : str
        Lowest level written.
    stream : binary file, optional
        Where lines go; standard output by default.
    """
    return structlog.wrap_logger(
        structlog.BytesLogger(stream or sys.stdout.buffer),
        processors=[
            structlog.processors.add_log_level,
            structlog.processors.TimeStamper(fmt="iso", utc=True),
            structlog.processors.format_exc_info,
            _add_version,
            _render,
        ],
        wrapper_class=structlog.make_filtering_bound_logger(_LEVELS[level]),
        cache_logger_on_first_use=True,
    ).bind()


class ServerLog(logging.Handler):
    """Hands the lines of the web server and of asyncio over to our log."""

    def __init__(self, log: Any) -> None:
        super().__init__()
        self._log = log

    def emit(self, record: logging.LogRecord) -> None:
        """Write one record as an event of ours."""
        told = {"logger": record.name, "exc_info": record.exc_info}
        self._log.log(record.levelno, record.getMessage(), **told)

    @classmethod
    def attach(cls, log: Any) -> None:
        """Send everything that the standard library's loggers carry to our log."""
        root = logging.getLogger()
        root.handlers[:] = [cls(log)]
        root.setLevel(logging.WARNING)
