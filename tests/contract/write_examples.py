"""Write every example's answer again: ``python -m tests.contract.write_examples``.

Answers come from the operations themselves, as the service would send them, and are stored
indented. Run ``python -m service openapi`` afterwards: the contract carries the examples.
"""

import json

from service.app import operations
from service.http.answering import Answering
from service.http.contract_examples import RESPONSE, request_files
from tests.contract.subject import EXAMPLES


def main() -> None:
    """Write the answer beside every request."""
    for operation in operations():
        answering = Answering(operation)
        folder = EXAMPLES / operation.id
        for name, request, media in request_files(folder):
            taken, _predicted = answering.take(request.read_bytes(), media)
            answer = json.loads(answering.answer(taken, frozenset()).body)
            text = json.dumps(answer, indent=2, ensure_ascii=False) + "\n"
            (folder / (name + RESPONSE)).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main()
