"""Gunicorn's worker, as it is here: its loop waits for no client, and what it refuses is a problem."""

import json
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from pathlib import Path
from socket import socketpair
from types import SimpleNamespace
from typing import Any, ClassVar

import pytest
from gunicorn.http.errors import InvalidRequestLine  # type: ignore[import-untyped]
from gunicorn.workers.gthread import ThreadWorker  # type: ignore[import-untyped]

from gaugerake.web.errors.problems import TABLE
from gaugerake.web.observe import metrics
from gaugerake.web.server.worker import Worker, answer, give_slot
from gaugerake.web.unread import STREAMS
from gaugerake.web.watched import ROW, WorkerRows


class Wire:
    """A socket that keeps what is sent."""

    def __init__(self) -> None:
        self.sent = b""

    def gettimeout(self) -> float:
        return 0.0

    def setblocking(self, _flag: bool) -> None:
        """Nothing."""

    def send(self, data: bytes) -> int:
        self.sent += data
        return len(data)

    sendall = send


class Queue:
    """Runs what is deferred at once."""

    def defer(self, call: Callable[..., Any], *given: Any) -> None:
        call(*given)


class Log:
    """Keeps what is logged."""

    def __init__(self) -> None:
        self.lines: list[str] = []

    def warning(self, message: str, *given: Any, **_more: Any) -> None:
        self.lines.append(message % given)

    error = warning


@pytest.fixture
def worker() -> Worker:
    worker: Worker = Worker.__new__(Worker)
    worker.closers, worker.method_queue, worker.log = ThreadPoolExecutor(1), Queue(), Log()
    worker.nr_conns = worker.in_hand = 1
    return worker


def test_the_loop_does_not_wait_for_a_client_to_close(worker: Worker) -> None:
    ours, theirs = socketpair()
    done = Future[bool]()
    done.set_result(False)
    worker.finish_request(SimpleNamespace(sock=ours), done)
    assert (theirs.recv(1), worker.nr_conns) == (b"", 1)  # it says that no more comes, and waits elsewhere
    theirs.close()
    worker.closers.shutdown(wait=True)
    assert (ours.fileno(), worker.nr_conns) == (-1, 0)


@pytest.mark.parametrize(
    ("error", "status", "code"),
    [
        (InvalidRequestLine("GET /v1/quotes/secret-token"), 400, "bad-request"),
        (ValueError("secret-token"), 500, "internal-error"),
    ],
)
def test_what_the_worker_refuses_is_a_problem_and_not_logged(
    worker: Worker, error: Exception, status: int, code: str
) -> None:
    wire = Wire()
    worker.handle_error(None, wire, ("127.0.0.1", 1), error)
    head, _, body = wire.sent.partition(b"\r\n\r\n")
    problem = json.loads(body)
    assert head.startswith(b"HTTP/1.1 %d " % status)
    assert b"Content-Length: %d\r\n" % len(body) in head
    assert (problem["status"], problem["code"]) == (status, code)
    assert f"X-Request-Id: {problem['request_id']}".encode() in head
    assert "secret-token" not in wire.sent.decode() + str(worker.log.lines)


def test_every_kind_can_be_answered_by_the_worker() -> None:
    for kind in TABLE.values():
        assert answer(kind, "one").startswith(b"HTTP/1.1 %d " % kind.status)


def test_a_new_worker_takes_the_lowest_slot_that_is_free() -> None:
    class Server:
        WORKERS: ClassVar[dict[int, Any]] = {}

    class Slotted:
        slot = 0

    for pid, gone, expected in ((1, None, 1), (2, None, 2), (3, None, 3), (4, 2, 2), (5, None, 4)):
        Server.WORKERS.pop(gone, None)  # type: ignore[arg-type]
        worker = Slotted()
        give_slot(Server, worker)
        Server.WORKERS[pid] = worker
        assert worker.slot == expected


@pytest.mark.parametrize("leaving", [False, True])
def test_a_worker_that_retires_keeps_no_connection_and_notes_what_it_works_on(
    worker: Worker, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, leaving: bool
) -> None:
    rows, closed = WorkerRows(1), []

    def app(environ: dict[str, Any], start: Callable[..., Any]) -> list[bytes]:
        environ[ROW].begin("one", "GET", "/v1/units")
        assert [found.request_id for found in rows.over(0)] == ["one"]
        start("200 OK", [])
        return [b"body"]

    monkeypatch.setattr(ThreadWorker, "load_wsgi", lambda worker: setattr(worker, "wsgi", app))
    request = SimpleNamespace(force_close=lambda: closed.append(True))
    worker.here = SimpleNamespace(conn=SimpleNamespace(parser=None), req=request, row=rows.row(0))
    worker.cfg = SimpleNamespace(workers=2, most_memory_mb=0)
    monkeypatch.setenv(metrics.DIRECTORY, str(tmp_path))
    worker.load_wsgi()
    worker.retirement._turn.close()
    worker.retirement.is_leaving = leaving
    assert worker.wsgi({STREAMS: True}, lambda *_given: None) == [b"body"]
    assert closed == [True] * leaving
    assert [*rows.over(0)] == []
