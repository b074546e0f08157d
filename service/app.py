"""Composition root: collects the operations, which nothing else lists, and hands them over."""

from __future__ import annotations

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

import msgspec

from service.assessment import site_assessment
from service.check import Operation
from service.checks.clearance import CHECK as CLEARANCE
from service.checks.conductor_sizing import CHECK as CONDUCTOR_SIZING
from service.checks.heat_exposure import CHECK as HEAT_EXPOSURE
from service.checks.outage_runtime import CHECK as OUTAGE_RUNTIME
from service.checks.surge_feasibility import CHECK as SURGE_FEASIBILITY
from service.http import contract, docs_page
from service.http.document import PAGE, Document
from service.http.log import open_log
from service.http.pinned_contract import FOLDER, pinned_bytes
from service.http.problem_pages import problem_pages
from service.http.reference_lists import reference_lists
from service.http.service import Service
from service.load_profile import LOAD_PROFILE
from service.settings import Settings

_CHECKS = (OUTAGE_RUNTIME, SURGE_FEASIBILITY, CONDUCTOR_SIZING, CLEARANCE, HEAT_EXPOSURE)


@lru_cache(1)
def operations() -> tuple[Operation, ...]:
    """Return every operation, the whole job first."""
    return (site_assessment(_CHECKS), *_CHECKS, LOAD_PROFILE)


def contract_bytes() -> bytes:
    """Return the contract as the code says it now, to be pinned or compared."""
    offered = operations()
    examples = FOLDER / "examples"
    return contract.to_bytes(contract.document(offered, reference_lists(offered), examples))


def documents(offered: Sequence[Operation]) -> list[Document]:
    """Return what is read with GET: the contract, its page, the problem types, the lists."""
    pinned = pinned_bytes()
    page = docs_page.page(msgspec.json.decode(pinned))
    return [
        Document("/openapi.json", "application/json", pinned),
        Document("/docs", "text/html; charset=utf-8", page.encode(), PAGE),
        *(
            Document(f"/docs/{name}", media, body)
            for name, (media, body) in docs_page.ASSETS.items()
        ),
        *problem_pages(),
        *(
            Document(listed.path, "application/json", listed.body())
            for listed in reference_lists(offered)
        ),
    ]


def create_app(
    settings: Settings, offered: Sequence[Operation] | None = None, log: Any = None
) -> Service:
    """Return the application.

    Parameters
    ----------
    settings : Settings
        What the operator set.
    offered : sequence of Operation, optional
        Operations to answer; all by default.
    log : structlog logger, optional
        Where lines go; standard output by default.
    """
    chosen = operations() if offered is None else tuple(offered)
    return Service(
        chosen,
        documents(chosen),
        open_log(settings.log_level) if log is None else log,
        settings.slow_requests,
    )
