"""The container check: one line a step, its seconds in front; see --help."""

from __future__ import annotations

import argparse
import os
import shutil
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from tests.container import host, proofs, stand_in_base
from tests.container.engine import Engine, open_engine

REPOSITORY = Path(__file__).resolve().parents[2]
IMAGE = "localhost/backup-power-design-service:check"


def main() -> int:
    """Run the check and return the exit code: 1 only if the image was found bad."""
    parser = argparse.ArgumentParser(prog="check_container", description=__doc__)
    parser.add_argument("context", nargs="?", type=Path, default=REPOSITORY, help="folder to build")
    parser.add_argument("--fresh-base", action="store_true", help="make the base anew")
    options = parser.parse_args()
    try:
        _check(options.context.resolve(), fresh=options.fresh_base)
    except host.NotProven as reason:
        print(f"NOT PROVEN: {reason}")
        return 0
    except (AssertionError, RuntimeError) as error:
        print(f"FAILED: {error}", file=sys.stderr)
        return 1
    print(
        "container: built twice alike, started, confined, answered and stopped; the base was a "
        f"stand-in for {stand_in_base.IMAGE} (debootstrap and a local CPython), not the official "
        "image"
    )
    return 0


def _check(context: Path, *, fresh: bool) -> None:
    with _step("root and tools"):
        host.require_root()
        host.install_tools()
        home = host.python_home()
    folder = host.cache_folder() / home.name
    if fresh:
        shutil.rmtree(folder, ignore_errors=True)
    engine = open_engine(folder)
    with _step(f"stand-in for {stand_in_base.IMAGE}"):
        _make_base(engine, home)
    with _step("build"):
        first = _build(engine, context)
    with _step("build again, the same image to the last bit"):
        second = _build(engine, context)
        assert first == second, f"two builds of one tree gave {first} and {second}"
    name, port = f"container-check-{os.getpid()}", proofs.free_port()
    try:
        with _step("start, /livez answers"):
            proofs.start(engine, IMAGE, name, port)
            proofs.is_alive(engine, name, port)
        with _step("published example answered as published"):
            proofs.calculates(port, context / "openapi" / "examples")
        with _step("user 10001, read-only root, no capabilities"):
            proofs.is_confined(engine, name)
        with _step("SIGTERM, exit code 0"):
            proofs.stops_cleanly(engine, name)
    finally:
        engine.podman("rm", "--force", name, check=False)
        engine.podman("rmi", "--force", IMAGE, check=False)


def _build(engine: Engine, context: Path) -> str:
    """Build the image and return its id."""
    built = engine.build(context, IMAGE, os.environ.get("REVISION", "check"))
    if built.returncode != 0:
        raise RuntimeError(f"the build failed:\n{(built.stdout + built.stderr)[-4000:]}")
    return engine.podman("image", "inspect", IMAGE, "--format", "{{.Id}}").stdout.strip()


def _make_base(engine: Engine, home: Path) -> None:
    if engine.has_image(stand_in_base.IMAGE):
        return
    with tempfile.TemporaryDirectory() as scratch:
        root, archive = Path(scratch) / "root", Path(scratch) / "root.tar"
        root.mkdir()
        stand_in_base.write_file_system(root, home)
        host.output("tar", "-C", root, "-cf", archive, ".")
        path = "PATH=/usr/local/bin:/usr/local/sbin:/usr/sbin:/usr/bin:/sbin:/bin"
        engine.podman("import", "--change", f"ENV {path}", archive, stand_in_base.IMAGE)


@contextmanager
def _step(title: str) -> Iterator[None]:
    started = time.monotonic()
    yield
    print(f"{time.monotonic() - started:6.1f} s  {title}", flush=True)


if __name__ == "__main__":
    sys.exit(main())
