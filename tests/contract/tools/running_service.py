"""The service as a process of its own, as its users meet it."""

from __future__ import annotations

import signal
import socket
import subprocess
import sys
import tempfile
import time
import urllib.error
import urllib.request
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path
from typing import IO

REPOSITORY = Path(__file__).resolve().parents[3]
#: The service drains for 20 s at most before it ends.
SECONDS_TO_STOP = 30


@contextmanager
def running_service(seconds: float = 30) -> Iterator[str]:
    """Yield the address of a server that answers /livez; stop it and look at how it ended.

    Raises
    ------
    RuntimeError
        The server did not start, ended with another code than 0, or logged a traceback.
    """
    with tempfile.TemporaryFile("w+") as log:
        port = _free_port()
        command = [sys.executable, "-m", "service", "serve", "--host", "127.0.0.1"]
        process = subprocess.Popen(
            [*command, "--port", str(port)],
            cwd=REPOSITORY,
            stdin=subprocess.DEVNULL,
            stdout=log,
            stderr=log,
        )
        address = f"http://127.0.0.1:{port}"
        try:
            _wait_until_alive(process, address, seconds, log)
            yield address
        finally:
            process.send_signal(signal.SIGTERM)
            try:
                process.wait(SECONDS_TO_STOP)
            except subprocess.TimeoutExpired:
                process.kill()
                process.wait()
        written = _text(log)
        if process.returncode != 0 or "Traceback" in written:
            raise RuntimeError(f"the server ended with {process.returncode}:\n{_worst(written)}")


def _wait_until_alive(
    process: subprocess.Popen[bytes], address: str, seconds: float, log: IO[str]
) -> None:
    deadline = time.monotonic() + seconds
    while process.poll() is None and time.monotonic() < deadline:
        try:
            with urllib.request.urlopen(f"{address}/livez", timeout=5) as answer:
                if answer.status == 200:
                    return
        except urllib.error.URLError:
            time.sleep(0.05)
    raise RuntimeError(f"the server did not start:\n{_text(log)[-4000:]}")


def _free_port() -> int:
    with closing(socket.socket()) as listener:
        listener.bind(("127.0.0.1", 0))
        return int(listener.getsockname()[1])


def _worst(written: str) -> str:
    """Return the ends of the last lines that tell of a fault, or else the last lines."""
    lines = written.splitlines()
    faults = [f"... {line[-1500:]}" for line in lines if "Traceback" in line]
    return "\n".join(faults[-3:] or lines[-20:])


def _text(log: IO[str]) -> str:
    log.seek(0)
    return log.read()
