"""What no client library would send: bytes straight down a socket to the running service.

Each is answered by a problem in bounded time, or the connection is closed; and the service goes on answering others.
"""

import json
import socket
from collections.abc import Iterator
from contextlib import closing
from typing import Any
from urllib.parse import urlsplit

import pytest
import requests
from tests.builders import document, measured

# once is enough: what is kept where is not what a request can break
pytestmark = pytest.mark.parametrize("server", ["sqlite"], indirect=True)

BODY = json.dumps(document(measured("900 ft2"))).encode()
PATIENCE_S = 20.0


def post(*headers: str, body: bytes = BODY, path: str = "/v1/readiness") -> bytes:
    lines = [f"POST {path} HTTP/1.1", "Host: x", "Content-Type: application/json", *headers, "", ""]
    return "\r\n".join(lines).encode("latin-1") + body


def sized(body: bytes, **options: Any) -> bytes:
    return post(f"Content-Length: {len(body)}", body=body, **options)


def chunk(data: bytes) -> bytes:
    return f"{len(data):x}\r\n".encode() + data + b"\r\n"


def chunked(*pieces: bytes) -> bytes:
    return post("Transfer-Encoding: chunked", body=b"".join(pieces))


GET = b"GET /healthz HTTP/1.1\r\nHost: x\r\n"
END = chunk(b"")

# what is sent, and the status and code of each answer; where two are right by RFC 9112, both
Answers = list[tuple[set[int], str | None]]
BAD: Answers = [({400}, "bad-request")]
CASES: list[tuple[str, bytes, Answers]] = [
    # not HTTP
    ("a greeting of TLS", b"\x16\x03\x01\x00\xa5\x01\x00\x00\xa1\x03\x03" + bytes(range(150)) + b"\r\n\r\n", BAD),
    ("a greeting of HTTP/2", b"PRI * HTTP/2.0\r\n\r\nSM\r\n\r\n", [({400, 505}, "bad-request")]),
    ("HTTP/0.9", b"GET /healthz\r\n\r\n", BAD),
    ("HTTP/9.9", b"GET /healthz HTTP/9.9\r\nHost: x\r\n\r\n", [({400, 505}, "bad-request")]),
    ("a method alone", b"GET\r\n\r\n", BAD),
    ("a method of signs", b"G(T /healthz HTTP/1.1\r\nHost: x\r\n\r\n", BAD),
    ("SSH", b"SSH-2.0-OpenSSH_9.2\r\n\r\n", BAD),
    ("zeros", b"\x00" * 64 + b"\r\n\r\n", BAD),
    # headers
    ("a space before the colon", GET + b"X-A : 1\r\n\r\n", BAD),
    ("no colon", GET + b"X-A\r\n\r\n", BAD),
    ("a name of no characters", GET + b": 1\r\n\r\n", BAD),
    ("a null in a value", GET + b"X-A: \x00\r\n\r\n", BAD),
    ("a lone return in a value", GET + b"X-A: a\rb\r\n\r\n", BAD),
    ("a folded value", GET + b"X-A: a\r\n b\r\n\r\n", BAD),
    ("too many", GET + b"X-A: 1\r\n" * 100 + b"\r\n", [({400, 431}, "bad-request")]),
    ("too long", GET + b"X-A: " + b"a" * 9000 + b"\r\n\r\n", [({400, 431}, "bad-request")]),
    ("an address too long", b"GET /" + b"a" * 9000 + b" HTTP/1.1\r\nHost: x\r\n\r\n", [({400, 414}, "bad-request")]),
    # lengths
    ("a length under nothing", post("Content-Length: -1"), BAD),
    ("a length in words", post("Content-Length: many"), BAD),
    ("a length with a sign", post(f"Content-Length: +{len(BODY)}"), BAD),
    ("a length in hexadecimal", post("Content-Length: 0x10"), BAD),
    ("a length of other digits", post("Content-Length: \u00b2"), BAD),
    ("two lengths", post("Content-Length: 5", f"Content-Length: {len(BODY)}"), BAD),
    ("a list of lengths", post(f"Content-Length: {len(BODY)}, 5"), BAD),
    ("a length and chunks", post(f"Content-Length: {len(BODY)}", "Transfer-Encoding: chunked"), BAD),
    ("a length past all", post("Content-Length: " + "9" * 30), [({413}, "too-large")]),
    # transfer codings
    ("chunks twice", post("Transfer-Encoding: chunked, chunked"), [({400, 501}, "bad-request")]),
    ("a coding that is none", post("Transfer-Encoding: rot13"), [({400, 501}, "bad-request")]),
    ("a size of a chunk in words", chunked(b"many\r\n" + BODY + b"\r\n", END), BAD),
    ("a size under nothing", chunked(b"-5\r\n" + BODY + b"\r\n", END), BAD),
    ("a size with an underscore", chunked(b"1_0\r\n" + BODY + b"\r\n", END), BAD),
    ("a chunk longer than its size", chunked(b"3\r\n" + BODY + b"\r\n", END), BAD),
    # bodies
    ("no length and no body", post(body=b""), [({400}, "empty-body")]),
    ("UTF-16", sized(BODY.decode().encode("utf-16")), [({400}, "not-utf-8")]),
    ("a byte order mark", sized(b"\xef\xbb\xbf" + BODY), [({400}, "not-utf-8")]),
    ("half the body said", post(f"Content-Length: {len(BODY) // 2}"), [({400}, "not-json")]),
    ("chunks of one byte", chunked(*[chunk(BODY[i : i + 1]) for i in range(len(BODY))], END), [({200}, None)]),
    ("chunks with notes", chunked(b"%x;note=1\r\n%b\r\n" % (len(BODY), BODY), END), [({200}, None)]),
    ("chunks with a trailer", chunked(chunk(BODY), b"0\r\nX-A: 1\r\n\r\n"), [({200}, None)]),
    # several on one connection
    ("one after the other", sized(BODY) + sized(b"{") + GET + b"\r\n", [({200}, None), ({400}, "not-json"),
                                                                       ({200}, None)]),
    ("garbage behind a sound one", sized(BODY) + b"\x00\x01garbage\r\n\r\n", [({200}, None), *BAD]),
    ("a body that was not announced", post(body=BODY) + b"\r\n\r\n", [({400}, "empty-body"), *BAD]),
    # forms of address
    ("the whole address", b"GET http://elsewhere/healthz HTTP/1.1\r\nHost: x\r\n\r\n", [({200}, None)]),
    ("a star", b"OPTIONS * HTTP/1.1\r\nHost: x\r\n\r\n", [({400, 404, 405}, None)]),
    ("a tunnel", b"CONNECT elsewhere:443 HTTP/1.1\r\nHost: x\r\n\r\n", [({400, 404, 405}, None)]),
]  # fmt: skip


@pytest.fixture
def address(server: str) -> tuple[str, int]:
    parts = urlsplit(server)
    assert parts.hostname
    assert parts.port
    return parts.hostname, parts.port


def answers(wire: socket.socket) -> Iterator[tuple[int, dict[str, str], bytes]]:
    """Each answer that comes, until the other side closes; no longer than patience lasts."""
    wire.settimeout(PATIENCE_S)
    with closing(wire.makefile("rb")) as stream:
        while first := stream.readline():
            status = int(first.split()[1])
            headers: dict[str, str] = {}
            while line := stream.readline().strip():
                name, _, value = line.decode("latin-1").partition(":")
                headers[name.lower()] = value.strip()
            if status >= 200:
                yield status, headers, stream.read(int(headers["content-length"]))


@pytest.mark.parametrize(("sent", "expected"), [case[1:] for case in CASES], ids=[case[0] for case in CASES])
def test_what_is_sent_is_answered(address: tuple[str, int], sent: bytes, expected: Answers) -> None:
    with socket.create_connection(address, timeout=PATIENCE_S) as wire:
        wire.sendall(sent)
        wire.shutdown(socket.SHUT_WR)
        got = list(answers(wire))
    assert len(got) == len(expected), got
    for (status, headers, body), (statuses, code) in zip(got, expected, strict=True):
        assert status in statuses, body
        if status >= 400:
            assert headers["content-type"] == "application/problem+json"
            problem = json.loads(body)
            assert problem["status"] == status
            assert code in (None, problem["code"])
            assert problem["request_id"] == headers["x-request-id"]


def sound(http: requests.Session) -> bool:
    """Whether the service answers somebody else."""
    address = f"{http.base}/v1/readiness"  # type: ignore[attr-defined]
    answer = http.post(address, data=BODY, headers={"Content-Type": "application/json"}, timeout=PATIENCE_S)
    return answer.status_code == 200


def test_chunks_that_never_end_are_refused_after_a_bounded_number(address: tuple[str, int]) -> None:
    piece, sent = chunk(b" " * 16_384), 0
    with socket.create_connection(address, timeout=PATIENCE_S) as wire:
        wire.sendall(post("Transfer-Encoding: chunked", body=b""))
        try:
            while sent < 64 << 20:
                wire.sendall(piece)
                sent += len(piece)
        except OSError:
            pass  # refused and closed while we were still sending
    assert sent < 64 << 20


def test_chunks_that_pass_the_limit_are_told_so(address: tuple[str, int]) -> None:
    with socket.create_connection(address, timeout=PATIENCE_S) as wire:
        wire.sendall(post("Transfer-Encoding: chunked", body=chunk(b" " * (256 * 1024 + 2)) + END))
        wire.shutdown(socket.SHUT_WR)
        (status, _, body), *_ = answers(wire)
    assert (status, json.loads(body)["code"]) == (413, "too-large")


@pytest.mark.parametrize(
    "begun",
    [
        b"",
        b"POST /v1/readi",
        b"POST /v1/readiness HTTP/1.1\r\nHost: x\r\nX-A: ",
        post("Content-Length: 200000", body=b'{"system": "'),
        post("Transfer-Encoding: chunked", body=chunk(b'{"system": "')),
        post("Transfer-Encoding: chunked", body=b"ffff\r\n{"),
    ],
    ids=["no byte", "half a line", "half a header", "half a body", "a chunk and no next", "half a chunk"],
)
def test_a_request_that_stops_in_the_middle_holds_up_nobody_else(
    address: tuple[str, int], http: requests.Session, begun: bytes
) -> None:
    wires = [socket.create_connection(address, timeout=PATIENCE_S) for _ in range(4)]
    try:
        for wire in wires:
            wire.sendall(begun)
        assert all(sound(http) for _ in range(6))
    finally:
        for wire in wires:
            wire.close()
    assert sound(http)


@pytest.mark.parametrize("body", [post("Content-Length: 5000"), post("Transfer-Encoding: chunked", body=chunk(BODY))])
def test_a_body_that_ends_too_soon_is_no_job(address: tuple[str, int], http: requests.Session, body: bytes) -> None:
    with socket.create_connection(address, timeout=PATIENCE_S) as wire:
        wire.sendall(body)
        wire.shutdown(socket.SHUT_WR)
        assert [status for status, _, _ in answers(wire)] == [400]
    assert sound(http)


def test_one_who_waits_to_be_asked_for_the_body_is_asked(address: tuple[str, int]) -> None:
    with socket.create_connection(address, timeout=PATIENCE_S) as wire:
        wire.sendall(post(f"Content-Length: {len(BODY)}", "Expect: 100-continue", "Connection: close", body=b""))
        wire.settimeout(PATIENCE_S)
        assert wire.recv(25) == b"HTTP/1.1 100 Continue\r\n\r\n"
        wire.sendall(BODY)
        assert [status for status, _, _ in answers(wire)] == [200]
