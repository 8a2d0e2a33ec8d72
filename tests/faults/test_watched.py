"""What a worker works on for too long is logged before the worker goes, whether the GIL is held or not."""

import json
import subprocess
import sys
import threading
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
import requests
from tests.faults.processes import Service, eventually

BLOCKING = """
import ctypes, sys, time
from gaugerake.web.api.resources import batches
from gaugerake.web.server import serving

def hold(seconds):
    ctypes.PyDLL(None).sleep(seconds)  # as a call into C that never lets go of the GIL
    return "held"

def let_go(seconds):
    time.sleep(seconds)
    return "let go"

def with_blocks(*given, whole=serving.create_app, **named):
    app = whole(*given, **named)
    app.add_url_rule("/hold/<int:seconds>/<secret>", view_func=lambda seconds, secret: hold(seconds), endpoint="hold")
    app.add_url_rule("/let-go/<int:seconds>/<secret>", view_func=lambda seconds, secret: let_go(seconds), endpoint="go")
    return app

def blocking_line(number, line, snapshot, whole=batches._answer):
    if b"hold" in line:
        hold(60)
    return whole(number, line, snapshot)

batches._answer = blocking_line
serving.create_app = with_blocks
serving.settings = lambda *given, whole=serving.settings: whole(*given) | {"timeout": 5, "watched_seconds": 2}
from gaugerake.cli import main
sys.exit(main())
"""


class Blocking(Service):
    """A service with routes that block, whose workers may be silent for 5 s and work on a request for 2."""

    def start(self) -> None:
        with self.log.open("ab") as log:
            self.process = subprocess.Popen(
                [sys.executable, "-c", BLOCKING, "serve", "--port", str(self.port), "--workers", "2"],
                env=self._env,
                stdout=log,
                stderr=log,
            )
        eventually(lambda: b"gaugerake serves on" in self.log.read_bytes() and self.alive(), "the service up")
        eventually(lambda: len(self.workers()) == 2, "both workers up")

    def ask(self, path: str, request_id: str) -> threading.Thread:
        """Ask, and do not wait for the answer, which may never come."""
        request = urllib.request.Request(f"http://127.0.0.1:{self.port}{path}", headers={"X-Request-Id": request_id})
        thread = threading.Thread(target=_asked, args=(request,), daemon=True)
        thread.start()
        return thread

    def lines(self) -> list[dict[str, Any]]:
        """What is logged."""
        return [json.loads(line) for line in self.log.read_text().splitlines() if line.startswith("{")]

    def told(self, request_id: str) -> list[dict[str, Any]]:
        """What the watch says of a request."""
        lines = (line for line in self.lines() if line["logger"] == "gaugerake.watch")
        return [line for line in lines if line["request_id"] == request_id]


def _asked(request: urllib.request.Request) -> None:
    try:
        with urllib.request.urlopen(request, timeout=60) as response:
            response.read()
    except OSError:
        return


@pytest.fixture
def blocking(tmp_path: Path) -> Iterator[Blocking]:
    service = Blocking(tmp_path, f"sqlite:///{tmp_path / 'blocking.sqlite3'}")
    yield service
    service.stop()


def ended(service: Blocking) -> list[int]:
    """At which lines of the log workers were ended."""
    return [at for at, line in enumerate(service.lines()) if "WORKER TIMEOUT" in line["message"]]


def test_a_worker_that_holds_the_gil_is_ended_and_its_requests_are_logged_before(blocking: Blocking) -> None:
    before = blocking.workers()
    blocking.ask("/hold/60/a-secret", "holds")
    eventually(lambda: ended(blocking), "the worker ended")
    eventually(lambda: len(blocking.workers()) == 2 and blocking.workers() != before, "another in its place")
    [line] = blocking.told("holds")
    assert (line["level"], line["method"], line["route"]) == ("error", "GET", "/hold/<int:seconds>/<secret>")
    assert 2000 <= line["milliseconds"] <= 5000
    assert line["pid"] in before
    assert blocking.lines().index(line) < ended(blocking)[0]
    assert "a-secret" not in blocking.log.read_text()
    assert blocking.alive()


def test_a_request_that_waits_without_the_gil_is_logged_once_and_its_worker_lives(blocking: Blocking) -> None:
    before = blocking.workers()
    asked = blocking.ask("/let-go/7/a-secret", "waits")
    eventually(lambda: blocking.told("waits"), "logged")
    assert blocking.alive()
    asked.join(60)
    [line] = blocking.told("waits")
    assert (line["route"], line["pid"] in before) == ("/let-go/<int:seconds>/<secret>", True)
    assert (blocking.workers(), ended(blocking)) == (before, [])
    assert "a-secret" not in blocking.log.read_text()


def test_a_line_of_a_batch_is_watched_and_the_wait_for_the_next_is_not(blocking: Blocking) -> None:
    def jobs() -> Iterator[bytes]:
        yield b'{"system": "level-clear"}\n'
        time.sleep(4)
        yield b'{"system": "hold"}\n'

    headers = {"Content-Type": "application/x-ndjson", "X-Request-Id": "batch"}
    with pytest.raises(requests.RequestException):
        requests.post(f"http://127.0.0.1:{blocking.port}/v1/batches", jobs(), headers=headers, timeout=60)
    [line] = blocking.told("batch")
    assert (line["method"], line["route"]) == ("POST", "/v1/batches")
    assert line["milliseconds"] <= 5000
