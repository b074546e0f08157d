"""Settings from the environment: every value is checked at start and refused clearly."""

from __future__ import annotations

import os
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from typing import Any, TypeVar

PREFIX = "BACKUP_POWER_"
T = TypeVar("T")


class SettingError(ValueError):
    """An environment variable has a value that the service cannot use."""


def _whole(low: int, high: int) -> Callable[[str], int]:
    def read(raw: str) -> int:
        if not raw.isascii() or not raw.isdigit() or not low <= int(raw) <= high:
            raise ValueError(f"a whole number from {low} to {high}")
        return int(raw)

    return read


def _word(*words: str) -> Callable[[str], str]:
    def read(raw: str) -> str:
        if raw not in words:
            raise ValueError("one of " + ", ".join(words))
        return raw

    return read


def _host(raw: str) -> str:
    if not raw or len(raw) > 253 or any(c.isspace() for c in raw):
        raise ValueError("a host name or address to listen on, such as 127.0.0.1")
    return raw


@dataclass(frozen=True, slots=True)
class Settings:
    """Everything that an operator may set.

    Attributes
    ----------
    host, port : str, int
        Where to listen; port 0 takes a free one.
    log_level : str
        Lowest level written: debug, info, warning or error.
    slow_requests : int
        Requests predicted above 20 ms that may run or wait at once; more are answered 503.
    drain_seconds : int
        Time that running requests get after a stop signal [s].
    """

    host: str = "127.0.0.1"
    port: int = 8080
    log_level: str = "info"
    slow_requests: int = 8
    drain_seconds: int = 20


_READERS: dict[str, Callable[[str], Any]] = {
    "host": _host,
    "port": _whole(0, 65_535),
    "log_level": _word("debug", "info", "warning", "error"),
    "slow_requests": _whole(1, 1000),
    "drain_seconds": _whole(0, 600),
}


def from_environment(environment: Mapping[str, str] | None = None) -> Settings:
    """Return the settings that the environment states, defaults for the rest.

    Raises
    ------
    SettingError
        A variable of ours has an unusable value, or a name that nothing reads.
    """
    source = os.environ if environment is None else environment
    known = {PREFIX + field.name.upper(): field.name for field in fields(Settings)}
    values: dict[str, Any] = {}
    for variable, raw in source.items():
        if not variable.startswith(PREFIX):
            continue
        name = known.get(variable)
        if name is None:
            raise SettingError(f"{variable} is not a setting; there are " + ", ".join(known))
        try:
            values[name] = _READERS[name](raw)
        except ValueError as error:
            raise SettingError(f"{variable}={raw!r} is refused: give {error}") from None
    return Settings(**values)
