"""The Dockerfile says what the package, its settings and its lock say."""

from __future__ import annotations

import json
import re
from pathlib import Path

from service import __version__
from service.settings import from_environment

REPOSITORY = Path(__file__).resolve().parents[2]
#: One instruction a line, continuations joined.
RECIPE = (REPOSITORY / "Dockerfile").read_text(encoding="utf-8").replace("\\\n", " ")


def instructions(keyword: str) -> list[str]:
    """Return the arguments of every instruction of one kind."""
    return re.findall(rf"^{keyword} +(.+)$", RECIPE, re.MULTILINE)


def test_the_image_bears_the_version_of_the_package() -> None:
    (labels,) = instructions("LABEL")
    assert f'org.opencontainers.image.version="{__version__}"' in labels


def test_the_image_sets_only_settings_that_the_service_reads() -> None:
    (variables,) = instructions("ENV")
    settings = from_environment(dict(re.findall(r"(\w+)=(\S+)", variables)))
    assert settings.host == "0.0.0.0"  # noqa: S104 - a container is reached from outside
    assert instructions("EXPOSE") == [str(settings.port)]


def test_the_service_is_process_one_and_takes_arguments() -> None:
    (entry_point,) = instructions("ENTRYPOINT")
    assert json.loads(entry_point)[1:] == ["-m", "service", "serve"]
    assert instructions("CMD") == []


def test_the_user_is_a_number_other_than_root() -> None:
    assert instructions("USER") == ["10001:10001"]


def test_the_image_installs_the_hashed_runtime_lock_from_wheels_alone() -> None:
    (install,) = (line for line in instructions("RUN") if "install" in line)
    assert "--require-hashes" in install
    assert "--only-binary=:all:" in install
    assert "deploy/requirements.lock /build/requirements.lock" in instructions("COPY")
