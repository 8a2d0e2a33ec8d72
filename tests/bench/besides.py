"""How long ``/healthz`` takes beside requests that are dear, or made to hold a worker; one row a request.

Each is posted by eight clients over and over, while another asks ``/healthz`` on new connections. ``--write`` puts
the table into tests/bench/results/beside.md.
"""

from __future__ import annotations

import argparse
import json
import statistics
import tempfile
import threading
import time
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import requests
from tests.service import running
from tests.web.test_heavy import DEADLINES, POURS

RESULTS = Path(__file__).parent / "results" / "beside.md"
CLIENTS = 8
WRITTEN = (
    "Written by `./tests/bench/beside --write` on {date}: two workers, clients and service on the same cores; "
    "{clients} clients post each request over and over for {seconds:.0f} s."
)
JSON = {"Content-Type": "application/json"}
CROSSING = {
    "system": "double-quartz",
    "rooms": [
        {"shape": {"polygon": {"points": [[x, (7 * x + room) % 31] for x in range(100)], "unit": "ft"}}}
        for room in range(200)
    ],
}


def dear() -> Iterator[tuple[str, str, bytes]]:
    """A name, a path and a body each."""
    yield "an unclosed string of escaped quotes, 260 kB", "/v1/readiness", b'"\\u0041' + b'\\"' * 130_000
    yield "200 outlines that cross themselves", "/v1/quotes", json.dumps(CROSSING).encode()
    for name, job in DEADLINES.items():
        yield name, "/v1/quotes", json.dumps(job).encode()
    for name, job in POURS.items():
        yield name, "/v1/pour-plan", json.dumps(job).encode()


def ask_again(address: str, body: bytes, ended: threading.Event, statuses: list[int]) -> None:
    """Post the body until it ends; what is not answered is a 0."""
    with requests.Session() as session:
        while not ended.is_set():
            try:
                statuses.append(session.post(address, data=body, headers=JSON, timeout=60).status_code)
            except requests.RequestException:
                statuses.append(0)


def row(service: str, name: str, path: str, body: bytes, seconds: float) -> str:
    """One request posted by all clients for so long, and how long /healthz took meanwhile."""
    ended, statuses, took = threading.Event(), list[int](), list[float]()
    clients = [threading.Thread(target=ask_again, args=(service + path, body, ended, statuses)) for _ in range(CLIENTS)]
    for client in clients:
        client.start()
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        began = time.monotonic()
        requests.get(service + "/healthz", timeout=60).raise_for_status()
        took.append(time.monotonic() - began)
        time.sleep(0.1)
    ended.set()
    for client in clients:
        client.join()
    said = ", ".join(f"{status or 'none'}: {statuses.count(status)}" for status in sorted(set(statuses)))
    median, slowest = statistics.median(took) * 1000, max(took) * 1000
    return f"| {name} | {len(body) / 1000:.0f} kB | {said} | {len(took)} | {median:.0f} | {slowest:.0f} |"


def main() -> None:
    """Measure every row, print the table, and write it where it is wanted."""
    parser = argparse.ArgumentParser(description="How long /healthz takes beside the dearest requests.")
    parser.add_argument("--seconds", type=float, default=20.0)
    parser.add_argument("--only", default="", help="rows whose name holds this")
    parser.add_argument("--write", action="store_true", help=f"into {RESULTS.name}")
    given = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder, running(Path(folder)) as service:
        rows = [row(service, *one, given.seconds) for one in dear() if given.only in one[0]]
    table = "\n".join(
        [
            "# /healthz beside what is dear, measured",
            "",
            WRITTEN.format(date=datetime.now(UTC).date(), clients=CLIENTS, seconds=given.seconds),
            "",
            "| posted by eight clients | sent | answers | asked /healthz | median, ms | slowest, ms |",
            "| --- | ---: | --- | ---: | ---: | ---: |",
            *rows,
        ]
    )
    print(table)
    if given.write:
        RESULTS.write_text(table + "\n", "utf-8")


if __name__ == "__main__":
    main()
