"""A worker that has grown too large makes place for another, and no request is lost by it."""

import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.faults.batches import Batch
from tests.faults.load import ANSWERED, Load
from tests.faults.processes import Service, eventually

GROWING = """
import sys
from gaugerake.web.server import serving

kept = []

def growing(*given, whole=serving.create_app, **named):
    app = whole(*given, **named)
    app.add_url_rule("/grow", view_func=lambda: kept.append(b"x" * 100_000_000) or "grown")
    return app

serving.create_app = growing
serving.settings = lambda *given, whole=serving.settings: whole(*given) | {"most_memory_mb": 150}
from gaugerake.cli import main
sys.exit(main())
"""


class Growing(Service):
    """A service whose workers may have 150 MB, and take 100 MB more when told to."""

    def start(self) -> None:
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-c", GROWING, "serve", "--port", str(self.port), "--workers", "2"],
                env=self._env,
                stdout=log,
                stderr=log,
            )
        eventually(lambda: b"gaugerake serves on" in self.log.read_bytes() and self.alive(), "the service up")
        eventually(lambda: len(self.workers()) == 2, "both workers up")

    def grow(self, times: int) -> None:
        for _ in range(times):
            assert self.text("/grow") == "grown"

    def retired(self) -> int:
        """How many workers have begun to retire."""
        return self.log.read_text().count("a worker retires")


@pytest.fixture
def growing(tmp_path: Path) -> Iterator[Growing]:
    service = Growing(tmp_path, f"sqlite:///{tmp_path / 'growing.sqlite3'}")
    yield service
    service.stop()


def test_workers_that_have_grown_are_replaced_and_no_request_is_lost(growing: Growing) -> None:
    load = Load(growing.port, "grow")
    with load.running():
        for _ in range(3):
            before = growing.workers()
            growing.grow(4)
            eventually(lambda before=before: growing.workers() - before, "another in its place")
            load.wait_for(20)
        eventually(lambda: len(growing.workers()) == 2, "two workers")
    assert [sent for sent in load.sent if sent.outcome != ANSWERED] == []
    assert growing.retired() >= 3


def test_a_worker_with_a_batch_in_hand_answers_it_first(growing: Growing) -> None:
    batches = [Batch(growing) for _ in range(3)]
    for batch in batches:
        batch.send()
    before = growing.workers()
    growing.grow(6)
    eventually(lambda: growing.retired(), "one would retire")
    assert growing.alive()
    for batch in batches:
        batch.send()
        batch.end()
    eventually(lambda: growing.workers() - before, "another in its place")
