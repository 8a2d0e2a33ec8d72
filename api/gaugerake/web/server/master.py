"""The master of the workers: gunicorn's, which also says what its workers have had in hand for too long.

A worker that does not beat for ``timeout`` seconds is ended, with all that it has in hand. What it was is logged before
that, by ``watched_seconds``; and so is a request that keeps its thread alone, whose worker lives.
"""

from __future__ import annotations

import logging
import time
from signal import SIG_BLOCK, SIG_UNBLOCK, pthread_sigmask
from typing import Any

from gunicorn.arbiter import Arbiter  # type: ignore[import-untyped]

from gaugerake.web.server.worker import ENDS
from gaugerake.web.watched import WorkerRows

logger = logging.getLogger("gaugerake.watch")


class Master(Arbiter):  # type: ignore[misc]
    """Watches what its workers work on, and forks them so that none misses a stop."""

    def spawn_worker(self) -> int:
        """Fork a worker. Ends that it is told wait until it hears them: Python forgets what comes just after a fork."""
        pthread_sigmask(SIG_BLOCK, ENDS)
        try:
            return int(super().spawn_worker())
        finally:
            pthread_sigmask(SIG_UNBLOCK, ENDS)

    def murder_workers(self) -> None:
        """Log what is worked on for too long, then end the workers that do not beat; once a second."""
        for worker in self.WORKERS.values():
            self.watch(worker)
        super().murder_workers()

    def watch(self, worker: Any) -> None:
        """Log what a worker has been working on for too long, each once."""
        request_rows: WorkerRows = worker.request_rows
        for found in request_rows.over(self.cfg.watched_seconds):
            said = {
                "request_id": found.request_id,
                "method": found.method,
                "route": found.route or None,
                "milliseconds": round((time.monotonic() - found.began_s) * 1000),
                "pid": worker.pid,
            }
            logger.error("a request is in hand for too long", extra=said)
