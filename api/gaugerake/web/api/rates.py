"""How the jobs of a batch count against the rates of who asks: the first with its request, each other by itself.

A job that comes when a rate is used up is refused in its line and not waited with: a batch that waited would hold a
thread for minutes, and its client could not tell it from one that is stuck.
"""

from __future__ import annotations

import logging
import time
from typing import cast

from flask import current_app
from flask_limiter import Limiter, RequestLimit

LIMITER = "gaugerake.limiter"
logger = logging.getLogger("gaugerake.web")


class JobCount:
    """Counts the jobs of the request that is answered, against what the request itself was counted by."""

    def __init__(self) -> None:
        self._limiter = cast("Limiter", current_app.extensions[LIMITER])
        self._held = list(self._limiter.current_limits)
        self._is_first = True
        self._refused_until = 0.0
        self._failed: object = None

    def another(self) -> int:
        """Count a job; 0, or in how many seconds to send it again when a rate is used up."""
        if self._is_first:
            self._is_first = False
            return 0
        left_s = self._refused_until - time.monotonic()
        if left_s > 0:
            return int(left_s) + 1
        wait_s = max(map(self._wait, self._held), default=0)
        self._refused_until = time.monotonic() + wait_s
        return wait_s

    def _wait(self, held: RequestLimit) -> int:
        counting = self._limiter.limiter
        if counting is self._failed:
            return 0
        try:
            if counting.hit(held.limit, *held.request_args):
                return 0
            ends = counting.get_window_stats(held.limit, *held.request_args).reset_time
        except Exception:  # noqa: BLE001 - as for requests, nobody is refused, or waits twice, because of the counter
            logger.warning("the jobs of a batch are not counted: where counts are kept cannot be reached")
            self._failed = counting  # until the limiter, which has a memory of its own, counts in that
            return 0
        return min(max(1, int(ends - time.time()) + 1), held.limit.get_expiry())
