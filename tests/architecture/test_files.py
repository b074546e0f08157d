"""Names, lengths and headers of files."""

import gzip
import re
from pathlib import Path
from statistics import median

import pytest

from tests.architecture.source_tree import ROOT, files, named

VAGUE = {"utils", "util", "helpers", "helper", "common", "manager", "managers", "misc"}
HEADER = ("title", "edition", "section", "standing")
PYTHON = [path for path in files() if path.suffix == ".py"]
DATA = [p for p in files() if p.name.endswith((".csv", ".csv.gz")) and "service" in p.parts]


def test_no_file_and_no_folder_has_a_name_that_says_nothing() -> None:
    for path in files():
        parts = {Path(part).stem for part in path.relative_to(ROOT).parts}
        assert not VAGUE & parts, named(path)


def test_files_are_short() -> None:
    lengths = {named(path): len(path.read_text("utf-8").splitlines()) for path in PYTHON}
    assert {name: length for name, length in lengths.items() if length > 400} == {}
    written = [length for length in lengths.values() if length > 1]
    assert median(written) < 110
    assert sum(length > 300 for length in written) < len(written) / 20


@pytest.mark.parametrize("path", DATA, ids=named)
def test_a_data_file_opens_with_its_source(path: Path) -> None:
    raw = path.read_bytes()
    text = (gzip.decompress(raw) if path.suffix == ".gz" else raw).decode("utf-8")
    lines = [line for line in text.splitlines() if line.startswith("#")]
    stated = dict(re.findall(r"^# ([a-z]+): (\S.*)$", "\n".join(lines), re.M))
    assert [word for word in HEADER if word not in stated] == []


def test_data_files_are_found() -> None:
    assert len(DATA) > 5


def test_no_test_is_skipped_or_expected_to_fail() -> None:
    escape = re.compile(r"pytest\.(skip|xfail|importorskip)|mark\.(skip|skipif|xfail)\b")
    for path in PYTHON:
        if path.is_relative_to(ROOT / "tests"):
            assert not escape.search(path.read_text("utf-8")), named(path)


def test_nothing_is_left_to_do() -> None:
    words = ("TO" + "DO", "FIX" + "ME", "X" + "XX", "NotImplemented" + "Error")
    unfinished = re.compile(rf"\b({'|'.join(words)})\b")
    for path in PYTHON:
        assert not unfinished.search(path.read_text("utf-8")), named(path)
