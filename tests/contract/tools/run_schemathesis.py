"""Fuzz a running server against the contract it publishes: ``python -m`` this module.

Every check, every phase, data inside and outside the contract, the same data in every run.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Sequence
from pathlib import Path

from tests.contract.tools.running_service import REPOSITORY, running_service

CONFIGURATION = Path(__file__).with_name("schemathesis.toml")
#: Whole run, so that the stage keeps to its budget; a slower run is a failure, not a shorter test.
SECONDS = 850


def main() -> int:
    """Run the fuzzer and return the exit code; options are passed on to it."""
    started = time.monotonic()
    try:
        with running_service() as address:
            code = _fuzz(address, sys.argv[1:])
    except subprocess.TimeoutExpired:
        print(f"schemathesis was stopped after {SECONDS} s: give it fewer examples")
        return 1
    except RuntimeError as fault:
        print(fault)
        return 1
    print(f"schemathesis: {time.monotonic() - started:.0f} s of {SECONDS} s")
    return code


def _fuzz(address: str, further: Sequence[str]) -> int:
    program = Path(sys.executable).with_name("schemathesis")
    command = ["--config-file", str(CONFIGURATION), "run", f"{address}/openapi.json", "--no-color"]
    with tempfile.TemporaryDirectory() as scratch:
        return subprocess.run(
            [program, *command, *further],
            cwd=scratch,
            env=os.environ | {"PYTHONPATH": str(REPOSITORY)},  # where the hooks are found
            timeout=SECONDS,
            check=False,
        ).returncode


if __name__ == "__main__":
    sys.exit(main())
