"""Every data file that ships is whole, and together they have one edition."""

import hashlib
import os
import shutil
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

import service
from service import climate
from service.published.errors import DataFileError
from service.published.loader import (
    ROOMS,
    data_edition,
    digest,
    find_tables,
    load,
    table_names,
)
from service.published.source import FILE_STANDINGS

ROOT = Path(service.__file__).parent


def test_every_csv_file_of_the_rooms_is_a_table() -> None:
    on_disk = {file.stem for room in ROOMS for file in (ROOT / room).rglob("*.csv")}
    assert set(table_names()) == on_disk
    assert len(on_disk) >= 8


@pytest.mark.parametrize("name", table_names())
def test_every_data_file_loads_and_says_where_it_comes_from(name: str) -> None:
    table = load(name)
    assert table.title
    assert table.edition
    assert table.section
    assert table.standing in FILE_STANDINGS
    for key in table.rows:
        for column in table.columns[1:]:
            source = table.cite(key, column)
            assert source.title
            assert source.standing in FILE_STANDINGS
        for column in table.header.units:
            table.number_or_none(key, column)


def test_a_table_is_read_once() -> None:
    assert load("appliances") is load("appliances")


def test_every_licensed_table_ships_its_licence_and_notice() -> None:
    licensed = [name for name in table_names() if load(name).header.licence]
    assert "class_day_shapes" in licensed
    for name in licensed:
        folder = next(ROOT.rglob(f"{name}.csv")).parent
        named = [word.strip(";,") for word in load(name).header.licence.split() if ".txt" in word]
        assert named
        assert all((folder / file).stat().st_size > 500 for file in named)


def test_the_edition_is_sixteen_hex_digits_and_repeatable() -> None:
    assert len(data_edition()) == 16
    assert int(data_edition(), 16) >= 0
    assert digest(ROOT) == data_edition()


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    for room in ROOMS:
        shutil.copytree(ROOT / room, tmp_path / room, ignore=shutil.ignore_patterns("__pycache__"))
    return tmp_path


def test_a_copy_of_the_data_files_has_the_same_edition(copy: Path) -> None:
    assert digest(copy) == data_edition()


@pytest.mark.parametrize("path", ["published/appliances.csv", "codes/code_editions.csv"])
def test_one_changed_byte_changes_the_edition(copy: Path, path: str) -> None:
    (copy / path).write_bytes((copy / path).read_bytes() + b" ")
    assert digest(copy) != data_edition()


def test_a_renamed_file_changes_the_edition(copy: Path) -> None:
    (copy / "codes/code_editions.csv").rename(copy / "codes/code_dates.csv")
    assert digest(copy) != data_edition()


@pytest.mark.parametrize("path", ["climate/new.csv", "climate/deep/new.csv.gz"])
def test_a_new_climate_file_changes_the_edition(copy: Path, path: str) -> None:
    (copy / path).parent.mkdir(exist_ok=True)
    (copy / path).write_bytes(b"1")
    assert digest(copy) != data_edition()


def test_a_file_that_holds_no_data_leaves_the_edition_alone(copy: Path) -> None:
    (copy / "published/remarks.txt").write_text("no number", encoding="utf-8")
    assert digest(copy) == data_edition()


def test_the_edition_is_a_plain_sha256(tmp_path: Path) -> None:
    (tmp_path / "codes").mkdir()
    (tmp_path / "codes/one.csv").write_bytes(b"abc")
    name = b"codes/one.csv"
    message = len(name).to_bytes(8, "big") + name + (3).to_bytes(8, "big") + b"abc"
    assert digest(tmp_path) == hashlib.sha256(message).hexdigest()[:16]


def test_two_tables_of_one_name_are_refused(copy: Path) -> None:
    shutil.copy(copy / "published/appliances.csv", copy / "codes/appliances.csv")
    with pytest.raises(DataFileError, match=r"appliances\.csv: stands in two places"):
        find_tables(copy)


def test_the_climate_room_lists_what_the_edition_covers() -> None:
    on_disk = [
        file.name for file in (ROOT / "climate").iterdir() if file.suffix in (".csv", ".gz", ".npy")
    ]
    assert climate.data_files() == tuple(sorted(on_disk))


def test_the_data_are_read_from_a_zipped_package_too(tmp_path: Path) -> None:
    archive = tmp_path / "service.zip"
    with zipfile.ZipFile(archive, "w") as packed:
        packed.write(ROOT / "__init__.py", "service/__init__.py")
        for room in ROOMS:
            for file in sorted((ROOT / room).rglob("*")):
                if file.is_file() and "__pycache__" not in file.parts:
                    packed.write(file, f"service/{file.relative_to(ROOT)}")
    program = (
        "import service; from service.published import data_edition, load;"
        "print(service.__file__, data_edition(), load('appliances').number('tv', 'volts'))"
    )
    said = subprocess.run(
        [sys.executable, "-c", program],
        env={**os.environ, "PYTHONPATH": str(archive)},
        cwd=tmp_path,
        capture_output=True,
        text=True,
        check=True,
    ).stdout.split()
    assert said[0].startswith(str(archive))
    assert said[1:] == [data_edition(), "120.0"]
