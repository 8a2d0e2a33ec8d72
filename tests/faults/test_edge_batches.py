"""Batches through nginx: passed on whole, answered line by line, and never so many that they keep others out."""

import http.client
import json
import socket
import ssl

import pytest
from tests.faults.load import ANSWERED, JOB, Load
from tests.faults.processes import Deployed, Nginx
from tests.faults.test_edge import ask


def batch(nginx: Nginx, method: bytes, path: bytes) -> ssl.SSLSocket:
    """A batch of which one byte has come, as one that sends a byte now and then."""
    plain = socket.create_connection(("127.0.0.1", nginx.port), timeout=30)
    wire = nginx.tls.wrap_socket(plain, server_hostname="localhost")
    wire.sendall(
        method + b" " + path + b" HTTP/1.1\r\nHost: floors.example\r\nContent-Type: application/x-ndjson\r\n"
        b"Transfer-Encoding: chunked\r\n\r\n1\r\n{\r\n"
    )
    return wire


def test_slow_batches_hold_up_nobody(deployed: Deployed) -> None:
    """As many as there are threads in all: whoever is slow to read an answer keeps one, so nginx lets in fewer."""
    kinds = [(method, path) for method in (b"POST", b"QUERY") for path in (b"/v1/batches", b"/v1/batches/")]
    slow = [batch(deployed.nginx, *kinds[number % 4]) for number in range(32)]
    try:
        load = Load(deployed.nginx.port, "batches", tls=deployed.nginx.tls)
        with load.running():
            load.wait_for(30)
        assert [sent for sent in load.sent if sent.outcome != ANSWERED] == []
        refused = [response for wire in slow if (response := answered_at_once(wire)) is not None]
        assert {response.status for response in refused} == {429}
        assert len(refused) == 32 - 6
        assert {json.loads(response.read())["code"] for response in refused} == {"too-many"}
        assert refused[0].headers.get_all("Retry-After") == ["5"]
    finally:
        for wire in slow:
            wire.close()


def answered_at_once(wire: ssl.SSLSocket, within_s: float = 0.05) -> http.client.HTTPResponse | None:
    """The answer that comes within a moment, if any does."""
    wire.settimeout(within_s)
    response = http.client.HTTPResponse(wire)
    try:
        response.begin()
    except TimeoutError:
        response.close()
        return None
    return response


def test_a_batch_is_answered_once_it_is_whole(deployed: Deployed) -> None:
    line = json.dumps(JOB).encode() + b"\n"
    with (
        socket.create_connection(("127.0.0.1", deployed.nginx.port), timeout=30) as plain,
        deployed.nginx.tls.wrap_socket(plain, server_hostname="localhost") as wire,
    ):
        wire.sendall(
            b"POST /v1/batches HTTP/1.1\r\nHost: floors.example\r\nContent-Type: application/x-ndjson\r\n"
            b"Transfer-Encoding: chunked\r\n\r\n"
        )
        wire.sendall(b"%x\r\n%s\r\n" % (len(line), line))
        assert answered_at_once(wire, within_s=1.0) is None  # a quote takes some hundredths
        wire.settimeout(30)
        wire.sendall(b"%x\r\n%s\r\n0\r\n\r\n" % (len(line), line))
        response = http.client.HTTPResponse(wire)
        response.begin()
        assert response.status == 200
        first = response.readline()
        assert json.loads(first)["fingerprint"]
        assert response.readline() == first
        assert response.read() == b""


@pytest.mark.parametrize("chunked", [False, True], ids=["sized", "chunked"])
def test_a_large_batch_never_stands_still(deployed: Deployed, chunked: bool) -> None:
    """6 MB that are sent before anything is read: answered while they came, one of the first four stood for ever."""
    lines = (json.dumps(JOB).encode() + b" " * 100_000 + b"\n") * 60
    for _ in range(8):
        response, answers = ask(
            deployed.nginx,
            "POST",
            "/v1/batches",
            iter([lines]) if chunked else lines,
            Host="floors.example",
            Content_Type="application/x-ndjson",
        )
        assert (response.status, answers.count(b'"fingerprint"')) == (200, 60)


def test_a_large_batch_too_many_is_refused_as_such(deployed: Deployed) -> None:
    slow = [batch(deployed.nginx, b"POST", b"/v1/batches") for _ in range(6)]
    try:
        response, answer = ask(
            deployed.nginx,
            "POST",
            "/v1/batches",
            b" " * 1_000_000,
            Host="floors.example",
            Content_Type="application/x-ndjson",
        )
        assert (response.status, json.loads(answer)["code"]) == (429, "too-many")
    finally:
        for wire in slow:
            wire.close()


def test_a_batch_goes_to_the_other_replica_when_one_is_away(deployed: Deployed) -> None:
    line = json.dumps(JOB).encode() + b"\n"
    deployed.replicas[0].stop()
    try:
        for _ in range(4):
            response, answers = ask(
                deployed.nginx,
                "POST",
                "/v1/batches",
                line * 2,
                Host="floors.example",
                Content_Type="application/x-ndjson",
            )
            assert (response.status, answers.count(b'"fingerprint"')) == (200, 2)
    finally:
        deployed.replicas[0].start()
