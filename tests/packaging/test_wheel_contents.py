"""The wheel holds the whole package and nothing else."""

from __future__ import annotations

import zipfile
from email.message import Message
from email.parser import Parser
from pathlib import Path

import pytest
from hatchling.builders.wheel import WheelBuilder

from service import __version__

REPOSITORY = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return the wheel, built once by the backend that pyproject.toml names."""
    folder = tmp_path_factory.mktemp("wheel")
    return Path(next(WheelBuilder(str(REPOSITORY)).build(directory=str(folder))))


@pytest.fixture(scope="module")
def names(wheel: Path) -> frozenset[str]:
    """Return the names of the files in the wheel."""
    with zipfile.ZipFile(wheel) as archive:
        return frozenset(name for name in archive.namelist() if not name.endswith("/"))


@pytest.fixture(scope="module")
def metadata(wheel: Path, names: frozenset[str]) -> Message:
    """Return the core metadata of the wheel."""
    (name,) = (name for name in names if name.endswith(".dist-info/METADATA"))
    with zipfile.ZipFile(wheel) as archive:
        return Parser().parsestr(archive.read(name).decode())


def test_every_file_of_the_package_is_in_the_wheel(names: frozenset[str]) -> None:
    files = (path for path in (REPOSITORY / "service").rglob("*") if path.is_file())
    expected = {
        path.relative_to(REPOSITORY).as_posix() for path in files if "__pycache__" not in path.parts
    }
    packed = {name for name in names if name.startswith("service/")}
    assert packed == expected | {"service/openapi.json"}


def test_nothing_stands_beside_the_package(names: frozenset[str]) -> None:
    tops = {name.partition("/")[0] for name in names}
    assert tops == {"service", f"backup_power_design_service-{__version__}.dist-info"}


def test_the_pinned_contract_travels_inside_the_package(wheel: Path) -> None:
    pinned = (REPOSITORY / "openapi" / "openapi.json").read_bytes()
    with zipfile.ZipFile(wheel) as archive:
        assert archive.read("service/openapi.json") == pinned


def test_the_licence_is_named_and_packed(metadata: Message, names: frozenset[str]) -> None:
    assert metadata["License-Expression"] == "Apache-2.0"
    assert metadata["License-File"] == "service/LICENSE"
    assert any(name.endswith(".dist-info/licenses/service/LICENSE") for name in names)


def test_the_wheel_bears_the_version_of_the_package(metadata: Message) -> None:
    assert metadata["Version"] == __version__
    assert metadata["Requires-Python"] == ">=3.11"


def test_the_wheel_installs_a_command(wheel: Path, names: frozenset[str]) -> None:
    (name,) = (name for name in names if name.endswith(".dist-info/entry_points.txt"))
    with zipfile.ZipFile(wheel) as archive:
        entry_points = archive.read(name).decode()
    assert "backup-power-design-service = service.__main__:main" in entry_points
