"""Who may import what, where it depends on single files; import-linter judges whole rooms."""

import pytest

from tests.architecture.source_tree import SERVICE, named, packages, python_files

WIRE = ("request.py", "answer.py", "year_answer.py")
#: Package, and the rooms that may import it.
ONE_ROOM = [
    ("pint", "quantities"),
    ("litestar", "http"),
    ("prometheus_client", "http"),
]


@pytest.mark.parametrize("package, room", ONE_ROOM)
def test_a_package_is_imported_in_one_room_alone(package: str, room: str) -> None:
    importing = [path for path in python_files() if package in packages(path)]
    assert importing
    assert [named(p) for p in importing if not p.is_relative_to(SERVICE / room)] == []


def test_no_check_and_no_calculation_knows_the_web() -> None:
    for path in python_files("checks", "physics", "published", "codes", "climate"):
        assert not {"litestar", "uvicorn", "starlette", "http"} & packages(path), named(path)


def test_a_check_knows_the_wire_format_only_in_its_request_and_answer() -> None:
    importing = {path.name for path in python_files("checks") if "msgspec" in packages(path)}
    assert importing == set(WIRE)


def test_calculation_and_tables_know_no_wire_format() -> None:
    for path in python_files("physics", "published", "codes", "climate"):
        assert "msgspec" not in packages(path), named(path)


def test_nothing_of_the_service_reads_the_clock_or_chance_for_an_answer() -> None:
    for path in python_files("checks", "physics", "published", "codes", "climate", "assessment"):
        assert not {"time", "random", "secrets", "uuid"} & packages(path), named(path)


def test_nothing_of_the_service_calls_out() -> None:
    for path in python_files():
        outward = {"httpx", "requests", "urllib3", "aiohttp", "ftplib", "smtplib"}
        assert not outward & packages(path), named(path)
