"""The demonstration: a real service on a free loopback port, asked as a CRM would ask it."""

from __future__ import annotations

import json
import math
import os
import select
import subprocess
import sys
import textwrap
import time
from typing import Any
from urllib.request import Request, urlopen

from service.http.pinned_contract import pinned_bytes

_WIDTH = 96
_START_SECONDS = 20.0
_OPERATION = "/v1/site-assessment"


def run(once: bool) -> int:
    """Start the service, send the demo lead, print the answer; serve on unless `once`."""
    lead = _demo_lead()
    process = subprocess.Popen(
        [sys.executable, "-m", "service", "serve", "--host", "127.0.0.1", "--port", "0"],
        stdout=subprocess.PIPE,
        text=True,
        env={**os.environ, "BACKUP_POWER_LOG_LEVEL": "info"},
    )
    try:
        address = _address(process)
        digest, answer = _ask(address, lead)
        _print(address, lead, digest, answer)
        if not once:
            print("\nServing until interrupted (Ctrl-C).", flush=True)
            process.wait()
    except KeyboardInterrupt:
        print("\nStopped.")
    finally:
        process.terminate()
        process.wait(timeout=30)
    return 0


def _demo_lead() -> dict[str, Any]:
    """Return the first example of the site assessment: an invented home and household."""
    document = json.loads(pinned_bytes())
    body = document["paths"][_OPERATION]["post"]["requestBody"]["content"]["application/json"]
    examples: dict[str, Any] = body["examples"]
    lead: dict[str, Any] = examples[min(examples)]["value"]
    return lead


def _address(process: subprocess.Popen[str]) -> str:
    """Wait for the log line that names the address the service listens on."""
    assert process.stdout is not None
    until = time.monotonic() + _START_SECONDS
    while time.monotonic() < until:
        readable, _, _ = select.select([process.stdout], [], [], 0.2)
        line = process.stdout.readline() if readable else ""
        if line.startswith("{") and json.loads(line).get("event") == "listening":
            found: str = json.loads(line)["url"]
            return found
        if process.poll() is not None:
            break
    raise SystemExit("demo: the service did not start; run `python -m service serve` to see why")


def _ask(address: str, lead: dict[str, Any]) -> tuple[str, dict[str, Any]]:
    request = Request(
        address + _OPERATION,
        data=json.dumps(lead).encode(),
        headers={"Content-Type": "application/json", "Accept": "application/json"},
    )
    with urlopen(request, timeout=30) as response:
        return response.headers["Answer-Digest"], json.loads(response.read())


def _wrapped(text: str, indent: str = "  ") -> str:
    return textwrap.fill(
        text, _WIDTH, initial_indent=indent, subsequent_indent=indent + "  ", break_long_words=False
    )


def _section(title: str, lines: list[str]) -> None:
    if lines:
        print(f"\n{title}")
        for line in lines:
            print(_wrapped(line))


def _print(address: str, lead: dict[str, Any], digest: str, answer: dict[str, Any]) -> None:
    loads = ", ".join(row["appliance"].replace("_", " ") for row in lead["wishes"]["loads"])
    print("Demo lead (invented home, household and units)")
    print(_wrapped(f"Wanted for {lead['wishes']['target_hours']} h: {loads}."))
    print(f"\nVerdict: {answer['verdict'].upper()}")
    print(_wrapped(answer["headline"]))
    print("\nFor the homeowner")
    print(_wrapped(answer["summary"]))
    _section(
        "What the site needs",
        [f"{f['label']}: {f['value']:g} {f['unit']}" for f in answer["needs"]],
    )
    for candidate in answer["candidates"]:
        _print_candidate(candidate)
    _section("Findings on the site", [f["statement"] for f in answer["findings"]])
    _section(
        "Ask next (! can change the verdict)",
        [
            f"{'!' if q['can_change_verdict'] else ' '} {q['ask_by']}: {q['question']}"
            for q in answer["questions"]
        ],
    )
    _section(
        "Assumed", [f"{a['pointer']} = {a['value']}: {a['reason']}" for a in answer["assumptions"]]
    )
    _section("Cautions", [c["text"] for c in answer["cautions"]])
    print(f"\nThe same answer as JSON: POST {address}{_OPERATION}")
    print(f"Documentation: {address}/docs   Contract: {address}/openapi.json")
    print(f"Answer-Digest: {digest}", flush=True)


def _shown(figure: dict[str, Any]) -> str:
    """Return hours as they may be promised: rounded down, and said to be a floor where they are."""
    least = "at least " if figure["at_least"] else ""
    return f"{least}{math.floor(figure['value'] * 10 + 1e-6) / 10:g} {figure['unit']}"


def _print_candidate(candidate: dict[str, Any]) -> None:
    print(f"\nCandidate {candidate['id']}: {candidate['verdict']}")
    for condition in candidate["conditions"]:
        print(_wrapped(f"Subject to: {condition}."))
    for reason in candidate["because"]:
        print(_wrapped(f"{reason[0].upper()}{reason[1:]}."))
    for check in candidate["checks"]:
        figures = "; ".join(f"{f['label']}: {_shown(f)}" for f in check["figures"])
        print(_wrapped(f"{check['check']} ({check['verdict']}). {figures}."))
        for finding in check["findings"]:
            print(_wrapped(f"{finding['verdict']}: {finding['statement']}", "    "))
        for other in check["alternatives"]:
            print(_wrapped(f"{other['reading']} {other['statement']} ({other['verdict']})", "    "))
