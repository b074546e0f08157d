"""The pinned contract: the very bytes that were reviewed, published and are served."""

from __future__ import annotations

from importlib import resources
from importlib.resources.abc import Traversable
from pathlib import Path

#: Folder of the contract in a checkout; an installed package carries the document alone.
FOLDER = Path(__file__).resolve().parents[2] / "openapi"
PINNED = FOLDER / "openapi.json"


class NoContractError(FileNotFoundError):
    """Neither the package nor the checkout holds the contract."""


def pinned_bytes() -> bytes:
    """Return the contract, from the package where it is installed, else from the checkout.

    Raises
    ------
    NoContractError
        It stands in neither.
    """
    packed: Traversable = resources.files("service").joinpath("openapi.json")
    if packed.is_file():
        return packed.read_bytes()
    if PINNED.is_file():
        return PINNED.read_bytes()
    raise NoContractError("openapi.json is missing; write it with: python -m service openapi")
