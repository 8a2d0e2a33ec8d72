"""The lines of a long body, taken in while they are answered, in bounded memory.

A client that sends everything before it reads, as most do, and a service that reads only when it has written would wait
for each other for ever. So a thread of its own takes the body in, and what the client sends ahead of the answers waits
in a spool: in memory while it is small, then in a file without a name. A line that is too long to be read is cut.

Decisions:

* A batch is taken in by a thread and spooled, because most clients send all before they read. Limits are 10,000 jobs,
  256 MB and 256 kB a line. Blank lines are passed over but counted. All lines come from one revision. A last problem
  without ``line`` says that the batch was too large or cut short.
* ``intake.Prompt`` reads gunicorn's bodies below its ``readline``, which waits for a whole kilobyte. It leans on
  gunicorn's internals; ``tests/faults/test_batches_on_the_wire.py`` tells when they change.
"""

from __future__ import annotations

import io
from collections import deque
from collections.abc import Iterator
from tempfile import SpooledTemporaryFile
from threading import Condition, Thread
from typing import IO, TYPE_CHECKING, Any, cast

from gunicorn.http.body import Body, ChunkedReader, LengthReader  # type: ignore[import-untyped]
from werkzeug.wsgi import get_input_stream

if TYPE_CHECKING:
    from _typeshed.wsgi import WSGIEnvironment

MOST_IN_MEMORY = 1 << 20
PIECE = 1 << 16


class Intake:
    """The lines of a stream, without their ends; blank ones are left out.

    ``length`` is what the body says of itself, when it does. With ``whole_first`` no line comes out before the body is
    whole: nginx stops passing a body on when its answer has begun and its socket is full for a moment (seen in 1.22),
    and client and service would wait for each other for ever.

    ``cut_short`` says afterwards whether the body ended before it was whole, ``too_much`` whether it went on after
    ``most_lines`` or ``most_bytes``. What goes on is read and thrown away, as an answer in the middle of a body is an
    answer that many clients never see; up to as many bytes again.
    """

    def __init__(
        self,
        stream: IO[bytes],
        *,
        most_line: int,
        most_lines: int,
        most_bytes: int,
        length: int | None = None,
        whole_first: bool = False,
    ) -> None:
        self._stream, self._length, self._whole_first = stream, length, whole_first
        self._most_line, self._most_lines, self._most_bytes = most_line, most_lines, most_bytes
        self._spool = SpooledTemporaryFile(max_size=MOST_IN_MEMORY)  # noqa: SIM115 - closed with the lines
        self._waiting: deque[tuple[int, int]] = deque()  # number and length of each line in the spool
        self._size = 0
        self._read_at = self._write_at = 0
        self._turn = Condition()
        self._done = self._stopped = False
        self.cut_short = self.too_much = False

    def lines(self) -> Iterator[tuple[int, bytes]]:
        """The number of each line in the body, from 1, and the line, hardly longer than the longest that is read."""
        Thread(target=self._take_in, name="intake", daemon=True).start()
        try:
            while (line := self._next()) is not None:
                yield line
        finally:
            with self._turn:
                self._stopped = True
                self._spool.close()

    def _next(self) -> tuple[int, bytes] | None:
        with self._turn:
            self._turn.wait_for(lambda: self._done or (self._waiting and not self._whole_first))
            if not self._waiting:
                return None
            number, length = self._waiting.popleft()
            self._spool.seek(self._read_at)
            self._read_at += length
            return number, self._spool.read(length)

    def _take_in(self) -> None:
        try:
            self._read_lines()
        except Exception:  # noqa: BLE001 - whatever breaks a body off, its reader is told that it was
            self.cut_short = True
        with self._turn:
            self._done = True
            self._turn.notify()

    def _read_lines(self) -> None:
        number = kept = 0
        while (line := self._read_line()) and not self._stopped and self._size <= 2 * self._most_bytes:
            number += 1
            if line.strip(b" \t\r\n"):
                kept += 1
                self.too_much = self.too_much or kept > self._most_lines or self._size > self._most_bytes
                if not self.too_much:
                    self._keep(number, line.rstrip(b"\r\n"))
        self.cut_short = not line and self._size < (self._length or 0)

    def _read_line(self) -> bytes:
        """The next line with its end, or as much of it as can matter; empty at the end of the body."""
        line = self._stream.readline(self._most_line + 2)
        rest = line
        self._size += len(line)
        while rest and not rest.endswith(b"\n") and self._size <= 2 * self._most_bytes:
            rest = self._stream.readline(PIECE)
            self._size += len(rest)
        return line

    def _keep(self, number: int, line: bytes) -> None:
        with self._turn:
            if self._stopped:
                return
            if not self._waiting:
                self._read_at = self._write_at = 0
                self._spool.seek(0)
                self._spool.truncate()
            self._spool.seek(self._write_at)
            self._spool.write(line)
            self._write_at += len(line)
            self._waiting.append((number, len(line)))
            self._turn.notify()


class Prompt(io.RawIOBase):
    """A body of gunicorn's, of stated length or in chunks, read as it comes.

    Gunicorn's own ``readline`` waits until a kilobyte or the end has come, and a client that waits for the answer to
    its line before it sends the next would wait with it.
    """

    def __init__(self, body: Body) -> None:
        super().__init__()
        self._body, self._reader = body, body.reader

    def readable(self) -> bool:
        """It is."""
        return True

    def readinto(self, target: Any) -> int:
        """Take what has come; when nothing has, wait for one byte and take what came with it."""
        data = b"" if self._held() else self._body._read_reader(1)
        more = min(self._held(), len(target) - len(data))
        if more:
            data += self._body._read_reader(more)
        target[: len(data)] = data
        return len(data)

    def _held(self) -> int:
        """How many bytes gunicorn has read from the client and not given out; some may be the next request's."""
        chunked = isinstance(self._reader, ChunkedReader)
        return int((self._reader if chunked else self._reader.unreader).buf.getbuffer().nbytes)


def stream_of(environ: WSGIEnvironment) -> IO[bytes]:
    """The body of a request, to be read by lines, each as soon as it is there."""
    body: Any = environ["wsgi.input"]
    prompt = isinstance(body, Body) and isinstance(body.reader, ChunkedReader | LengthReader)
    stream: Any = Prompt(body) if prompt else get_input_stream(environ)
    return cast("IO[bytes]", io.BufferedReader(stream, PIECE)) if isinstance(stream, io.RawIOBase) else stream
