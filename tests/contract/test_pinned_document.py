import re

from service import __version__
from service.http.contract import to_bytes
from tests.contract.subject import FOLDER, contract


def test_pinned_document_is_the_generated_one_byte_for_byte() -> None:
    pinned = (FOLDER / "openapi.json").read_bytes()
    assert pinned == to_bytes(contract()), "write it again: python -m service openapi"  # type: ignore[arg-type]


def test_changelog_of_the_contract_opens_with_the_version_of_the_contract() -> None:
    headings = re.findall(r"^## (\S+)", (FOLDER / "CHANGELOG.md").read_text("utf-8"), re.M)
    assert headings[0] == contract()["info"]["version"] == __version__
