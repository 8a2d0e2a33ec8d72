"""A worker of gunicorn's: threads, problems for what is not HTTP, a slot in the metrics, and a main loop never held up.

Decisions:

* The main loop only accepts connections; threads close them. Gunicorn's own worker closes them in the loop, and waits
  up to two seconds for each client that does not close its end: beside 20 such clients a request waited for 20 s, and
  waits for 0.04 s now.
* A worker that stops first accepts the connections that wait already: without that one of five stops under 60 clients
  reset a connection, with it none of five.
* A worker hears the signals that the master sent before it listened: without that a stop in the first moments takes
  half a minute.
* A worker waits a moment for each request in hand before it accepts a connection, so that one with less to do takes it.
  Otherwise the first to wake takes it, and a connection that is kept alive stays: two clients often met in one worker
  while the other was idle, and got half of the answers (tests/bench/results/speed.md, "The worker").
"""

from __future__ import annotations

import os
import time
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import suppress
from http import HTTPStatus
from itertools import count
from pathlib import Path
from signal import SIG_UNBLOCK, SIGINT, SIGQUIT, SIGTERM, pthread_sigmask
from socket import SHUT_WR
from threading import local
from typing import TYPE_CHECKING, Any
from uuid import uuid4

import orjson
from gunicorn import util  # type: ignore[import-untyped]
from gunicorn.glogging import Logger  # type: ignore[import-untyped]
from gunicorn.http.errors import ParseException  # type: ignore[import-untyped]
from gunicorn.workers.gthread import ThreadWorker  # type: ignore[import-untyped]
from werkzeug.exceptions import HTTPException

from gaugerake.web import unread
from gaugerake.web.errors.problems import MEDIA_TYPE, TABLE, ProblemKind
from gaugerake.web.observe import metrics
from gaugerake.web.server.retirement import Retirement
from gaugerake.web.watched import ROW, WorkerRows

if TYPE_CHECKING:
    from collections.abc import Iterable

    from _typeshed.wsgi import StartResponse, WSGIApplication, WSGIEnvironment

ENDS = {SIGTERM, SIGINT, SIGQUIT}
LOOK_SECONDS = 1.0
CLOSERS = 16
LINGER_SECONDS = 2.0
ASIDE_SECONDS, LONGEST_ASIDE_SECONDS = 0.002, 0.01
MOST_LINGER_BYTES = 8 << 20
_ANSWER = (
    "HTTP/1.1 {status} {reason}\r\nConnection: close\r\nContent-Type: {media_type}\r\nContent-Length: {length}\r\n"
    "X-Request-Id: {id}\r\nX-Content-Type-Options: nosniff\r\nCache-Control: no-store\r\n\r\n"
)


def before_fork(server: Any, worker: Any) -> None:
    """Give a worker its slot, and where it writes what it works on."""
    give_slot(server, worker)
    worker.request_rows = WorkerRows(worker.cfg.threads)


def give_slot(server: Any, worker: Any) -> None:
    """The lowest slot that no worker has."""
    taken = {other.slot for other in server.WORKERS.values()}
    worker.slot = next(slot for slot in count(1) if slot not in taken)


def free_slot(_server: Any, worker: Any) -> None:
    """A worker is gone, however it ended."""
    metrics.drop_slot(worker.slot)


class Log(Logger):  # type: ignore[misc]
    """Gunicorn's log without its access lines: `web.observe.traces` writes those, with a request id and no address."""

    def access(self, *_given: Any) -> None:
        """Nothing."""


class Worker(ThreadWorker):  # type: ignore[misc]
    """Threads that answer, and one loop that waits."""

    wsgi: WSGIApplication
    slot = 0
    request_rows: WorkerRows
    retires = False
    looked = 0.0
    in_hand = 0
    """Connections of which a thread reads or answers a request."""

    def init_process(self) -> None:
        """Take the slot's place in the metrics, then serve."""
        metrics.take_slot(self.slot)
        self.here, self.row_numbers = local(), count()
        self.closers = ThreadPoolExecutor(CLOSERS, "closing")
        super().init_process()

    def init_signals(self) -> None:
        """Hear signals, and what has waited since before the fork: the master tells a worker once."""
        super().init_signals()
        pthread_sigmask(SIG_UNBLOCK, ENDS)

    def notify(self) -> None:
        """Say that the loop lives; now and then, put in the metrics what is served, and look whether to retire."""
        super().notify()
        now = time.monotonic()
        if now - self.looked >= LOOK_SECONDS and self.app.callable is not None:
            self.looked = now
            metrics.observe(self.app.callable)
            self.retirement.weigh(self.in_hand, now)
        if self.alive and self.retirement.is_due(self.in_hand, now):
            self.retires = True
            self.handle_exit(SIGTERM, None)

    def accept(self, listener: Any) -> None:
        """Take a connection, if no worker with less in hand has taken it meanwhile."""
        if self.in_hand and self.cfg.workers > 1:
            time.sleep(min(ASIDE_SECONDS * self.in_hand, LONGEST_ASIDE_SECONDS))
        super().accept(listener)

    def enqueue_req(self, conn: Any) -> None:
        """Give a connection to a thread."""
        self.in_hand += 1
        super().enqueue_req(conn)

    def set_accept_enabled(self, enabled: bool) -> None:
        """Accept connections or not.

        A worker that stops first accepts those that wait already, and then closes its sockets: later ones are refused
        by the system or accepted by another worker, and none is reset. One that retires leaves the waiting to others.
        """
        enabled = enabled and not self.retirement.is_leaving
        stopping = not enabled and not self.alive and not self.retires
        if stopping:
            for listener in self.sockets:
                self._accept_all(listener)
        super().set_accept_enabled(enabled)
        if stopping:
            for listener in self.sockets:
                listener.close()

    def _accept_all(self, listener: Any) -> None:
        known = -1
        while known != self.nr_conns < self.worker_connections:
            known = self.nr_conns
            super().accept(listener)

    def load_wsgi(self) -> None:
        """Load the app; before each answer goes, settle what is left of the request's body."""
        super().load_wsgi()
        folder, alone = Path(os.environ[metrics.DIRECTORY]), self.cfg.workers == 1
        self.retirement = Retirement(most_mb=self.cfg.most_memory_mb, folder=folder, is_alone=alone)
        app, here = self.wsgi, self.here

        def settled(environ: WSGIEnvironment, start_response: StartResponse) -> Iterable[bytes]:
            conn, req = here.conn, here.req

            def start(status: str, headers: list[tuple[str, str]], exc_info: Any = None) -> Any:
                if not unread.is_all_read(conn.parser, environ) or self.retirement.is_leaving:
                    req.force_close()
                return start_response(status, headers, exc_info)

            environ[ROW] = here.row
            try:
                return app(environ, start)
            finally:
                here.row.end()

        self.wsgi = settled

    def handle_request(self, req: Any, conn: Any) -> Any:
        """Answer a request; this thread knows meanwhile which, and has a row in which it writes so."""
        if not hasattr(self.here, "row"):
            self.here.row = self.request_rows.row(next(self.row_numbers))
        self.here.req, self.here.conn = req, conn
        return super().handle_request(req, conn)

    def finish_request(self, conn: Any, fs: Future[Any]) -> None:
        """Keep a connection, or say that no more will come and have a thread wait for the client to say so too."""
        self.in_hand -= 1
        failed = fs.cancelled() or fs.exception() is not None
        if not failed and not fs.result():
            with suppress(OSError):  # it may be closed already
                conn.sock.shutdown(SHUT_WR)
            closing = self.closers.submit(_close, conn)
            closing.add_done_callback(lambda _: self.method_queue.defer(self._closed))
            return
        super().finish_request(conn, fs)

    def _closed(self) -> None:
        self.nr_conns -= 1

    def handle_error(self, req: Any, client: Any, addr: Any, exc: BaseException) -> None:
        """Answer with a problem; log what kind of fault it is, and nothing that was sent."""
        request_id = uuid4().hex
        if isinstance(exc, ParseException):
            self.log.warning("a request could not be read: %s", type(exc).__name__, extra={"request_id": request_id})
            kind = TABLE[HTTPException]
        else:
            self.log.error("a request could not be handled", exc_info=exc, extra={"request_id": request_id})
            kind = TABLE[Exception]
        with suppress(OSError):  # who is gone needs no answer
            util.write_nonblock(client, answer(kind, request_id))


def _close(conn: Any) -> None:
    """Close a connection when its client has, or has sent no more for a while: what comes is thrown away.

    Closed with bytes unread, it would be reset, and the client might lose the answer that it has not read yet.
    """
    util.close_graceful(conn.sock, timeout=LINGER_SECONDS, max_drain=MOST_LINGER_BYTES)


def answer(kind: ProblemKind, request_id: str) -> bytes:
    """A whole HTTP answer with a problem in it."""
    problem = {
        "type": f"/problems/{kind.code}",
        "title": kind.title(),
        "status": kind.status,
        "detail": f"{kind.title()}.",
        "code": kind.code,
        "request_id": request_id,
        "errors": [],
    }
    body = orjson.dumps(problem)
    reason = HTTPStatus(kind.status).phrase
    head = _ANSWER.format(status=kind.status, reason=reason, media_type=MEDIA_TYPE, length=len(body), id=request_id)
    return head.encode("ascii") + body
