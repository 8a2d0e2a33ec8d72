"""Quotes as links and batches as streams, over the running service with its two workers."""

import http.client
import json
import os
import socket
import subprocess
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import pytest
import requests
from tests.builders import example

JOB = example("counter")
NDJSON = {"Content-Type": "application/x-ndjson"}
PATIENCE = 60


@pytest.fixture
def address(http: requests.Session) -> str:
    return str(http.base)  # type: ignore[attr-defined]


def numbered(number: int) -> dict[str, Any]:
    return JOB | {"order": {**JOB.get("order", {}), "reference": f"job {number}"}}


def body(count: int) -> bytes:
    return b"".join(json.dumps(numbered(number)).encode() + b"\n" for number in range(count))


def references(lines: Iterable[bytes]) -> list[str]:
    return [json.loads(line)["reference"] for line in lines]


def test_every_worker_opens_what_any_worker_sealed(http: requests.Session, address: str) -> None:
    first = http.post(f"{address}/v1/quotes", json=JOB)
    again = {requests.get(f"{address}/v1/quotes/{first.json()['token']}").content for _ in range(12)}
    assert again == {first.content}


@pytest.mark.parametrize("accept", ["text/html", "text/csv", "application/xml", "application/json"])
def test_a_link_has_its_forms(http: requests.Session, address: str, accept: str) -> None:
    job = JOB | {"order": {"issued": "2027-03-01"}}
    token = http.post(f"{address}/v1/quotes", json=job).json()["token"]
    response = http.get(f"{address}/v1/quotes/{token}", headers={"Accept": accept})
    assert response.headers["Content-Type"].startswith(accept)
    tag = response.headers["ETag"]
    known = http.get(f"{address}/v1/quotes/{token}", headers={"Accept": accept, "If-None-Match": tag})
    assert (known.status_code, known.content) == (304, b"")


def test_a_batch_sent_whole_is_answered_in_order(http: requests.Session, address: str) -> None:
    response = http.post(f"{address}/v1/batches", data=body(40), headers=NDJSON, stream=True, timeout=PATIENCE)
    assert response.headers["Transfer-Encoding"] == "chunked"
    assert references(response.iter_lines()) == [f"job {number}" for number in range(40)]


def test_a_batch_sent_in_pieces_of_any_size_is_answered_in_order(http: requests.Session, address: str) -> None:
    whole = body(20)
    pieces = (whole[at : at + 777] for at in range(0, len(whole), 777))
    response = http.post(f"{address}/v1/batches", data=pieces, headers=NDJSON, stream=True, timeout=PATIENCE)
    assert references(response.iter_lines()) == [f"job {number}" for number in range(20)]


def test_each_line_is_the_quote_of_its_job(http: requests.Session, address: str) -> None:
    single = http.post(f"{address}/v1/quotes", json=numbered(0)).content
    response = http.post(f"{address}/v1/batches", data=body(1), headers=NDJSON, timeout=PATIENCE)
    assert response.content == single + b"\n"


@pytest.fixture
def connection(address: str) -> Iterator[http.client.HTTPConnection]:
    parts = urlsplit(address)
    connection = http.client.HTTPConnection(str(parts.hostname), parts.port, timeout=PATIENCE)
    yield connection
    connection.close()


def begin(connection: http.client.HTTPConnection) -> None:
    connection.putrequest("POST", "/v1/batches")
    connection.putheader("Content-Type", "application/x-ndjson")
    connection.putheader("Transfer-Encoding", "chunked")
    connection.endheaders()


def send(connection: http.client.HTTPConnection, data: bytes) -> None:
    connection.send(b"%x\r\n%s\r\n" % (len(data), data))


def test_a_line_is_answered_before_the_next_is_sent(connection: http.client.HTTPConnection) -> None:
    begin(connection)
    send(connection, json.dumps(numbered(0)).encode() + b"\n")
    response = connection.getresponse()
    assert json.loads(response.readline())["reference"] == "job 0"
    send(connection, b"{bad}\n" + json.dumps(numbered(1)).encode()[:30])
    assert json.loads(response.readline())["line"] == 2
    send(connection, json.dumps(numbered(1)).encode()[30:])
    connection.send(b"0\r\n\r\n")
    assert json.loads(response.readline())["reference"] == "job 1"
    assert response.readline() == b""


def test_a_client_that_sends_all_before_it_reads_is_not_waited_for(connection: http.client.HTTPConnection) -> None:
    """More goes out and more comes back than the sockets between hold, so that nobody may wait for the other."""
    connection.sock = socket.socket()
    connection.sock.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, 1 << 14)
    connection.sock.settimeout(PATIENCE)
    connection.sock.connect((connection.host, connection.port))
    count = 240
    begin(connection)
    for number in range(count):
        send(connection, json.dumps(numbered(number)).encode() + b" " * 60_000 + b"\n")
    connection.send(b"0\r\n\r\n")
    assert references(connection.getresponse()) == [f"job {number}" for number in range(count)]


def test_a_batch_that_breaks_off_harms_nobody(connection: http.client.HTTPConnection, http: requests.Session) -> None:
    begin(connection)
    send(connection, body(30))
    connection.getresponse().readline()
    connection.close()
    for _ in range(20):
        assert http.get(f"{http.base}/readyz").status_code == 200  # type: ignore[attr-defined]


def test_a_batch_with_broken_chunks_says_that_it_was_cut_short(connection: http.client.HTTPConnection) -> None:
    begin(connection)
    send(connection, json.dumps(numbered(0)).encode() + b"\n")
    connection.send(b"not a size\r\n")
    lines = connection.getresponse().read().splitlines()
    assert [json.loads(line).get("code") for line in lines] == [None, "batch-cut-short"]


def test_a_secret_that_anybody_could_guess_keeps_the_service_from_starting(tmp_path: Path) -> None:
    environment = {
        **os.environ,
        "GAUGERAKE_DATABASE": f"sqlite:///{tmp_path / 'catalogue.sqlite3'}",
        "GAUGERAKE_SECRETS": "a-secret-that-is-long-enough,short",
    }
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = str(taken.getsockname()[1])
    program = "import sys; from gaugerake.cli import main; sys.exit(main())"
    command = [sys.executable, "-c", program, "serve", "--port", port]
    done = subprocess.run(command, env=environment, capture_output=True, text=True, timeout=60)
    assert done.returncode == 3
    assert done.stderr.startswith("GAUGERAKE_SECRETS cannot be used: a secret for the tokens must have 16 characters")
    assert "short," not in done.stderr
