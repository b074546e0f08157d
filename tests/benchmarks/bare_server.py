"""Serves one bare Litestar handler: it decodes with msgspec and returns as many bytes as asked."""

from __future__ import annotations

import argparse
from typing import Any

import msgspec
import uvicorn
from litestar import Litestar, Request, get, post

from service.app import operations
from service.check import Operation
from tests.http.dummy_operation import operation as dummy


def bare_app(operation: Operation, length: int) -> Litestar:
    """Return an application whose one handler decodes the operation's request, and no more."""
    decode = msgspec.json.Decoder(operation.request).decode
    answer = b"x" * length

    @post("/bare", status_code=200, media_type="application/json")
    async def bare(request: Request[Any, Any, Any]) -> bytes:
        decode(await request.body())
        return answer

    @get("/readyz")
    async def readyz() -> None:
        """Say that the server runs."""

    return Litestar([bare, readyz], openapi_config=None, logging_config=None)


def _arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser()
    parser.add_argument("--operation", required=True)
    parser.add_argument("--length", type=int, required=True)
    parser.add_argument("--port", type=int, required=True)
    return parser.parse_args()


if __name__ == "__main__":
    asked = _arguments()
    known = {operation.id: operation for operation in (dummy(), *operations())}
    uvicorn.run(
        bare_app(known[asked.operation], asked.length),
        port=asked.port,
        loop="uvloop",
        http="httptools",
        log_level="error",
        access_log=False,
        server_header=False,
    )
