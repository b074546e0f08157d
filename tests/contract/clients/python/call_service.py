"""Use the generated client as an integrator would: ``call_service.py ADDRESS REQUEST_FILE``."""

import json
import sys
from http import HTTPStatus
from pathlib import Path

from generated_client import Client
from generated_client.api.checks import outage_runtime
from generated_client.api.service import livez
from generated_client.models import OutageRuntimeAnswer, OutageRuntimeRequest, Problem, State


def main(address: str, file: str) -> None:
    """Ask for the health of the service, for one answer, and for one refusal."""
    body = json.loads(Path(file).read_text(encoding="utf-8"))
    with Client(base_url=address) as client:
        state = livez.sync(client=client)
        assert isinstance(state, State), state

        request = OutageRuntimeRequest.from_dict(body)
        assert request.to_dict() == body, "the typed request is not the one that was read"
        answered = outage_runtime.sync_detailed(client=client, body=request)
        assert answered.status_code == HTTPStatus.OK, answered
        assert isinstance(answered.parsed, OutageRuntimeAnswer), answered.parsed

        request.reference = "x" * 65  # one more than the contract takes
        refused = outage_runtime.sync_detailed(client=client, body=request)
        assert refused.status_code == HTTPStatus.UNPROCESSABLE_ENTITY, refused
        assert isinstance(refused.parsed, Problem), refused.parsed
    print(f"Python client: {state.status}, verdict {answered.parsed.verdict}")


if __name__ == "__main__":
    main(*sys.argv[1:])
