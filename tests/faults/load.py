"""Clients that send request after request, each with an id of its own, and a record of how every one ended."""

import http.client
import itertools
import json
import socket
import ssl
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field

from tests.builders import document

JOB = document()
BODY = json.dumps(JOB).encode()
PATIENCE = 30.0

ANSWERED, REFUSED, LOST, UNSENT = "answered", "refused", "lost", "unsent"


@dataclass(slots=True)
class Sent:
    """One request: when it began and ended [s, monotonic], and how; one that could not connect is ``UNSENT``."""

    id: str
    began: float
    ended: float = 0.0
    outcome: str = ""
    seen: str = ""


@dataclass
class Load:
    """Clients that post the same job to one address, ``most`` times in all, a new connection for each request.

    An answer that differs from the first one, which ``expected`` keeps, counts as refused.
    """

    port: int
    name: str
    clients: int = 6
    path: str = "/v1/quotes"
    pause: float = 0.01
    most: int = 20_000
    tls: ssl.SSLContext | None = None
    sent: list[Sent] = field(default_factory=list)
    expected: bytes | None = None

    def __post_init__(self) -> None:
        self._stop = threading.Event()
        self._numbers = itertools.count(1)
        self._threads: list[threading.Thread] = []

    @contextmanager
    def running(self) -> Iterator["Load"]:
        """Ask until the block ends; then every request has been answered or given up."""
        first = self._ask("first")
        assert first.outcome == ANSWERED, first
        self.sent.clear()
        self._threads = [threading.Thread(target=self._client) for _ in range(self.clients)]
        for thread in self._threads:
            thread.start()
        try:
            self.wait_for(self.clients * 2)
            yield self
        finally:
            self._stop.set()
            for thread in self._threads:
                thread.join(PATIENCE + 5)

    def wait_for(self, more: int) -> None:
        """Wait until ``more`` further requests have ended, in whatever way."""
        goal = self._ended() + more
        for _ in range(3000):
            if self._ended() >= goal or self._stop.is_set():
                return
            time.sleep(0.01)
        raise AssertionError(f"{self._ended()} requests ended, {goal} were waited for")

    def _ended(self) -> int:
        return sum(1 for sent in list(self.sent) if sent.ended)

    def in_flight(self, begin: float, end: float) -> list[Sent]:
        """The requests that were under way at some time between two instants [s, monotonic]."""
        return [sent for sent in self.sent if sent.began <= end and sent.ended >= begin]

    def those(self, outcome: str) -> list[Sent]:
        """The requests with this outcome."""
        return [sent for sent in self.sent if sent.outcome == outcome]

    def recovered_after(self, fault: float) -> float:
        """From ``fault`` to the last failure, or to the first answer to a request sent after it if later [s]."""
        good = min((sent.ended for sent in self.those(ANSWERED) if sent.began >= fault), default=float("inf"))
        failed = max(
            (sent.ended for sent in self.sent if sent.outcome != ANSWERED and sent.ended >= fault), default=0.0
        )
        return max(good, failed) - fault

    def _client(self) -> None:
        while not self._stop.is_set() and len(self.sent) < self.most:
            self._ask(f"{self.name}-{next(self._numbers)}")
            time.sleep(self.pause)

    def _ask(self, request_id: str) -> Sent:
        sent = Sent(request_id, time.monotonic())
        self.sent.append(sent)
        try:
            sent.outcome, sent.seen = self._exchange(request_id)
        except (ConnectionRefusedError, socket.gaierror) as error:
            sent.outcome, sent.seen = UNSENT, repr(error)
        except (OSError, http.client.HTTPException) as error:
            sent.outcome, sent.seen = LOST, repr(error)
        sent.ended = time.monotonic()
        return sent

    def _exchange(self, request_id: str) -> tuple[str, str]:
        connection = (
            http.client.HTTPSConnection("127.0.0.1", self.port, timeout=PATIENCE, context=self.tls)
            if self.tls
            else http.client.HTTPConnection("127.0.0.1", self.port, timeout=PATIENCE)
        )
        headers = {"Content-Type": "application/json", "X-Request-Id": request_id, "Connection": "close"}
        try:
            connection.request("POST", self.path, BODY, headers)
            response = connection.getresponse()
            body = response.read()
        finally:
            connection.close()
        if response.status != 200:
            return REFUSED, f"{response.status} {body[:300]!r}"
        if response.getheader("X-Request-Id") != request_id:
            return LOST, f"answered with the id {response.getheader('X-Request-Id')}"
        self.expected = self.expected or body
        return (ANSWERED, "") if body == self.expected else (REFUSED, "another answer than before")
