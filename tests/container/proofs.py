"""What must hold of the running container, each proof raising `AssertionError` when it does not."""

from __future__ import annotations

import http.client
import json
import socket
import time
from contextlib import closing
from pathlib import Path

from tests.container.engine import Engine

#: Runs inside the container, as the service's own user.
INSIDE = """
import os

status = dict(line.split(":", 1) for line in open("/proc/self/status"))
assert (os.getuid(), os.getgid()) == (10001, 10001), (os.getuid(), os.getgid())
for held in ("CapInh", "CapPrm", "CapEff", "CapBnd", "CapAmb"):
    assert int(status[held], 16) == 0, (held, status[held])
assert status["NoNewPrivs"].strip() == "1", status["NoNewPrivs"]
for path in ("/written", "/etc/written", "/opt/venv/written"):
    try:
        open(path, "w")
    except OSError:
        continue
    raise AssertionError(path + " can be written")
print("ok")
"""


#: The one writable folder, as the manifests mount it.
SCRATCH = "/tmp:rw,size=16m,mode=1777,noexec,nosuid,nodev"  # noqa: S108 - inside the container


def free_port() -> int:
    """Return a port of the loopback address that nothing listens on."""
    with closing(socket.socket()) as listener:
        listener.bind(("127.0.0.1", 0))
        return int(listener.getsockname()[1])


def start(engine: Engine, image: str, name: str, port: int) -> None:
    """Start the image as the cluster's manifests do: read-only, without a capability, limited."""
    engine.podman(
        "run", "--detach", "--name", name, "--runtime", "runc", "--network", "host",
        "--ulimit", "nofile=4096:4096", "--ulimit", "nproc=2048:2048",
        "--memory", "384m", "--cpus", "1", "--pids-limit", "128",
        "--read-only", "--tmpfs", SCRATCH,
        "--cap-drop", "all", "--security-opt", "no-new-privileges",
        image, "--host", "127.0.0.1", "--port", str(port),
    )  # fmt: skip


def is_alive(engine: Engine, name: str, port: int, seconds: float = 20) -> None:
    """Prove that /livez answers 200 within `seconds` of the start."""
    deadline = time.monotonic() + seconds
    while time.monotonic() < deadline:
        try:
            status, _ = request(port, "GET", "/livez")
        except OSError:
            time.sleep(0.1)
            continue
        assert status == 200, f"/livez answered {status}"
        return
    logs = engine.podman("logs", name, check=False)
    raise AssertionError(f"no answer on /livez:\n{logs.stdout}{logs.stderr}")


def calculates(port: int, examples: Path) -> None:
    """Prove that the published example is answered as published."""
    asked = min((examples / "outage-runtime").glob("*.request.json"))
    expected = asked.with_name(asked.name.replace(".request.", ".response."))
    status, answer = request(port, "POST", "/v1/outage-runtime", asked.read_bytes())
    assert status == 200, f"{asked.name} was answered {status}: {answer[:500]!r}"
    assert json.loads(answer) == json.loads(expected.read_bytes()), f"{asked.name}: another answer"


def is_confined(engine: Engine, name: str) -> None:
    """Prove the numeric user, the read-only root and the absence of every capability."""
    seen = engine.podman("exec", "--interactive", name, "python", "-", text=INSIDE)
    assert seen.stdout.strip() == "ok", seen.stdout


def stops_cleanly(engine: Engine, name: str) -> None:
    """Prove that SIGTERM ends the service with code 0 in time, and that it logged no traceback."""
    engine.podman("stop", "--time", "30", name)
    code = engine.podman("inspect", name, "--format", "{{.State.ExitCode}}").stdout.strip()
    logs = engine.podman("logs", name, check=False)
    assert code == "0", f"exit code {code}:\n{logs.stdout}{logs.stderr}"
    assert "Traceback" not in logs.stdout + logs.stderr, logs.stdout + logs.stderr


def request(port: int, method: str, path: str, body: bytes | None = None) -> tuple[int, bytes]:
    """Return status and body of one request to the container."""
    headers = {"Content-Type": "application/json"} if body is not None else {}
    with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=10)) as connection:
        connection.request(method, path, body, headers)
        response = connection.getresponse()
        return response.status, response.read()
