"""What the machine must offer before anything can be proven: root, tools, a mirror, a Python."""

from __future__ import annotations

import os
import re
import shutil
import subprocess
from pathlib import Path

TOOLS = {
    "buildah": "buildah",
    "conmon": "conmon",
    "debootstrap": "debootstrap",
    "podman": "podman",
    "runc": "runc",
}
#: Debian release of the official image that the Dockerfile names.
SUITE = "bookworm"
PYTHON = "python3.12"


class NotProven(Exception):
    """The machine lacks something; the image was neither proven good nor found bad."""


def output(*command: str | Path, seconds: float = 300) -> str:
    """Return what a command prints; raise `subprocess.CalledProcessError` when it fails."""
    result = subprocess.run(
        command,
        check=True,
        capture_output=True,
        text=True,
        timeout=seconds,
        stdin=subprocess.DEVNULL,
    )
    return result.stdout


def require_root() -> None:
    """Refuse to start as anyone but root: file systems are made and namespaces entered."""
    if os.geteuid() != 0:
        raise NotProven("root is needed to make a file system and to start a container")


def install_tools() -> None:
    """Install from Debian's packages whichever of the tools is missing."""
    missing = [package for tool, package in TOOLS.items() if shutil.which(tool) is None]
    if not missing:
        return
    if shutil.which("apt-get") is None:
        raise NotProven(f"no apt-get to install {', '.join(missing)} with")
    environment = os.environ | {"DEBIAN_FRONTEND": "noninteractive"}
    install = ["apt-get", "install", "-y", "-q", "--no-install-recommends", *missing]
    for command in (["apt-get", "update", "-q"], install):
        done = subprocess.run(
            command, env=environment, capture_output=True, text=True, stdin=subprocess.DEVNULL
        )
        if done.returncode != 0:
            raise NotProven(f"'{' '.join(command)}' failed: {done.stderr.strip()[-300:]}")


def debian_mirror() -> str:
    """Return the address that apt itself takes the release's main packages from."""
    listing = output(
        "apt-get", "indextargets", "--format", "$(REPO_URI) $(RELEASE) $(COMPONENT)",
        "Created-By: Packages",
    )  # fmt: skip
    for line in listing.splitlines():
        match line.split():
            case [address, release, "main"] if release == SUITE:
                return address
    raise NotProven(f"apt knows no mirror of Debian {SUITE}")


def python_home() -> Path:
    """Return the prefix of a Python of the version that the Dockerfile names."""
    pyenv = Path(os.environ.get("PYENV_ROOT", Path.home() / ".pyenv")) / "versions"
    installed = sorted(
        pyenv.glob(f"{PYTHON.removeprefix('python')}.*/bin/{PYTHON}"),
        key=lambda path: int(re.sub(r"\D", "", path.parts[-3].rpartition(".")[2]) or 0),
    )
    candidates: list[str | Path] = [PYTHON, *reversed(installed)]
    for candidate in candidates:
        try:
            prefix = output(candidate, "-c", "import sys; print(sys.base_prefix)").strip()
        except (OSError, subprocess.CalledProcessError):
            continue
        if prefix != "/usr":  # the distribution's own prefix cannot be copied as a whole
            return Path(prefix)
    raise NotProven(f"no {PYTHON} with a prefix of its own to build the base from")


def cache_folder() -> Path:
    """Return where the base may be kept from one run to the next."""
    root = Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
    return root / "backup-power-design-service" / "container"
