"""The files of the tree, and what the Python ones import and define."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SERVICE = ROOT / "service"
#: Folders that tools make and nobody writes.
_MADE = {"__pycache__", "build", "dist", "node_modules"}


def _is_made(path: Path) -> bool:
    parts = path.relative_to(ROOT).parts
    return any(
        part in _MADE or part.endswith(".egg-info") or (part.startswith(".") and part != ".ci")
        for part in parts[:-1]
    )


@cache
def files() -> tuple[Path, ...]:
    """Return every file that somebody wrote, sorted."""
    return tuple(sorted(p for p in ROOT.rglob("*") if p.is_file() and not _is_made(p)))


def named(path: Path) -> str:
    """Return the path as a failure shows it."""
    return path.relative_to(ROOT).as_posix()


def python_files(*rooms: str) -> list[Path]:
    """Return the Python files of the service, or of some of its rooms."""
    folders = [SERVICE / room for room in rooms] or [SERVICE]
    return [p for p in files() if p.suffix == ".py" and any(p.is_relative_to(f) for f in folders)]


@cache
def parsed(path: Path) -> ast.Module:
    """Return the syntax tree of a Python file."""
    return ast.parse(path.read_text("utf-8"), named(path))


def imports(path: Path) -> set[str]:
    """Return every module that the file names in an import, wherever the import stands."""
    found: set[str] = set()
    for node in ast.walk(parsed(path)):
        if isinstance(node, ast.Import):
            found.update(alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module:
            found.add(node.module)
            found.update(f"{node.module}.{alias.name}" for alias in node.names)
    return found


def packages(path: Path) -> set[str]:
    """Return the first part of every module that the file imports."""
    return {name.partition(".")[0] for name in imports(path)}


def public_functions(path: Path) -> Iterator[ast.FunctionDef]:
    """Yield the public functions of a module."""
    for node in parsed(path).body:
        if isinstance(node, ast.FunctionDef) and not node.name.startswith("_"):
            yield node
