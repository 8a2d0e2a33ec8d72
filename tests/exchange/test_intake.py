"""The intake: lines in order whoever is faster, in bounded memory, and an end to what has none."""

import io
import socket
import threading
from collections.abc import Iterator
from typing import IO, cast

import pytest
from gunicorn.http.body import Body, ChunkedReader, LengthReader  # type: ignore[import-untyped]
from gunicorn.http.unreader import IterUnreader, SocketUnreader  # type: ignore[import-untyped]
from hypothesis import given, settings
from hypothesis import strategies as st

from gaugerake.web.json_in import intake as intakes
from gaugerake.web.json_in.intake import Intake, stream_of


def intake(stream: object, *, most_line: int = 100, most_lines: int = 1000, most_bytes: int = 10**6) -> Intake:
    return Intake(cast(IO[bytes], stream), most_line=most_line, most_lines=most_lines, most_bytes=most_bytes)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.binary(max_size=20).filter(lambda line: b"\n" not in line and b"\r" not in line), max_size=30))
def test_lines_come_out_as_they_went_in_less_the_blank_ones(lines: list[bytes]) -> None:
    found = list(intake(io.BytesIO(b"\n".join(lines))).lines())
    assert found == [(number, line) for number, line in enumerate(lines, 1) if line.strip(b" \t\r\n")]


def test_a_line_comes_out_before_the_next_one_is_there() -> None:
    answered = threading.Event()

    class Patient:
        """Sends the second line only when the first was answered."""

        left = iter([b"one\n", b"two\n"])

        def readline(self, _size: int) -> bytes:
            line = next(self.left, b"")
            if line == b"two\n":
                assert answered.wait(20)
            return line

    found = []
    for _, line in intake(Patient()).lines():
        found.append(line)
        answered.set()
    assert found == [b"one", b"two"]


def test_a_body_that_is_wanted_whole_is_in_before_its_first_line_comes_out() -> None:
    ours, theirs = socket.socketpair()
    stream = cast(IO[bytes], ours.makefile("rb"))
    whole = Intake(stream, most_line=9, most_lines=9, most_bytes=99, whole_first=True)
    found: list[tuple[int, bytes]] = []
    reader = threading.Thread(target=lambda: found.extend(whole.lines()))
    reader.start()
    theirs.sendall(b"one\n")
    reader.join(0.2)
    assert (reader.is_alive(), found) == (True, [])
    theirs.sendall(b"two\n")
    theirs.close()
    reader.join(20)
    assert found == [(1, b"one"), (2, b"two")]
    stream.close()
    ours.close()


def test_a_client_that_sends_all_before_it_reads_is_not_waited_for() -> None:
    all_in = threading.Event()

    class Hasty:
        """Sends far more than is kept in memory, and is done before anything is answered."""

        left = iter([b"x" * 99 + b"\n"] * 30_000)

        def readline(self, _size: int) -> bytes:
            line = next(self.left, b"")
            if not line:
                all_in.set()
            return line

    hasty = intake(Hasty(), most_lines=50_000, most_bytes=10**7)
    lines = hasty.lines()
    first = next(lines)
    assert all_in.wait(60)
    assert hasty._spool._rolled  # type: ignore[attr-defined]
    assert [first, *lines] == [(number, b"x" * 99) for number in range(1, 30_001)]


def test_what_was_answered_takes_no_more_room() -> None:
    turn = threading.Semaphore(1)

    class InStep:
        """Sends each line when the one before was answered."""

        left = iter([b"x" * 99 + b"\n"] * 2000)

        def readline(self, _size: int) -> bytes:
            assert turn.acquire(timeout=20)
            return next(self.left, b"")

    steady = intake(InStep(), most_lines=5000)
    for _, _line in steady.lines():
        assert steady._write_at <= 200
        turn.release()


@pytest.mark.parametrize("line", [b"y" * 101, b"y" * 250, b"y" * 10**5])
def test_a_line_that_is_too_long_is_cut_and_the_next_is_whole(line: bytes) -> None:
    found = list(intake(io.BytesIO(line + b"\nnext\n")).lines())
    assert [(number, len(text) > 100, len(text) <= 102) for number, text in found] == [
        (1, True, True),
        (2, False, True),
    ]


def test_too_many_lines_are_said_and_read_to_the_end() -> None:
    stream = io.BytesIO(b"a\n" * 10)
    many = intake(stream, most_lines=3)
    assert len(list(many.lines())) == 3
    assert (many.too_much, many.cut_short, stream.read()) == (True, False, b"")


@pytest.mark.parametrize("line", [b"a" * 50 + b"\n", b"a" * 70_000])
def test_what_never_ends_is_left_at_last(line: bytes) -> None:
    class Endless:
        sent = 0

        def readline(self, size: int) -> bytes:
            piece = line[:size]
            self.sent += len(piece)
            return piece

    stream = Endless()
    endless = intake(stream, most_lines=10**6, most_bytes=1000)
    assert len(list(endless.lines())) <= 20
    assert endless.too_much or line[-1:] != b"\n"
    assert stream.sent <= 2 * 1000 + intakes.PIECE + 102


def test_a_body_that_breaks_off_is_said_to_after_what_came_before() -> None:
    class Broken:
        left: Iterator[bytes] = iter([b"one\n"])

        def readline(self, _size: int) -> bytes:
            for line in self.left:
                return line
            raise OSError("the peer is gone")

    broken = intake(Broken())
    assert [line for _, line in broken.lines()] == [b"one"]
    assert (broken.cut_short, broken.too_much) == (True, False)


@pytest.mark.parametrize(("length", "cut_short"), [(8, False), (9, True), (None, False)])
def test_a_body_that_is_shorter_than_it_said_was_cut_short(length: int | None, cut_short: bool) -> None:
    stream = cast(IO[bytes], io.BytesIO(b"one\ntwo\n"))
    body = Intake(stream, most_line=9, most_lines=9, most_bytes=99, length=length)
    assert len(list(body.lines())) == 2
    assert body.cut_short is cut_short


def test_nobody_left_to_answer_ends_the_intake() -> None:
    stopped = threading.Event()

    class Long:
        def readline(self, _size: int) -> bytes:
            if closed.is_set():
                stopped.set()
            return b"more\n"

    closed = threading.Event()
    lines = intake(Long(), most_lines=10**9, most_bytes=10**12).lines()
    next(lines)
    cast(Iterator, lines).close()  # type: ignore[attr-defined]
    closed.set()
    for thread in threading.enumerate():
        if thread.name == "intake":
            thread.join(20)
            assert not thread.is_alive()


NEXT = b"GET /the-next-request HTTP/1.1"


def in_chunks(body: bytes) -> bytes:
    pieces = [body[at : at + 7] for at in range(0, len(body), 7)]
    return b"".join(b"%x\r\n%b\r\n" % (len(piece), piece) for piece in pieces) + b"0\r\n\r\n"


def body_of(unreader: object, length: int | None) -> dict[str, object]:
    """The environ of a request whose body gunicorn reads so."""
    reader = ChunkedReader(object(), unreader) if length is None else LengthReader(unreader, length)
    return {"wsgi.input": Body(reader), "CONTENT_LENGTH": str(length or 0)}


@settings(max_examples=150, deadline=None)
@given(
    st.lists(st.binary(max_size=40).filter(lambda line: b"\n" not in line), max_size=20).map(b"\n".join),
    st.integers(1, 200),
    st.booleans(),
)
def test_a_body_is_read_whole_and_no_further_however_it_comes(body: bytes, piece: int, chunked: bool) -> None:
    wire = (in_chunks(body) if chunked else body) + NEXT
    unreader = IterUnreader(wire[at : at + piece] for at in range(0, len(wire), piece))
    stream = stream_of(body_of(unreader, None if chunked else len(body)))  # type: ignore[arg-type]
    assert stream.read() == body
    rest = b""
    while more := unreader.read():
        rest += more
    assert rest == NEXT


@pytest.mark.parametrize("chunked", [False, True], ids=["sized", "chunked"])
def test_each_line_is_there_as_soon_as_it_has_come(chunked: bool) -> None:
    ours, theirs = socket.socketpair()
    ours.settimeout(20)  # far more than a line takes; a reader that waits for more of the body runs into it
    lines = [b"%d" % number * (number + 1) + b"\n" for number in range(10)]
    length = None if chunked else sum(map(len, lines))
    stream = stream_of(body_of(SocketUnreader(ours), length))  # type: ignore[arg-type]
    for line in lines:
        theirs.sendall(b"%x\r\n%b\r\n" % (len(line), line) if chunked else line)
        assert stream.readline() == line
    if chunked:
        theirs.sendall(b"0\r\n\r\n")
    assert stream.readline() == b""
    ours.close()
    theirs.close()
