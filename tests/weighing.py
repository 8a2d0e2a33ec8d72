"""What a request costs, in least quotes: its processor time beside that of the smallest quote, asked in the same run.

Both are slowed alike by whatever else the machine does. What is left of noise only adds, so a request that seems too
dear is asked again, and the least of its costs counts. Garbage is looked for as in a worker: else a large answer would
be charged with walks over all that the tests themselves hold.
"""

from __future__ import annotations

import gc
import statistics
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from flask.testing import FlaskClient

from gaugerake.web.server.serving import GARBAGE

LEAST = (Path(__file__).parents[1] / "openapi" / "examples" / "least.json").read_bytes()
MOST_LEAST_QUOTES = 250.0
"""No request may cost more, whatever it holds."""
MOST_ANSWER_BYTES = 10_000_000
"""Nor has any answer more; 6.8 MB was the most that was found."""
TRIES = 3


@dataclass(frozen=True)
class Weighed:
    """A request's cost, and what came of it."""

    least_quotes: float
    status: int
    body: bytes


@dataclass(frozen=True)
class Asked:
    """A request."""

    path: str
    body: bytes = b""
    method: str = "POST"
    headers: Mapping[str, str] | None = None


def send(client: FlaskClient, asked: Asked) -> tuple[float, int, bytes]:
    """The processor time [s] of one request, the status and the answer."""
    headers = {"Content-Type": "application/json", **(asked.headers or {})}
    with _garbage_as_served():
        begun = time.process_time()
        response = client.open(asked.path, method=asked.method, data=asked.body, headers=headers)
        data = response.get_data()
        return time.process_time() - begun, response.status_code, data


@contextmanager
def _garbage_as_served() -> Iterator[None]:
    """What there is already is left alone, and new objects are looked through as seldom as in a worker."""
    usual = gc.get_threshold()
    gc.freeze()
    gc.set_threshold(*GARBAGE)
    try:
        yield
    finally:
        gc.set_threshold(*usual)
        gc.unfreeze()


def least_quote_s(client: FlaskClient, times: int = 9) -> float:
    """The processor time of the least quote [s]: the median of several."""
    return statistics.median(send(client, Asked("/v1/quotes", LEAST))[0] for _ in range(times))


def weigh(client: FlaskClient, asked: Asked, *, most: float = MOST_LEAST_QUOTES) -> Weighed:
    """The cost of a request, asked again while it seems dearer than ``most``."""
    costs = []
    for _ in range(TRIES):
        before_s = least_quote_s(client)
        took_s, status, body = send(client, asked)
        costs.append(took_s / statistics.mean((before_s, least_quote_s(client))))
        if costs[-1] <= most:
            break
    return Weighed(min(costs), status, body)
