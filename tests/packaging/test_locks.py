"""The locks name one version of every package, with its hashes, and no place to take it from."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

REPOSITORY = Path(__file__).resolve().parents[2]
RUNTIME = REPOSITORY / "deploy" / "requirements.lock"
TEST = REPOSITORY / "deploy" / "requirements-test.lock"
PROJECT = tomllib.loads((REPOSITORY / "pyproject.toml").read_text(encoding="utf-8"))

ENTRY = re.compile(
    r"^(?P<name>[a-z0-9.-]+)==(?P<version>\S+)(?: ; (?P<marker>[^\\]+?))? \\\n"
    r"(?P<hashes>(?:    --hash=sha256:[0-9a-f]{64}(?: \\)?\n)+)",
    re.MULTILINE,
)


def entries(lock: Path) -> dict[str, re.Match[str]]:
    """Return the entries of a lock by package name."""
    return {match["name"]: match for match in ENTRY.finditer(lock.read_text(encoding="utf-8"))}


@pytest.mark.parametrize("lock", [RUNTIME, TEST], ids=lambda path: path.name)
def test_a_lock_is_nothing_but_versions_with_hashes(lock: Path) -> None:
    rest = ENTRY.sub("", lock.read_text(encoding="utf-8"))
    assert [line for line in rest.splitlines() if not line.startswith("#")] == []


def test_tests_run_on_the_very_packages_of_the_runtime_lock() -> None:
    # Where a package is installed may differ: a test tool may need it on more systems.
    locked, tested = (
        {name: (match["version"], match["hashes"]) for name, match in entries(lock).items()}
        for lock in (RUNTIME, TEST)
    )
    assert locked.items() <= tested.items()


@pytest.mark.parametrize(
    "lock, requirements",
    [
        (RUNTIME, PROJECT["project"]["dependencies"]),
        (TEST, PROJECT["dependency-groups"]["test"]),
    ],
    ids=["runtime", "test"],
)
def test_every_declared_dependency_is_locked_inside_its_range(
    lock: Path, requirements: list[str]
) -> None:
    locked = {name: match["version"] for name, match in entries(lock).items()}
    for requirement in map(Requirement, requirements):
        assert requirement.specifier.contains(locked[canonicalize_name(requirement.name)])
