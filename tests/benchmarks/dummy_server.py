"""Serves the dummy operation inside the whole frame, as the service serves its own."""

from __future__ import annotations

import sys

from service.http.document import Document
from service.http.log import open_log
from service.http.server import listen, serve
from service.http.service import Service
from service.settings import Settings
from tests.http.dummy_operation import operation

if __name__ == "__main__":
    log = open_log("info")
    documents = [Document("/openapi.json", "application/json", b"{}")]
    service = Service([operation()], documents, log, slow_requests=8)
    serve(service, Settings(drain_seconds=5), listen("127.0.0.1", int(sys.argv[-1])), log)
