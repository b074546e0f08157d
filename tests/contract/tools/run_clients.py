"""Generate a Python and a TypeScript client, type-check them strictly, and call the service.

The published example stands in the TypeScript client as a literal of the generated request type,
so the compiler judges the example too.
"""

from __future__ import annotations

import argparse
import shutil
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.contract.tools.running_service import REPOSITORY, running_service

CLIENTS = REPOSITORY / "tests" / "contract" / "clients"
DOCUMENT = REPOSITORY / "openapi" / "openapi.json"
EXAMPLES = REPOSITORY / "openapi" / "examples" / "outage-runtime"


def main() -> int:
    """Make, check and use both clients."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--node-modules", type=Path, required=True, help="folder of the node tools")
    options = parser.parse_args()
    example = min(EXAMPLES.glob("*.request.json"))
    with tempfile.TemporaryDirectory() as scratch:
        python, typescript = Path(scratch) / "python", Path(scratch) / "typescript"
        try:
            _make_python(python)
            _make_typescript(typescript, options.node_modules, example)
            with running_service() as address:
                _run(python, sys.executable, "call_service.py", address, example)
                _run(typescript, "node", "compiled/call_service.js", address)
        except subprocess.CalledProcessError as error:
            print(f"failed with {error.returncode}: {' '.join(map(str, error.cmd))}")
            return 1
    return 0


def _make_python(folder: Path) -> None:
    shutil.copytree(CLIENTS / "python", folder)
    _run(
        folder, Path(sys.executable).with_name("openapi-python-client"), "generate",
        "--path", DOCUMENT, "--config", "generator.yaml", "--meta", "none",
        "--output-path", "generated_client", "--fail-on-warning",
    )  # fmt: skip
    _run(folder, sys.executable, "-m", "mypy", "--strict", "call_service.py", "generated_client")


def _make_typescript(folder: Path, node_modules: Path, example: Path) -> None:
    shutil.copytree(CLIENTS / "typescript", folder)
    (folder / "node_modules").symlink_to(node_modules.resolve())
    tools = folder / "node_modules" / ".bin"
    # A field with a default may be left out of a request; the generator would demand it.
    optional = "--default-non-nullable=false"
    _run(folder, tools / "openapi-typescript", DOCUMENT, "--output", "schema.ts", optional)
    (folder / "example.ts").write_text(
        'import type { paths } from "./schema.js";\n'
        'type Post = paths["/v1/outage-runtime"]["post"];\n'
        'type Body = Post["requestBody"]["content"]["application/json"];\n'
        f"export const example: Body = {example.read_text(encoding='utf-8').strip()};\n",
        encoding="utf-8",
    )
    _run(folder, tools / "tsc", "--project", ".")


def _run(folder: Path, *command: str | Path) -> None:
    """Run one step in `folder`, its output shown, its seconds in front of its name."""
    started = time.monotonic()
    subprocess.run(command, cwd=folder, check=True, stdin=subprocess.DEVNULL)
    print(f"{time.monotonic() - started:6.1f} s  {Path(command[0]).name}", flush=True)


if __name__ == "__main__":
    sys.exit(main())
