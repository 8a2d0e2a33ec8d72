"""Replaces workers whose memory has grown by new ones: between requests, and one worker at a time.

Python seldom gives back to the system all that a heavy request took. A worker past its bound accepts no new connections
and ends once it has nothing in hand; the master starts another. Where that takes too long, as with a batch that its
client feeds slowly, it works on and tries again later. A file's lock says whose turn it is, and ends with its process.
"""

from __future__ import annotations

import fcntl
import logging
import os
from pathlib import Path

TURN = "retiring"
PATIENCE_SECONDS = 6.0
"""A little longer than a connection is waited for that says nothing."""
PAUSE_SECONDS = 30.0
ROOM = 1.5
"""The bound is at least this many times the memory at the start, or a low one would end each worker as it begins."""
logger = logging.getLogger("gaugerake.web")


class Retirement:
    """Tells one worker when to close its door and when to go; ``most_mb`` of 0 is no bound. Times are monotonic.

    One that is alone closes its door only when it has nothing in hand: nobody else would answer meanwhile.
    """

    def __init__(self, *, most_mb: int, folder: Path, is_alone: bool = False) -> None:
        begun_with = resident_bytes()
        self._most_bytes = max(most_mb * 1e6, ROOM * begun_with) if most_mb and begun_with else float("inf")
        self._turn = (folder / TURN).open("w")
        self._is_alone = is_alone
        self._since_s = self._again_s = 0.0
        self.is_leaving = False

    def weigh(self, in_hand: int, now_s: float) -> None:
        """Look at the memory; past the bound, and in turn, begin to leave."""
        if self.is_leaving or now_s < self._again_s or (self._is_alone and in_hand):
            return
        if resident_bytes() <= self._most_bytes or not self._has_turn():
            return
        self.is_leaving, self._since_s = True, now_s
        logger.info("a worker retires: it has %d MB in memory", resident_bytes() // 10**6, extra={"pid": os.getpid()})

    def is_due(self, in_hand: int, now_s: float) -> bool:
        """Whether to go now; a worker that has waited too long for its requests to end stays for a while."""
        if self.is_leaving and in_hand and now_s - self._since_s > PATIENCE_SECONDS:
            self.is_leaving, self._again_s = False, now_s + PAUSE_SECONDS
            fcntl.flock(self._turn, fcntl.LOCK_UN)
        return self.is_leaving and not in_hand

    def _has_turn(self) -> bool:
        try:
            fcntl.flock(self._turn, fcntl.LOCK_EX | fcntl.LOCK_NB)
        except BlockingIOError:
            return False
        return True


def resident_bytes() -> int:
    """The memory of this process that is not swapped out, with what it shares; 0 where the system does not tell."""
    try:
        pages = int(Path("/proc/self/statm").read_text("ascii").split()[1])
    except OSError:
        return 0
    return pages * os.sysconf("SC_PAGE_SIZE")
