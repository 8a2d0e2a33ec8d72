"""A batch that a slow client feeds job by job."""

import json
import socket

from tests.faults.processes import ROOT, Service

JOB = json.dumps(json.loads((ROOT / "openapi" / "examples" / "least.json").read_text("utf-8"))).encode() + b"\n"
HEAD = (
    b"POST /v1/batches HTTP/1.1\r\nHost: floors.example\r\nContent-Type: application/x-ndjson\r\nConnection: close\r\n"
)


class Batch:
    """A batch in chunks that stays open until it is told to end."""

    def __init__(self, service: Service) -> None:
        self.wire = socket.create_connection(("127.0.0.1", service.port), timeout=30)
        self.wire.sendall(HEAD + b"Transfer-Encoding: chunked\r\n\r\n")
        self.seen = b""
        self.jobs = 0

    def send(self) -> None:
        """Send another job, and wait for its quote."""
        self.wire.sendall(b"%x\r\n%b\r\n" % (len(JOB), JOB))
        self.jobs += 1
        while self.answered() < self.jobs:
            data = self.wire.recv(1 << 16)
            assert data, self.seen
            self.seen += data

    def answered(self) -> int:
        """How many quotes have come."""
        return self.seen.count(b'"fingerprint"')

    def end(self) -> None:
        """Say that no more jobs come; the answer ends as it should."""
        self.wire.sendall(b"0\r\n\r\n")
        while data := self.wire.recv(1 << 16):
            self.seen += data
        self.wire.close()
        assert self.seen.endswith(b"0\r\n\r\n"), self.seen[-200:]
        assert self.answered() == self.jobs
