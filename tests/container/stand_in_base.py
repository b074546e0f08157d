"""A stand-in for the official base image: Debian by debootstrap, CPython copied from this machine.

It has the same release of Debian, the same minor version of Python at the same prefix, and pip; it
is not the official image, and whoever quotes a result of this check says so.
"""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

from tests.container.host import PYTHON, SUITE, NotProven, debian_mirror, output

IMAGE = "docker.io/library/python:3.12-slim-bookworm"
#: Parts of a Python prefix that the official slim image lacks as well, or that are this machine's.
LEFT_OUT = ("site-packages", "test", "tests", "__pycache__", "config-*", "idlelib", "tkinter")
IMPORTS = "import bz2, ctypes, lzma, sqlite3, ssl, uuid, zlib"


def write_file_system(root: Path, home: Path) -> None:
    """Fill the empty folder `root` with Debian and the Python whose prefix is `home`."""
    packages = sorted({"ca-certificates", *_packages_needed_by(home)})
    try:
        output(
            "debootstrap", "--variant=minbase", f"--include={','.join(packages)}",
            SUITE, root, debian_mirror(),
        )  # fmt: skip
    except subprocess.CalledProcessError as error:
        last = (error.stdout or error.stderr).strip()[-300:]
        raise NotProven(f"debootstrap could not make a Debian {SUITE}: {last}") from None
    for archive in (root / "var/cache/apt/archives").glob("*.deb"):
        archive.unlink()
    shutil.rmtree(root / "var/lib/apt/lists")
    _copy_python(home, root / "usr/local")
    output("chroot", root, "ldconfig")
    output("chroot", root, f"/usr/local/bin/{PYTHON}", "-m", "ensurepip")
    output("chroot", root, f"/usr/local/bin/{PYTHON}", "-c", IMPORTS)


def _copy_python(home: Path, target: Path) -> None:
    ignore = shutil.ignore_patterns(*LEFT_OUT)
    shutil.copytree(home / "lib" / PYTHON, target / "lib" / PYTHON, ignore=ignore, symlinks=True)
    (target / "lib" / PYTHON / "site-packages").mkdir()
    for library in (home / "lib").glob("libpython3*.so*"):
        shutil.copy2(library, target / "lib", follow_symlinks=False)
    shutil.copy2(home / "bin" / PYTHON, target / "bin" / PYTHON)
    (target / "bin/python3").symlink_to(PYTHON)
    (target / "bin/python").symlink_to("python3")


def _packages_needed_by(home: Path) -> set[str]:
    """Return the packages that own the shared libraries this Python links to."""
    modules = sorted((home / "lib" / PYTHON / "lib-dynload").glob("*.so"))
    linked = output("ldd", home / "bin" / PYTHON, *modules)
    libraries = set(re.findall(r"=> (?:/usr)?/lib\S*/(lib\S+)", linked))
    packages = set()
    for library in libraries:
        owner = subprocess.run(
            ["dpkg", "-S", f"*/{library}"], capture_output=True, text=True, check=False
        )
        packages.update(re.findall(r"^([a-z0-9.+-]+)(?::\w+)?: /", owner.stdout, re.MULTILINE))
    # The interface of tkinter is left out above, so what only it needs is too.
    return {
        package for package in packages if not package.startswith(("libtk", "libtcl", "tk", "tcl"))
    }
