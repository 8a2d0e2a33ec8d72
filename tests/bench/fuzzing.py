"""A long run of random requests against the service as it runs, and its summary.

Three kinds: *spoiled* are sound jobs mangled in bytes and values (`tests/contract/mangling.py`), *whole* are sound
by construction (`tests/contract/whole_jobs.py`), *described* are drawn by Schemathesis from the description, with all
of its checks and phases. Each piece of a run has a seed and adds a line to a file; `--write` sums the lines up in
tests/bench/results/fuzz.md.
"""

from __future__ import annotations

import argparse
import http.client
import json
import os
import re
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from pathlib import Path
from threading import Thread
from typing import Any
from urllib.parse import urlsplit

import jsonschema_rs
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import seed as seeded
from tests.contract.mangling import mangled
from tests.contract.whole_jobs import jobs, written
from tests.service import running

from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.web.describe.description import description

ROOT = Path(__file__).parents[2]
KEPT = Path(tempfile.gettempdir()) / "gaugerake-fuzz.jsonl"
BEGIN, END = "<!-- fuzz:begin -->", "<!-- fuzz:end -->"
KINDS = ("spoiled", "whole", "described")
SENDERS = 2
PATIENCE_S = 60
PIECE = 1000
TICK_S, STALL_S, AFTER_S = 0.2, 5.0, 10.0
# a sound job may mean something that cannot be; QUERY is answered, which a description of 3.1 cannot say
EXCLUDED = "positive_data_acceptance,unsupported_method"
STRICT = description()
ANSWERS = {
    "/v1/readiness": "ReadinessAnswer",
    "/v1/quantities": "QuantitiesAnswer",
    "/v1/pour-plan": "PourPlanAnswer",
    "/v1/return-times": "ReturnTimesAnswer",
    "/v1/quotes": "QuoteAnswer",
}
FORMS = {name: jsonschema_rs.validator_for({**STRICT, "$ref": f"#/components/schemas/{name}"})
         for name in (*ANSWERS.values(), "Problem")}  # fmt: skip


@dataclass
class Tally:
    """What one piece of a run saw."""

    kind: str
    seed: str
    sent: int = 0
    statuses: Counter[int] = field(default_factory=Counter)
    mismatches: int = 0
    unanswered: int = 0
    stalled: int = 0
    slowest_s: float | None = None
    over_a_second: int = 0
    faults: list[str] = field(default_factory=list)

    def add(self, other: Tally) -> None:
        """Count what another has seen."""
        self.sent += other.sent
        self.statuses += other.statuses
        self.mismatches += other.mismatches
        self.unanswered += other.unanswered
        self.stalled += other.stalled
        self.over_a_second += other.over_a_second
        self.slowest_s = max(filter(None, (self.slowest_s, other.slowest_s)), default=None)
        self.faults = (self.faults + other.faults)[:20]

    def broken(self) -> int:
        """How many answers said that the service was at fault."""
        return sum(count for status, count in self.statuses.items() if status >= 500)


class Ticker:
    """Notes when the whole machine stood still: a thread that only sleeps wakes late.

    What was under way then says nothing about the service, whose workers gunicorn may take for hung afterwards.
    """

    def __init__(self) -> None:
        self._stalls: list[tuple[float, float]] = []
        Thread(target=self._tick, daemon=True).start()

    def _tick(self) -> None:
        before = time.perf_counter()
        while True:
            time.sleep(TICK_S)
            now = time.perf_counter()
            if now - before > STALL_S:
                self._stalls.append((before, now))
            before = now

    def stood_still(self, begun: float, ended: float) -> bool:
        """Whether it did between these, or shortly before."""
        time.sleep(2 * TICK_S)
        return any(first < ended and begun < last + AFTER_S for first, last in self._stalls)


TICKER = Ticker()


class Sender:
    """One client with a connection that it keeps."""

    def __init__(self, address: str, tally: Tally) -> None:
        parts = urlsplit(address)
        assert parts.hostname
        self._wire = http.client.HTTPConnection(parts.hostname, parts.port, timeout=PATIENCE_S)
        self.tally = tally

    def post(self, path: str, body: bytes, name: str) -> None:
        """Send a body and look at the answer."""
        begun = time.perf_counter()
        try:
            self._wire.request("POST", path, body, {"Content-Type": "application/json"})
            answer = self._wire.getresponse()
            data = answer.read()
        except (OSError, http.client.HTTPException) as error:
            self._wire.close()
            if TICKER.stood_still(begun, time.perf_counter()):
                self.tally.stalled += 1
                return
            self._note(f"{name}: no answer: {error!r}")
            self.tally.unanswered += 1
            return
        took = time.perf_counter() - begun
        self.tally.sent += 1
        self.tally.statuses[answer.status] += 1
        if took > STALL_S and TICKER.stood_still(begun, begun + took):
            self.tally.stalled += 1
        else:
            self.tally.slowest_s = max(took, self.tally.slowest_s or 0.0)
            self.tally.over_a_second += took > 1
        if answer.status >= 500:
            self._note(f"{name}: {answer.status}")
        for fault in self._mismatch(path, answer, data):
            self.tally.mismatches += 1
            self._note(f"{name}: {answer.status}: {fault}")

    def _mismatch(self, path: str, answer: http.client.HTTPResponse, data: bytes) -> Iterator[str]:
        good = answer.status == 200
        if answer.headers["Content-Type"] != ("application/json" if good else "application/problem+json"):
            yield f"media type {answer.headers['Content-Type']}"
            return
        form = FORMS[ANSWERS[path.partition("?")[0]] if good else "Problem"]
        found = next(form.iter_errors(json.loads(data)), None)
        if found is not None:
            yield str(found)[:300]

    def _note(self, fault: str) -> None:
        if len(self.tally.faults) < 20:
            self.tally.faults.append(fault)


def spoiled(address: str, seed: int, count: int) -> Tally:
    """Send spoiled jobs: numbers ``seed`` million and on."""

    def some(first: int) -> Tally:
        sender = Sender(address, Tally("spoiled", str(seed)))
        for number in range(first, min(first + PIECE, begun + count)):
            sender.post(*mangled(number), f"spoiled {number}")
        return sender.tally

    begun, whole = seed * 1_000_000, Tally("spoiled", str(seed))
    with ThreadPoolExecutor(SENDERS) as pool:
        for tally in pool.map(some, range(begun, begun + count, PIECE)):
            whole.add(tally)
    return whole


def whole(address: str, seed: int, count: int) -> Tally:
    """Send whole jobs, each of which is to be answered."""
    tally = Tally("whole", str(seed))
    sender = Sender(address, tally)

    @seeded(seed)
    @settings(max_examples=count, deadline=None, database=None, phases=[Phase.generate],
              suppress_health_check=list(HealthCheck))  # fmt: skip
    @given(jobs(demo_snapshot().catalogue))
    def send(job: Any) -> None:
        sender.post("/v1/quotes?echo=true", json.dumps(written(job)).encode(), f"whole {seed}")

    send()
    refused = sum(count for status, count in tally.statuses.items() if status != 200)
    if refused:
        tally.faults.append(f"whole {seed}: {refused} sound jobs were refused")
    return tally


def described(address: str, seed: int, examples: int) -> Tally:
    """Let Schemathesis draw requests from the description: ``examples`` for each operation and phase."""
    command = [sys.executable, "-m", "schemathesis.cli", "run", f"{address}/openapi.json"]
    options = (
        f"--checks all --exclude-checks {EXCLUDED} --phases examples,coverage,fuzzing,stateful --workers 1"
        f" --max-examples {examples} --seed {seed} --generation-database none --request-timeout {PATIENCE_S} --no-color"
    )
    hooks = {**os.environ, "SCHEMATHESIS_HOOKS": str(ROOT / "tests" / "contract" / "fuzz_hooks.py")}
    with tempfile.TemporaryDirectory() as folder:
        done = subprocess.run([*command, *options.split()], cwd=folder, env=hooks, capture_output=True, text=True)
    tally = Tally("described", str(seed))
    counted = re.search(r"(\d+) generated, (\d+) passed", done.stdout)
    tally.sent = int(counted[1]) if counted else 0
    if done.returncode or not counted:
        tally.mismatches = 1
        tally.faults.append(f"described {seed}: {done.stdout[-4000:]}{done.stderr[-500:]}")
    if re.search(r"Server error|status_code: 5|\[5\d\d\]", done.stdout):
        tally.statuses[500] = 1
    return tally


PARTS = {"spoiled": spoiled, "whole": whole, "described": described}


def told(pieces: list[Tally]) -> str:
    """The summary as a table, a row for each kind and one for all."""
    rows = [
        "| kind | seeds | requests | 200 | 4xx | 5xx | unanswered | in a stall | not described | over 1 s | slowest |",
        "| --- | --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: | ---: |",
    ]
    everything = Tally("all", "")
    for kind in KINDS:
        own = [piece for piece in pieces if piece.kind == kind]
        if own:
            tally = Tally(kind, ", ".join(sorted({piece.seed for piece in own}, key=int)))
            for piece in own:
                tally.add(piece)
            everything.add(tally)
            rows.append(_row(tally, counted=kind != "described"))
    rows.append(_row(everything, counted=False))
    return "\n".join(rows)


def _row(tally: Tally, *, counted: bool) -> str:
    """A row; Schemathesis counts its requests, but not by status, and tells no times."""
    good = f"{tally.statuses[200]:,}" if counted else "–"
    refused = f"{sum(n for status, n in tally.statuses.items() if 400 <= status < 500):,}" if counted else "–"
    slowest = "–" if tally.slowest_s is None else f"{tally.slowest_s:.2f} s"
    over = "–" if tally.slowest_s is None else str(tally.over_a_second)
    cells = (
        *(tally.kind, tally.seed or "–", f"{tally.sent:,}", good, refused, str(tally.broken())),
        *(str(tally.unanswered), str(tally.stalled), str(tally.mismatches), over, slowest),
    )
    return f"| {' | '.join(cells)} |"


def read(path: Path) -> list[Tally]:
    """The pieces that are kept in a file."""
    found = []
    for line in path.read_text("utf-8").splitlines():
        values = json.loads(line)
        values["statuses"] = Counter({int(status): count for status, count in values["statuses"].items()})
        found.append(Tally(**values))
    return found


def write(table: str) -> None:
    """Put the table in its place in tests/bench/results/fuzz.md."""
    path = ROOT / "tests" / "bench" / "results" / "fuzz.md"
    text = path.read_text("utf-8")
    before, _, rest = text.partition(BEGIN)
    _, _, after = rest.partition(END)
    if not rest or not after:
        raise SystemExit(f"fuzz.md has no {BEGIN} … {END}.")
    path.write_text(f"{before}{BEGIN}\n{table}\n{END}{after}", "utf-8")


def main() -> int:
    """Run a piece, or tell what all pieces saw."""
    reader = argparse.ArgumentParser(prog="tests/bench/fuzz", description=__doc__.splitlines()[0])
    reader.add_argument("kind", choices=[*KINDS, "tell"], help="what to send, or only the summary of what was kept")
    reader.add_argument("--seed", type=int, default=1)
    reader.add_argument("--count", type=int, default=10_000, help="requests; for described, examples of each operation")
    reader.add_argument("--kept", type=Path, default=KEPT, help=f"the file of all pieces ({KEPT})")
    reader.add_argument("--write", action="store_true", help="put the summary into tests/bench/results/fuzz.md")
    asked = reader.parse_args()
    faults: list[str] = []
    if asked.kind != "tell":
        with tempfile.TemporaryDirectory() as folder, running(Path(folder)) as address:
            tally = PARTS[asked.kind](address, asked.seed, asked.count)
        faults = tally.faults
        with asked.kept.open("a", encoding="utf-8") as kept:
            kept.write(json.dumps(vars(tally)) + "\n")
    table = told(read(asked.kept))
    print("\n".join((*faults, table)))
    if asked.write:
        write(table)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
