"""What the benchmarks share: a server process, its CPU time and memory, a closed-loop client."""

from __future__ import annotations

import contextlib
import json
import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parents[2]
_START = 20.0


def say(line: str) -> None:
    """Print one line of a benchmark's result."""
    sys.stdout.write(line + "\n")
    sys.stdout.flush()


class Served(NamedTuple):
    """A server process on a loopback port, and how long it took to answer /readyz [s]."""

    process: subprocess.Popen[bytes]
    port: int
    start_seconds: float
    log: Path

    def cpu_seconds(self) -> float:
        """Return the CPU time that all its threads have had [s]."""
        tasks = Path(f"/proc/{self.process.pid}/task")
        times = (int((task / "schedstat").read_text().split()[0]) for task in tasks.iterdir())
        return sum(times) / 1e9

    def resident_mib(self) -> float:
        """Return its resident memory [MiB]."""
        pages = int(Path(f"/proc/{self.process.pid}/statm").read_text().split()[1])
        return pages * os.sysconf("SC_PAGE_SIZE") / 2**20


@contextlib.contextmanager
def served(module: str, *arguments: str, log: Path) -> Iterator[Served]:
    """Run ``python -m module arguments --port N`` until the block ends.

    Bytecode is kept beside the log, so that a second start in the same folder finds it compiled,
    as an installed service does.
    """
    with socket.create_server(("127.0.0.1", 0)) as free:
        port = free.getsockname()[1]
    begun = time.perf_counter()
    with log.open("wb") as output:
        process = subprocess.Popen(
            [sys.executable, "-m", module, *arguments, "--port", str(port)],
            cwd=ROOT,
            stdout=output,
            stderr=subprocess.STDOUT,
            env=_environment(log.parent / "bytecode"),
        )
    try:
        _await_ready(process, port, log)
        yield Served(process, port, time.perf_counter() - begun, log)
    finally:
        process.send_signal(signal.SIGTERM)
        try:
            process.wait(30)
        except subprocess.TimeoutExpired:
            process.kill()
            process.wait()


def _environment(bytecode: Path) -> dict[str, str]:
    kept = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPYCACHEPREFIX": str(bytecode)}


def _await_ready(process: subprocess.Popen[bytes], port: int, log: Path) -> None:
    end = time.perf_counter() + _START
    while time.perf_counter() < end:
        if process.poll() is not None:
            break
        with contextlib.suppress(OSError), Client(port) as client:
            if client.get("/readyz").status == 200:
                return
        time.sleep(0.005)
    raise RuntimeError(f"the server did not start:\n{log.read_text()}")


class Got(NamedTuple):
    """A response: status, head, body."""

    status: int
    head: bytes
    body: bytes


class Client:
    """One keep-alive connection that sends a request when the last was answered."""

    def __init__(self, port: int, timeout: float = 10.0) -> None:
        self._socket = socket.create_connection(("127.0.0.1", port), timeout)
        self._socket.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)

    def __enter__(self) -> Client:
        return self

    def __exit__(self, *_: object) -> None:
        self._socket.close()

    def get(self, path: str) -> Got:
        """Return what a GET of the path is answered."""
        return self.send(f"GET {path} HTTP/1.1\r\nHost: loopback\r\n\r\n".encode())

    def send(self, request: bytes) -> Got:
        """Return what the request is answered."""
        self._socket.sendall(request)
        received = b""
        while b"\r\n\r\n" not in received:
            received += self._more()
        head, _, body = received.partition(b"\r\n\r\n")
        length = 0 if request.startswith(b"HEAD ") else _length(head)
        while len(body) < length:
            body += self._more()
        return Got(int(head[9:12]), head, body)

    def _more(self) -> bytes:
        part = self._socket.recv(65536)
        if not part:
            raise ConnectionError("the server closed the connection")
        return part


def _length(head: bytes) -> int:
    for line in head.lower().split(b"\r\n"):
        if line.startswith(b"content-length:"):
            return int(line.partition(b":")[2])
    return 0


def post(path: str, body: Mapping[str, Any] | bytes, media: str = "application/json") -> bytes:
    """Return the bytes of a POST."""
    content = body if isinstance(body, bytes) else json.dumps(body).encode()
    head = (
        f"POST {path} HTTP/1.1\r\nHost: loopback\r\nContent-Type: {media}\r\n"
        f"Accept: application/json\r\nContent-Length: {len(content)}\r\n\r\n"
    )
    return head.encode() + content
