"""What is run before a release and takes longer than a gate may: ``python -m tests.nightly``.

Schemathesis with every check and phase, a fresh seed and many more examples than in the gate,
against the real server process. Its printed result is kept with the release notes.
"""

from __future__ import annotations

import argparse
import os
import platform
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from service import __version__
from tests.contract.subject import FOLDER
from tests.contract.tools.running_service import running_service

_CONFIGURATION = FOLDER.parent / "tests" / "contract" / "tools" / "schemathesis.toml"


def main() -> int:
    """Run everything nightly and return 0 where all of it passed."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--examples", type=int, default=3000, help="examples an operation")
    parser.add_argument("--seed", type=int, default=None, help="repeat a run that failed")
    options = parser.parse_args()
    seed = int.from_bytes(os.urandom(4), "big") if options.seed is None else options.seed
    started = time.monotonic()
    _say(f"service {__version__}, Python {platform.python_version()}, seed {seed}")
    try:
        code = _schemathesis(options.examples, seed)
    except RuntimeError as error:
        _say(str(error))
        code = 1
    seconds = time.monotonic() - started
    _say(f"schemathesis: {'passed' if code == 0 else 'FAILED'} in {seconds:.0f} s, seed {seed}")
    return code


def _say(line: str) -> None:
    print(line, flush=True)  # noqa: T201 - the printed result is what the run is for


def _schemathesis(examples: int, seed: int) -> int:
    program = Path(sys.executable).with_name("schemathesis")
    with running_service() as address, tempfile.TemporaryDirectory() as scratch:
        command: list[str | Path] = [
            program,
            *("--config-file", str(_CONFIGURATION)),
            *("run", f"{address}/openapi.json", "--no-color"),
            *("--max-examples", str(examples), "--seed", str(seed)),
        ]
        environment = os.environ | {"PYTHONPATH": str(FOLDER.parent)}
        return subprocess.run(command, cwd=scratch, env=environment, check=False).returncode


if __name__ == "__main__":
    sys.exit(main())
