"""buildah and podman on one store of their own, so that nothing of the machine's is touched."""

from __future__ import annotations

import subprocess
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from tests.container.host import NotProven

#: Fixed, so that two builds of one tree give one image.
TIMESTAMP = "1700000000"
#: Short, since podman takes at most 50 characters, and the same in every run on one store.
RUN_FOLDER = Path("/run/backup-power-check")
#: Settings of this machine that pip needs to reach its index; mounted while building, in no layer.
BUILD_MOUNTS = ("/etc/pip.conf", "/etc/ssl/certs")


@dataclass(frozen=True)
class Engine:
    """Commands of buildah and podman on the store in `folder`."""

    folder: Path
    driver: str

    @property
    def store(self) -> list[str]:
        """Return the options that both tools take for their store."""
        root, run = self.folder / self.driver, RUN_FOLDER / self.driver
        return ["--root", str(root), "--runroot", str(run), "--storage-driver", self.driver]

    def buildah(
        self, *arguments: str | Path, check: bool = True
    ) -> subprocess.CompletedProcess[str]:
        """Run one buildah command."""
        return _run(["buildah", *self.store, *map(str, arguments)], check=check)

    def podman(
        self, *arguments: str | Path, check: bool = True, text: str | None = None
    ) -> subprocess.CompletedProcess[str]:
        """Run one podman command, with `text` on its standard input."""
        flags = ["--cgroup-manager", "cgroupfs", "--events-backend", "file", "--log-level", "error"]
        return _run(["podman", *self.store, *flags, *map(str, arguments)], check=check, text=text)

    def has_image(self, name: str) -> bool:
        """Say whether the store holds an image."""
        return self.podman("image", "exists", name, check=False).returncode == 0

    def build(self, context: Path, image: str, revision: str) -> subprocess.CompletedProcess[str]:
        """Build the Dockerfile of `context` from nothing cached, with no image pulled."""
        mounts = [f"--volume={path}:{path}:ro" for path in BUILD_MOUNTS if Path(path).exists()]
        return self.buildah(
            "build", "--isolation", "chroot", "--network", "host", "--pull-never", "--no-cache",
            "--format", "oci", "--timestamp", TIMESTAMP, *mounts,
            "--build-arg", f"REVISION={revision}",
            "--tag", image, "--file", context / "Dockerfile", context,
            check=False,
        )  # fmt: skip


def open_engine(folder: Path) -> Engine:
    """Return an engine on the first storage driver that works here."""
    folder.mkdir(parents=True, exist_ok=True)
    reasons = []
    for driver in ("overlay", "vfs"):
        engine = Engine(folder, driver)
        tried = engine.buildah("from", "scratch", check=False)
        if tried.returncode == 0:
            engine.buildah("rm", tried.stdout.strip())
            return engine
        reasons.append(f"{driver}: {tried.stderr.strip()[-200:]}")
    raise NotProven("buildah can keep no image here; " + "; ".join(reasons))


def _run(
    command: Sequence[str], *, check: bool, text: str | None = None
) -> subprocess.CompletedProcess[str]:
    done = subprocess.run(
        command, input=text or "", capture_output=True, text=True, timeout=600, check=False
    )
    if check and done.returncode != 0:
        shown = " ".join([command[0], *command[7:]])
        raise RuntimeError(
            f"{shown} ... failed with {done.returncode}: {done.stderr.strip()[-2000:]}"
        )
    return done
