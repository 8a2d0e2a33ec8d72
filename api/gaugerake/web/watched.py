"""The requests that a worker is answering, in memory shared with the master, who logs those that take too long.

The master can read it whatever the worker does, even while that holds the GIL. Each thread of a worker has a row, and
writes into it which request it works on and since when. While it waits for the client of a batch it works on nothing.
The master looks once a second.
"""

from __future__ import annotations

import struct
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from mmap import mmap
from typing import Any, NamedTuple

ROW = "gaugerake.row"
"""The place in the environ of the row of the thread that answers."""
_BEGAN = struct.Struct("d")
_REQUEST = struct.Struct("64s8s128s")
_SIZE = _BEGAN.size + _REQUEST.size


class RunningRequest(NamedTuple):
    """A request that is worked on; ``began_s`` is of the monotonic clock, which all processes of a machine share."""

    request_id: str
    method: str
    route: str
    began_s: float


class Row:
    """Where one thread writes what it works on."""

    def __init__(self, memory: mmap, at: int) -> None:
        self._memory, self._at = memory, at

    def begin(self, request_id: str, method: str, route: str | None) -> None:
        """Work on a request begins."""
        self.end()
        texts = (text.encode()[:most] for text, most in ((request_id, 64), (method, 8), (route or "", 128)))
        _REQUEST.pack_into(self._memory, self._at + _BEGAN.size, *texts)
        self.resume()

    def resume(self) -> None:
        """Work on the same request goes on: its time is counted from now."""
        _BEGAN.pack_into(self._memory, self._at, time.monotonic())

    def end(self) -> None:
        """Nothing is worked on."""
        _BEGAN.pack_into(self._memory, self._at, 0.0)


class WorkerRows:
    """The rows of one worker, made before it is forked so that the master has them too."""

    def __init__(self, threads: int) -> None:
        self._memory = mmap(-1, threads * _SIZE)
        self._places = range(0, threads * _SIZE, _SIZE)
        self._seen: set[tuple[int, float]] = set()

    def row(self, number: int) -> Row:
        """The row of one of its threads, from 0."""
        return Row(self._memory, self._places[number])

    def over(self, seconds: float) -> Iterator[RunningRequest]:
        """What has been worked on for more than so long, each once."""
        for place in self._places:
            found = self._read(place)
            if found is None or time.monotonic() - found.began_s < seconds or (place, found.began_s) in self._seen:
                continue
            self._seen = {one for one in self._seen if one[0] != place} | {(place, found.began_s)}
            yield found

    def _read(self, place: int) -> RunningRequest | None:
        """What stands in a row; None when it is nothing, or is being written."""
        (began_s,) = _BEGAN.unpack_from(self._memory, place)
        texts = _REQUEST.unpack_from(self._memory, place + _BEGAN.size)
        if not began_s or _BEGAN.unpack_from(self._memory, place) != (began_s,):
            return None
        request_id, method, route = (text.rstrip(b"\0").decode(errors="replace") for text in texts)
        return RunningRequest(request_id, method, route, began_s)


@contextmanager
def at_work(environ: Mapping[str, Any]) -> Iterator[None]:
    """Mark a block as work on a request whose answer is sent piece by piece; between blocks it waits for its client."""
    row: Row | None = environ.get(ROW)
    if row is None:
        yield
        return
    row.resume()
    try:
        yield
    finally:
        row.end()
