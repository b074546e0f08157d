"""The command line: serve, demo, assess, openapi, version.

Heavy imports stand inside the commands, so that a wrong setting is refused at once.
"""

from __future__ import annotations

import argparse
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path

from service import __version__
from service.settings import PREFIX, SettingError, Settings, from_environment

#: Exit codes: the command could not do its job; it was called or set up wrongly.
FAILED = 1
MISUSED = 2
_NAME = "backup-power-design-service"
# One request is calculated on one core; threads of the linear algebra only get in each other's way.
_ONE_THREAD = ("OPENBLAS_NUM_THREADS", "OMP_NUM_THREADS", "MKL_NUM_THREADS")


def _complain(text: str) -> None:
    print(f"{_NAME}: {text}", file=sys.stderr)


def _serve(arguments: argparse.Namespace) -> int:
    try:
        settings = _settings(arguments)
    except SettingError as error:
        _complain(str(error))
        return MISUSED
    from service.app import create_app
    from service.http.log import open_log
    from service.http.pinned_contract import NoContractError
    from service.http.server import listen, serve

    try:
        bound = listen(settings.host, settings.port)
    except OSError as error:
        _complain(f"cannot listen on {settings.host} port {settings.port}: {error.strerror}")
        return MISUSED
    log = open_log(settings.log_level)
    try:
        app = create_app(settings, log=log)
    except NoContractError as error:
        _complain(str(error))
        return FAILED
    serve(app, settings, bound, log)
    return 0


def _settings(arguments: argparse.Namespace) -> Settings:
    """Return the settings of the environment, those of the command line instead where given."""
    given = {"HOST": arguments.host, "PORT": arguments.port}
    stated = {PREFIX + name: value for name, value in given.items() if value is not None}
    return from_environment({**os.environ, **stated})


def _demo(arguments: argparse.Namespace) -> int:
    from service.demo import run

    return run(arguments.once)


def _assess(arguments: argparse.Namespace) -> int:
    from service.app import operations
    from service.http.answering import Answering
    from service.http.problem import Problem

    try:
        body = _read(arguments.file)
    except OSError as error:
        _complain(f"cannot read {arguments.file}: {error.strerror}")
        return MISUSED
    assessment = next(o for o in operations() if o.id == "site-assessment")
    answering = Answering(assessment)
    try:
        request, _ = answering.take(body)
        answered = answering.answer(request, frozenset())
    except Problem as problem:
        sys.stderr.buffer.write(problem.body() + b"\n")
        return FAILED
    sys.stdout.buffer.write(answered.body + b"\n")
    return 0


def _read(name: str) -> bytes:
    return sys.stdin.buffer.read() if name == "-" else Path(name).read_bytes()


def _openapi(arguments: argparse.Namespace) -> int:
    from service.app import contract_bytes
    from service.http.pinned_contract import PINNED

    if not PINNED.parent.is_dir():
        _complain(f"{PINNED.parent} is no folder; this command works in a checkout")
        return MISUSED
    made = contract_bytes()
    if not arguments.check:
        PINNED.write_bytes(made)
        return 0
    if PINNED.is_file() and PINNED.read_bytes() == made:
        return 0
    _complain(f"{PINNED} is not what the code says; write it with: python -m service openapi")
    return FAILED


def _version(_arguments: argparse.Namespace) -> int:
    print(__version__)
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog=_NAME, description="Backup Power Design Service.")
    commands = parser.add_subparsers(dest="command", required=True)

    def command(
        name: str, run: Callable[[argparse.Namespace], int], words: str
    ) -> argparse.ArgumentParser:
        added = commands.add_parser(name, help=words, description=words)
        added.set_defaults(run=run)
        return added

    serve = command("serve", _serve, "Serve over HTTP until a stop signal.")
    serve.add_argument("--host", help=f"address to listen on, instead of {PREFIX}HOST")
    serve.add_argument(
        "--port", help=f"port to listen on, 0 for a free one, instead of {PREFIX}PORT"
    )
    demo = command("demo", _demo, "Start, answer the demo lead over HTTP, and serve on.")
    demo.add_argument("--once", action="store_true", help="end after the answer")
    assess = command("assess", _assess, "Answer one site assessment without a server.")
    assess.add_argument("file", help="file with the JSON request, - for standard input")
    openapi = command("openapi", _openapi, "Write the contract.")
    openapi.add_argument("--check", action="store_true", help="compare instead of writing")
    command("version", _version, "Print the version.")
    return parser


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code."""
    for variable in _ONE_THREAD:
        os.environ.setdefault(variable, "1")
    given = _parser().parse_args(arguments)
    run: Callable[[argparse.Namespace], int] = given.run
    return run(given)


if __name__ == "__main__":
    sys.exit(main())
