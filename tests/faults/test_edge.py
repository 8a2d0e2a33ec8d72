"""The very nginx and gunicorn settings of docker/, with PostgreSQL: slow clients, headers, problems, logs, metrics."""

import contextlib
import http.client
import http.server
import json
import os
import secrets
import shutil
import signal
import socket
import ssl
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from tests.faults.load import ANSWERED, BODY, JOB, Load
from tests.faults.processes import Deployed, Nginx, eventually, free_port

Note = Callable[..., None]
SOCKETS = 200
PROBLEM = "application/problem+json"


def ask(
    nginx: Nginx, method: str, path: str, body: bytes | Iterator[bytes] | None = None, **headers: str
) -> tuple[Any, bytes]:
    """One request by TLS; the response and its body."""
    connection = http.client.HTTPSConnection("127.0.0.1", nginx.port, timeout=30, context=nginx.tls)
    try:
        connection.request(method, path, body, {name.replace("_", "-"): value for name, value in headers.items()})
        response = connection.getresponse()
        return response, response.read()
    finally:
        connection.close()


def said(nginx: Nginx, sent: bytes) -> tuple[int, dict[str, str], bytes]:
    """What is answered to bytes that no client library would send."""
    with (
        socket.create_connection(("127.0.0.1", nginx.port), timeout=30) as plain,
        nginx.tls.wrap_socket(plain, server_hostname="localhost") as wire,
    ):
        wire.sendall(sent)
        response = http.client.HTTPResponse(wire)
        response.begin()
        return response.status, dict(response.getheaders()), response.read()


@contextlib.contextmanager
def slow_clients(nginx: Nginx, quotes: int = 20) -> Iterator[list[ssl.SSLSocket]]:
    """Sockets that begin and do not go on: a third each half a head, half a body, or quotes not read."""
    head = b"POST /v1/quotes HTTP/1.1\r\nHost: floors.example\r\nContent-Type: application/json\r\n"
    whole = head + b"Content-Length: %d\r\n\r\n" % len(BODY) + BODY
    begun = (head, head + b"Content-Length: 5000\r\n\r\n{", whole * quotes)
    open_sockets: list[ssl.SSLSocket] = []
    try:
        for number in range(SOCKETS):
            plain = socket.socket()
            plain.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 4096)
            plain.settimeout(30)
            plain.connect(("127.0.0.1", nginx.port))
            wire = nginx.tls.wrap_socket(plain, server_hostname="localhost")
            wire.sendall(begun[number % 3])
            open_sockets.append(wire)
        yield open_sockets
    finally:
        for wire in open_sockets:
            wire.close()


def test_slow_clients_hold_up_nobody(deployed: Deployed, note: Note) -> None:
    load = Load(deployed.nginx.port, "slow", tls=deployed.nginx.tls)
    with load.running():
        at = time.monotonic()
        with slow_clients(deployed.nginx) as slow:
            load.wait_for(150)
            halves = [wire for number, wire in enumerate(slow) if number % 3 < 2]
            eventually(lambda: all(is_closed(wire) for wire in halves), "the slow clients let go of")
            load.wait_for(20)
    assert len(slow) == SOCKETS
    assert [sent for sent in load.sent if sent.outcome != ANSWERED] == []
    note(f"{SOCKETS} sockets that begin a request or an answer and do not go on, at nginx", load, at)


def is_closed(wire: ssl.SSLSocket) -> bool:
    """Whether the other end has let go."""
    wire.settimeout(0.001)
    try:
        while wire.recv(4096):
            pass
    except (TimeoutError, ssl.SSLWantReadError):
        return False
    except OSError:
        return True
    return True


def test_who_comes_in_plain_text_is_sent_on(deployed: Deployed) -> None:
    connection = http.client.HTTPConnection("127.0.0.1", deployed.nginx.plain_port, timeout=30)
    connection.request("POST", "/v1/quotes?units=si", BODY, {"Host": "floors.example"})
    response = connection.getresponse()
    assert (response.status, response.getheader("Location")) == (308, "https://floors.example/v1/quotes?units=si")
    connection.close()


@pytest.mark.parametrize(
    "sent", [b"NOT HTTP\r\n\r\n", b"GET / HTTP/2.0\r\n\r\n", b"POST / HTTP/1.1\r\nTransfer-Encoding: x\r\n\r\n"]
)
def test_what_is_not_http_is_a_problem_in_plain_text_too(deployed: Deployed, sent: bytes) -> None:
    with socket.create_connection(("127.0.0.1", deployed.nginx.plain_port), timeout=30) as wire:
        wire.sendall(sent)
        response = http.client.HTTPResponse(wire)
        response.begin()
        assert (response.status, response.headers["Content-Type"]) == (400, PROBLEM)
        assert json.loads(response.read())["request_id"] == response.headers["X-Request-Id"]
        assert response.headers["Strict-Transport-Security"] is None


@pytest.mark.parametrize("path", ["/", "/v1/systems", "/docs", "/openapi.json", "/no-such-thing", "/metrics"])
def test_each_security_header_stands_once(deployed: Deployed, path: str) -> None:
    response, _ = ask(deployed.nginx, "GET", path, Host="floors.example")
    for name, value in (
        ("X-Content-Type-Options", "nosniff"),
        ("Referrer-Policy", "no-referrer"),
        ("Strict-Transport-Security", "max-age=31536000"),
    ):
        assert response.headers.get_all(name) == [value]
    (policy,) = response.headers.get_all("Content-Security-Policy")
    assert policy.startswith("default-src 'none'")
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy
    assert len(response.headers.get_all("Cache-Control")) == len(response.headers.get_all("X-Request-Id")) == 1
    assert response.headers["Server"] == "nginx"


@pytest.mark.parametrize(
    ("sent", "status", "code"),
    [
        (b"GET /metrics HTTP/1.1\r\nHost: floors.example\r\nConnection: close\r\n\r\n", 404, "not-found"),
        (b"GET /metrics/ HTTP/1.1\r\nHost: floors.example\r\nConnection: close\r\n\r\n", 404, "not-found"),
        (b"GET //%6detrics%2F HTTP/1.1\r\nHost: floors.example\r\nConnection: close\r\n\r\n", 404, "not-found"),
        (b"NOT HTTP\r\n\r\n", 400, "bad-request"),
        (b"GET / HTTP/2.0\r\nHost: floors.example\r\n\r\n", 400, "bad-request"),
        (
            b"POST /v1/quotes HTTP/1.1\r\nHost: floors.example\r\nTransfer-Encoding: gzip, chunked\r\n\r\n",
            400,
            "bad-request",
        ),
        (b"TRACE / HTTP/1.1\r\nHost: floors.example\r\n\r\n", 405, "method-not-allowed"),
        (b"GET / HTTP/1.1\r\nHost: floors.example\r\nX: " + b"x" * 9_000 + b"\r\n\r\n", 400, "bad-request"),
        (b"GET /" + b"x" * 9_000 + b" HTTP/1.1\r\nHost: floors.example\r\n\r\n", 414, "bad-request"),
        (
            b"POST /v1/quotes HTTP/1.1\r\nHost: floors.example\r\nContent-Length: 900000000\r\n\r\n",
            413,
            "too-large",
        ),
        (b"GET / HTTP/1.1\r\nHost: elsewhere.example\r\nConnection: close\r\n\r\n", 400, "bad-request"),
    ],
    ids=[
        "metrics",
        "metrics-and-a-slash",
        "metrics-in-disguise",
        "no-http",
        "other-version",
        "other-coding",
        "trace",
        "long-header",
        "long-address",
        "large-body",
        "other-host",
    ],
)
def test_what_nginx_refuses_is_a_problem_too(deployed: Deployed, sent: bytes, status: int, code: str) -> None:
    seen, headers, body = said(deployed.nginx, sent)
    problem = json.loads(body)
    assert (seen, headers["Content-Type"]) == (status, PROBLEM)
    assert list(problem) == ["type", "title", "status", "detail", "code", "request_id", "errors"]
    assert (problem["status"], problem["code"], problem["type"]) == (status, code, f"/problems/{code}")
    assert problem["request_id"] == headers["X-Request-Id"]


def test_a_service_that_is_away_is_a_problem_too() -> None:
    if shutil.which("nginx") is None:
        pytest.skip("nginx is not installed")
    folder = Path(tempfile.mkdtemp(prefix="gaugerake-edge-", dir="/tmp"))
    folder.chmod(0o755)
    nginx = Nginx(folder, free_port(), free_port())
    nginx.start()
    try:
        response, body = ask(nginx, "POST", "/v1/quotes", BODY, Host="floors.example", Content_Type="application/json")
        assert (response.status, response.headers["Content-Type"]) == (503, PROBLEM)
        assert (json.loads(body)["code"], response.headers["Retry-After"]) == ("unavailable", "5")
    finally:
        nginx.stop()
        shutil.rmtree(folder, ignore_errors=True)


class Full(http.server.BaseHTTPRequestHandler):
    """A replica that asks for some patience."""

    def do_GET(self) -> None:
        self.send_response(429)
        for name, value in (("X-Request-Id", "its-own"), ("Retry-After", "17"), ("Content-Length", "0")):
            self.send_header(name, value)
        self.end_headers()

    def log_message(self, *_given: Any) -> None:
        """Nothing."""


def test_what_the_service_says_of_when_to_come_again_stands_alone() -> None:
    if shutil.which("nginx") is None:
        pytest.skip("nginx is not installed")
    folder = Path(tempfile.mkdtemp(prefix="gaugerake-edge-", dir="/tmp"))
    folder.chmod(0o755)
    replica = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Full)
    threading.Thread(target=replica.serve_forever, daemon=True).start()
    nginx = Nginx(folder, replica.server_port, replica.server_port)
    nginx.start()
    try:
        response, _ = ask(nginx, "GET", "/v1/units")
        assert (response.status, response.headers.get_all("Retry-After")) == (429, ["17"])
    finally:
        nginx.stop()
        replica.shutdown()
        replica.server_close()
        shutil.rmtree(folder, ignore_errors=True)


def test_no_log_shows_a_secret_a_key_a_token_or_a_body(deployed: Deployed) -> None:
    marked = f"room {secrets.token_hex(8)}"
    job = {**JOB, "rooms": [{**JOB["rooms"][0], "name": marked}]}  # type: ignore[dict-item, index]
    trace = f"00-{secrets.token_hex(16)}-{secrets.token_hex(8)}-01"
    bearer, number = secrets.token_hex(20), secrets.token_hex(8)
    given = {"Host": "floors.example", "Content_Type": "application/json", "Authorization": f"Bearer {bearer}"}
    response, body = ask(
        deployed.nginx, "POST", f"/v1/quotes?{bearer}", json.dumps(job).encode(), X_Request_Id=number, **given
    )
    response, body = ask(
        deployed.nginx, "POST", "/v1/quotes", json.dumps(job).encode(), X_Request_Id=number, traceparent=trace, **given
    )
    token = json.loads(body)["token"]
    assert response.status == 200
    for path in (f"/v1/quotes/{token}", f"/v1/quotes/{token}x", f"/v1/quotes/{token}/qr.svg"):
        ask(deployed.nginx, "GET", path, Host="floors.example")
    said(deployed.nginx, b"GET /v1/quotes/" + token.encode() + b" HTTP/1.1\r\nHost: x y\r\nA b: c\r\n\r\n")
    for replica in deployed.replicas:  # what gunicorn itself refuses
        with socket.create_connection(("127.0.0.1", replica.port), timeout=30) as wire:
            wire.sendall(b"GET /v1/quotes/" + token.encode() + b" HTTP/7.0\r\n\r\n")
            assert b" 400 Bad Request\r\n" in wire.recv(4096)
    eventually(lambda: deployed.logs().count(number) >= 4, "all of it logged")
    logs = deployed.logs()
    for secret in (marked, bearer, token, token[:40], Deployed.SECRET):
        assert secret not in logs
    lines = [json.loads(line) for line in logs.splitlines() if number in line]
    assert {line["logger"] for line in lines} == {"nginx.access", "gaugerake.access"}
    assert sum(line["traceparent"] == trace for line in lines) == 2


def test_every_line_of_the_service_is_json(deployed: Deployed) -> None:
    for replica in deployed.replicas:
        lines = replica.log.read_text("utf-8").splitlines()
        strange = [line for line in lines if not line.startswith(("{", "gaugerake serves on http://"))]
        assert (len(lines) > 5, strange) == (True, [])
        for line in lines:
            if line.startswith("{"):
                assert {"time", "level", "logger", "message"} <= json.loads(line).keys()


def counted(text: str, *, route: str = "/v1/units") -> float:
    """How many requests of a route the metrics tell."""
    lines = [
        line for line in text.splitlines() if line.startswith("gaugerake_requests_total{") and f'"{route}"' in line
    ]
    return sum(float(line.rsplit(" ", 1)[1]) for line in lines)


def test_the_metrics_are_of_all_workers_and_outlive_them(deployed: Deployed) -> None:
    replica = deployed.replicas[0]
    before = counted(replica.text("/metrics"))
    for _ in range(30):
        replica.get("/v1/units")
    assert counted(replica.text("/metrics")) == before + 30
    (folder,) = {Path(line.split()[-1]).parent for line in replica.maps() if line.endswith(".db")}
    for _ in range(3):
        victim = min(replica.workers())
        os.kill(victim, signal.SIGKILL)
        eventually(lambda victim=victim: len(replica.workers() - {victim}) == 2 and replica.alive(), "another worker")
        assert counted(replica.text("/metrics")) == before + 30
    replica.process.send_signal(signal.SIGHUP)
    old = replica.workers()
    eventually(lambda: len(replica.workers()) == 2 and not replica.workers() & old, "reloaded")
    for _ in range(10):
        replica.get("/v1/units")
    text = _settled(replica.text)
    assert counted(text) == before + 40
    assert len(list(folder.glob("counter_*.db"))) <= 4  # two slots, and two while workers take each other's place


def _settled(text: Callable[[str], str]) -> str:
    """The metrics once the workers that went are no longer among them."""
    return str(
        eventually(
            lambda: found if 'gaugerake_version{version="0.1.0"} 2.0\n' in (found := text("/metrics")) else "",
            "two workers told",
        )
    )


def test_nginx_finds_its_file_sound(deployed: Deployed) -> None:
    done = deployed.nginx.judged()
    assert done.returncode == 0, done.stderr
    assert "[warn]" not in done.stderr
