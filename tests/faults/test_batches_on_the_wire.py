"""Batches as they are sent: answered line by line as they come, and each job counted."""

import json
import socket
from collections import Counter
from pathlib import Path

import pytest
import requests
from tests.faults.batches import HEAD, JOB, Batch
from tests.faults.processes import Service

from gaugerake.catalogue.store.first_start import ensure_ready
from gaugerake.catalogue.store.keys import make_key

JOBS = 4


def answered_in_turn(wire: socket.socket, *, chunked: bool) -> None:
    """Send each job when the one before was answered: a service that waits for the next one is never answered."""
    wire.settimeout(30)
    length = b"Transfer-Encoding: chunked" if chunked else b"Content-Length: %d" % (JOBS * len(JOB))
    wire.sendall(HEAD + length + b"\r\n\r\n")
    seen = b""
    for number in range(1, JOBS + 1):
        wire.sendall(b"%x\r\n%b\r\n" % (len(JOB), JOB) if chunked else JOB)
        while seen.count(b'"fingerprint"') < number:
            data = wire.recv(1 << 16)
            assert data, seen
            seen += data
    wire.sendall(b"0\r\n\r\n" if chunked else b"")
    while data := wire.recv(1 << 16):
        seen += data
    assert seen.count(b'"fingerprint"') == JOBS
    assert b"batch-cut-short" not in seen


@pytest.mark.parametrize("chunked", [False, True], ids=["sized", "chunked"])
def test_each_line_is_answered_before_the_next_is_sent(service: Service, chunked: bool) -> None:
    with socket.create_connection(("127.0.0.1", service.port)) as wire:
        answered_in_turn(wire, chunked=chunked)


def test_beside_slow_batches_there_is_room_for_more(service: Service) -> None:
    batches = [Batch(service) for _ in range(6)]
    for batch in [*batches, *batches]:
        batch.send()
    assert service.alive()
    for batch in batches:
        batch.end()


def test_two_batches_and_single_requests_share_one_rate(tmp_path: Path) -> None:
    database = f"sqlite:///{tmp_path / 'rated.sqlite3'}"
    key = make_key(ensure_ready(database), "Shop", rate="30/hour")
    rated = Service(tmp_path, database)
    headers = {"Authorization": f"Bearer {key}", "Content-Type": "application/x-ndjson"}
    address = f"http://127.0.0.1:{rated.port}/v1"
    try:
        codes: Counter[str | None] = Counter()
        for _ in range(2):
            answer = requests.post(f"{address}/batches", JOB * 20, headers=headers, timeout=60)
            codes.update(json.loads(line).get("code") for line in answer.text.splitlines())
        assert codes == {None: 30, "too-many-requests": 10}
        assert requests.get(f"{address}/units", headers=headers, timeout=30).status_code == 429
    finally:
        rated.stop()
