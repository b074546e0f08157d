"""The command line: what it refuses, what it prints, with which code it ends."""

from __future__ import annotations

import io
import json
import socket
import sys
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest

import service.app
from service import __version__
from service.__main__ import FAILED, MISUSED, main
from service.http import pinned_contract
from tests.http.dummy_operation import operation

_LEAD = {"loads": [{"kind": "own", "name": "Lamp", "watts": 60}], "reference": "lead-0042"}


@pytest.fixture
def dummy_assessment(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let the dummy operation stand in for the site assessment."""
    offered = (operation(id="site-assessment"),)
    monkeypatch.setattr(service.app, "operations", lambda: offered)


def test_version_prints_the_version(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["version"]) == 0
    assert capsys.readouterr().out == f"{__version__}\n"


@pytest.mark.parametrize(
    "variable, value, words",
    [
        ("BACKUP_POWER_PORT", "eighty", "give a whole number from 0 to 65535"),
        ("BACKUP_POWER_PRT", "80", "is not a setting"),
    ],
)
def test_a_wrong_setting_is_one_clear_line_and_code_2(
    variable: str,
    value: str,
    words: str,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    monkeypatch.setenv(variable, value)
    assert main(["serve"]) == MISUSED
    (line,) = capsys.readouterr().err.splitlines()
    assert variable in line
    assert words in line


def test_an_option_overrides_the_environment(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("BACKUP_POWER_PORT", "80")
    assert main(["serve", "--port", "eighty"]) == MISUSED
    assert "'eighty'" in capsys.readouterr().err


def test_an_address_in_use_is_one_clear_line_and_code_2(
    capsys: pytest.CaptureFixture[str],
) -> None:
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = str(taken.getsockname()[1])
        assert main(["serve", "--host", "127.0.0.1", "--port", port]) == MISUSED
    (line,) = capsys.readouterr().err.splitlines()
    assert port in line


@pytest.mark.usefixtures("dummy_assessment")
def test_assess_prints_the_answer_to_a_file(
    tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    lead = tmp_path / "lead.json"
    lead.write_text(json.dumps(_LEAD))
    assert main(["assess", str(lead)]) == 0
    assert json.loads(capfdbinary.readouterr().out)["reference"] == "lead-0042"


@pytest.mark.usefixtures("dummy_assessment")
def test_assess_reads_standard_input(
    monkeypatch: pytest.MonkeyPatch, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    typed = SimpleNamespace(buffer=io.BytesIO(json.dumps(_LEAD).encode()))
    monkeypatch.setattr(sys, "stdin", typed)
    assert main(["assess", "-"]) == 0
    assert json.loads(capfdbinary.readouterr().out)["reference"] == "lead-0042"


@pytest.mark.usefixtures("dummy_assessment")
def test_assess_tells_a_problem_on_standard_error_with_code_1(
    tmp_path: Path, capfdbinary: pytest.CaptureFixture[bytes]
) -> None:
    lead = tmp_path / "lead.json"
    lead.write_text("{}")
    assert main(["assess", str(lead)]) == FAILED
    written = capfdbinary.readouterr()
    assert written.out == b""
    assert json.loads(written.err)["status"] == 422


def test_assess_of_a_missing_file_is_one_clear_line_and_code_2(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["assess", str(tmp_path / "none.json")]) == MISUSED
    assert len(capsys.readouterr().err.splitlines()) == 1


@pytest.fixture
def pinned(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return where the contract is pinned in this test; the code says `contract`."""
    place = tmp_path / "openapi.json"
    monkeypatch.setattr(pinned_contract, "PINNED", place)
    monkeypatch.setattr(service.app, "contract_bytes", lambda: b"contract")
    return place


def test_openapi_writes_the_contract(pinned: Path) -> None:
    assert main(["openapi"]) == 0
    assert pinned.read_bytes() == b"contract"


@pytest.mark.parametrize("held, code", [(b"contract", 0), (b"another", FAILED), (None, FAILED)])
def test_openapi_check_compares_byte_for_byte_and_writes_nothing(
    pinned: Path, held: Any, code: int
) -> None:
    if held is not None:
        pinned.write_bytes(held)
    assert main(["openapi", "--check"]) == code
    assert (pinned.read_bytes() if pinned.exists() else None) == held


def test_openapi_outside_a_checkout_is_one_clear_line_and_code_2(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(pinned_contract, "PINNED", tmp_path / "none" / "openapi.json")
    assert main(["openapi"]) == MISUSED
    assert "works in a checkout" in capsys.readouterr().err
