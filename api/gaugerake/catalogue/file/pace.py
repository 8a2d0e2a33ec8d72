"""How fast a catalogue is read: at once, or in short turns, so that a worker goes on answering meanwhile.

A thread that computes gives Python's lock away every 5 ms, so a quote beside it takes twice as long. In turns of
`TURN_SECONDS` with rests between, the reading thread asks for the lock seldom and keeps it for a moment. Reading takes
three times as long so: a second for 250 kB, some eight for the largest file that is read.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager

TURN_SECONDS = 0.001
REST_SECONDS = 0.002


class _Pace(threading.local):
    until: float | None = None
    """When this thread's turn ends; None where it reads at once."""


_pace = _Pace()


@contextmanager
def in_turns() -> Iterator[None]:
    """Let what this thread reads rest between short turns."""
    before, _pace.until = _pace.until, time.perf_counter() + TURN_SECONDS
    try:
        yield
    finally:
        _pace.until = before


def rest() -> None:
    """Rest when the turn is over; called at every few microseconds of reading."""
    if _pace.until is not None and time.perf_counter() > _pace.until:
        time.sleep(REST_SECONDS)
        _pace.until = time.perf_counter() + TURN_SECONDS
