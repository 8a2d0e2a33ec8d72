"""What docker/edge.sh and nginx.conf make of their settings: hosts, load balancers, ciphers, IPv6 networks."""

import contextlib
import http.client
import http.server
import json
import os
import shutil
import socket
import ssl
import subprocess
import tempfile
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from tests.faults.processes import ROOT, Nginx, environment

BALANCER = "127.0.0.1"
PROBLEM = "application/problem+json"


class Echo(http.server.BaseHTTPRequestHandler):
    """A replica that says what it was told of the client, and keeps a batch waiting."""

    done = threading.Event()

    def do_GET(self) -> None:
        told = json.dumps([self.headers.get_all("X-Forwarded-For"), self.headers["X-Forwarded-Proto"]]).encode()
        self.send_response(200)
        for name, value in (("X-Request-Id", "its-own"), ("Content-Length", str(len(told)))):
            self.send_header(name, value)
        self.end_headers()
        self.wfile.write(told)

    def do_POST(self) -> None:
        self.done.wait(60)

    def log_message(self, *_given: object) -> None:
        """Nothing."""


@contextlib.contextmanager
def nginx_over_echo(*, balancers: str = "", key: str = "ECDSA") -> Iterator[Nginx]:
    """nginx with these settings before a replica that echoes."""
    missing = [name for name in ("nginx", "openssl") if shutil.which(name) is None]
    if missing:
        (pytest.fail if os.environ.get("CI") else pytest.skip)(f"not installed: {', '.join(missing)}")
    folder = Path(tempfile.mkdtemp(prefix="gaugerake-edge-", dir="/tmp"))
    folder.chmod(0o755)
    handler = type("OwnEcho", (Echo,), {"done": threading.Event()})
    replica = http.server.ThreadingHTTPServer(("127.0.0.1", 0), handler)
    replica.daemon_threads = True
    threading.Thread(target=replica.serve_forever, daemon=True).start()
    nginx = Nginx(folder, replica.server_port, replica.server_port, balancers=balancers, key=key)
    nginx.start()
    try:
        yield nginx
    finally:
        handler.done.set()
        nginx.stop()
        replica.shutdown()
        replica.server_close()
        shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture(scope="module")
def direct() -> Iterator[Nginx]:
    """As it comes: nobody is in front."""
    with nginx_over_echo() as nginx:
        yield nginx


@pytest.fixture(scope="module")
def behind() -> Iterator[Nginx]:
    """Behind load balancers of ours: this machine, and a network that is nowhere."""
    with nginx_over_echo(balancers=f"{BALANCER}, 10.9.0.0/16,2001:db8:ffff::/48") as nginx:
        yield nginx


def told(nginx: Nginx, forwarded: str) -> list[object]:
    """The client's address and scheme as the replica is told them."""
    connection = http.client.HTTPSConnection("127.0.0.1", nginx.port, timeout=30, context=nginx.tls)
    try:
        connection.request("GET", "/v1/units", headers={"X-Forwarded-For": forwarded, "X-Forwarded-Proto": "gopher"})
        return list(json.load(connection.getresponse()))
    finally:
        connection.close()


@pytest.mark.parametrize("forwarded", ["198.51.100.7", "198.51.100.7, 10.9.0.1", "", "no address"])
def test_without_a_load_balancer_nobody_says_who_he_is(direct: Nginx, forwarded: str) -> None:
    assert told(direct, forwarded) == [["127.0.0.1"], "https"]


@pytest.mark.parametrize(
    ("forwarded", "address"),
    [
        ("198.51.100.7", "198.51.100.7"),
        ("203.0.113.9, 198.51.100.7", "198.51.100.7"),
        ("203.0.113.9, 198.51.100.7, 10.9.3.4", "198.51.100.7"),
        ("2001:db8::7, 2001:db8:ffff::1", "2001:db8::7"),
        ("no address", "127.0.0.1"),
    ],
    ids=["one", "with-what-the-client-said", "two-balancers", "ipv6", "unreadable"],
)
def test_behind_a_load_balancer_its_word_alone_counts(behind: Nginx, forwarded: str, address: str) -> None:
    """One address reaches the replica, so that GAUGERAKE_PROXY_HOPS stays 1."""
    assert told(behind, forwarded) == [[address], "https"]


def plain(nginx: Nginx, sent: bytes, host: str = "127.0.0.1") -> http.client.HTTPResponse:
    """The answer to bytes in plain text."""
    with socket.create_connection((host, nginx.plain_port), timeout=30) as wire:
        wire.sendall(sent)
        response = http.client.HTTPResponse(wire)
        response.begin()
        response.seen = response.read()  # type: ignore[attr-defined]
        return response


@pytest.mark.parametrize(
    ("host", "to"),
    [
        ("floors.example", "floors.example"),
        ("FLOORS.example:80", "floors.example"),
        ("north.shop.example", "north.shop.example"),
        ("shop.example", "shop.example"),
    ],
)
def test_plain_text_is_sent_on_to_a_host_of_ours(direct: Nginx, host: str, to: str) -> None:
    response = plain(direct, f"GET /v1/units?x=1 HTTP/1.1\r\nHost: {host}\r\n\r\n".encode())
    assert (response.status, response.headers["Location"]) == (308, f"https://{to}/v1/units?x=1")


@pytest.mark.parametrize(
    "head",
    [
        "Host: elsewhere.example",
        "Host: floors.example.elsewhere.example",
        "Host: notfloors.example",
        "Host: 127.0.0.1",
        "Host: default",
    ],
)
def test_plain_text_is_sent_on_to_no_other(direct: Nginx, head: str) -> None:
    response = plain(direct, f"GET / HTTP/1.1\r\n{head}\r\n\r\n".encode())
    problem = json.loads(response.seen)  # type: ignore[attr-defined]
    assert (response.status, response.headers["Content-Type"]) == (421, PROBLEM)
    assert response.headers["Location"] is None
    assert (problem["status"], problem["code"], problem["type"]) == (421, "bad-request", "/problems/bad-request")
    assert problem["request_id"] == response.headers["X-Request-Id"]
    assert "elsewhere" not in problem["detail"]


def test_it_listens_to_ipv6_where_there_is_any(direct: Nginx) -> None:
    if not Path("/proc/net/if_inet6").exists():
        pytest.skip("the kernel has no IPv6")
    assert plain(direct, b"GET / HTTP/1.1\r\nHost: floors.example\r\n\r\n", "::1").status == 308
    with (
        socket.create_connection(("::1", direct.port), timeout=30) as wire,
        direct.tls.wrap_socket(wire, server_hostname="localhost") as tls,
    ):
        assert tls.version() == "TLSv1.3"


def accepted(nginx: Nginx) -> set[str]:
    """The ciphers of TLS 1.2 that it takes, each offered alone."""
    found = set()
    for cipher in ssl.create_default_context().get_ciphers() + _old_ciphers():
        context = ssl.create_default_context(cafile=str(nginx.folder / "certificate"))
        context.maximum_version = ssl.TLSVersion.TLSv1_2
        with contextlib.suppress(ssl.SSLError, ConnectionError):
            context.set_ciphers(f"{cipher['name']}:@SECLEVEL=0")
            with (
                socket.create_connection(("127.0.0.1", nginx.port), timeout=30) as wire,
                context.wrap_socket(wire, server_hostname="localhost") as tls,
            ):
                found.add((tls.cipher() or ("",))[0])
    return found


def _old_ciphers() -> list[dict[str, str]]:
    context = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    context.set_ciphers("ALL:@SECLEVEL=0")
    return [cipher for cipher in context.get_ciphers() if not cipher["name"].startswith("TLS_")]  # type: ignore[misc]


# RFC 9325, 4.2, and RFC 7905 for ChaCha20; the names are OpenSSL's
SEALED = ("AES128-GCM-SHA256", "AES256-GCM-SHA384", "CHACHA20-POLY1305")


@pytest.mark.parametrize("key", ["ECDSA", "RSA"])
def test_tls_1_2_takes_forward_secrecy_alone(key: str) -> None:
    with nginx_over_echo(key=key) as nginx:
        assert accepted(nginx) == {f"ECDHE-{key}-{sealed}" for sealed in SEALED}


Opened = Callable[[str], ssl.SSLSocket]


@pytest.fixture
def batch_from(behind: Nginx) -> Iterator[Opened]:
    """Opens a batch from an address, as the load balancer tells it, and leaves it open."""
    held: list[ssl.SSLSocket] = []

    def opened(address: str) -> ssl.SSLSocket:
        wire = socket.create_connection(("127.0.0.1", behind.port), timeout=30)
        held.append(behind.tls.wrap_socket(wire, server_hostname="localhost"))
        held[-1].sendall(
            b"POST /v1/batches HTTP/1.1\r\nHost: floors.example\r\nContent-Type: application/x-ndjson\r\n"
            b"X-Forwarded-For: " + address.encode() + b"\r\nTransfer-Encoding: chunked\r\n\r\n1\r\n{\r\n"
        )
        return held[-1]

    yield opened
    for wire in held:
        wire.close()


def status(wire: ssl.SSLSocket) -> int | None:
    """The status of the answer that came at once; None where the batch is let in."""
    wire.settimeout(0.3)
    try:
        return int(wire.recv(4096).split(b" ", 2)[1])
    except TimeoutError:
        return None


def test_an_ipv6_client_is_its_network_of_64_bits(batch_from: Opened) -> None:
    """Six batches are let in for each client (docker/nginx.conf)."""
    many = [status(batch_from(f"2001:db8:0:7:{number:x}::1")) for number in range(8)]
    assert many == [None] * 6 + [429] * 2
    assert status(batch_from("2001:db8:0:8::1")) is None


def test_an_ipv4_client_is_its_whole_address(batch_from: Opened) -> None:
    assert [status(batch_from(f"198.51.100.{number}")) for number in range(1, 9)] == [None] * 8


@pytest.mark.parametrize(
    ("settings", "told"),
    [
        ({}, "GAUGERAKE_TRUSTED_HOSTS is empty"),
        ({"GAUGERAKE_TRUSTED_HOSTS": " , "}, "GAUGERAKE_TRUSTED_HOSTS is empty"),
        ({"GAUGERAKE_TRUSTED_HOSTS": "floors.example:443"}, "floors.example:443 is not a host"),
        ({"GAUGERAKE_TRUSTED_HOSTS": "a.example b.example"}, "a.example b.example is not a host"),
        ({"GAUGERAKE_TRUSTED_HOSTS": "a.example 1; include /etc/passwd"}, "is not a host"),
        ({"GAUGERAKE_TRUSTED_HOSTS": "a.example", "GAUGERAKE_BALANCERS": "balancer"}, "balancer is not an address"),
        ({"GAUGERAKE_TRUSTED_HOSTS": "a.example", "GAUGERAKE_BALANCERS": "0.0.0.0/0"}, "0.0.0.0/0 is not an address"),
    ],
)
def test_a_setting_that_cannot_be_read_ends_the_start(tmp_path: Path, settings: dict[str, str], told: str) -> None:
    done = subprocess.run(
        ["sh", str(ROOT / "docker" / "edge.sh"), "-t"],
        env={**environment(**settings), "EDGE_SETTINGS": str(tmp_path)},
        capture_output=True,
        text=True,
    )
    assert done.returncode == 2
    assert told in done.stderr
