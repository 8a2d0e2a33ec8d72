"""A search for the dearest request: changes are made at random, and what costs most is kept and changed again.

What is kept is best in one of four ways: processor time in least quotes, that per byte of request, bytes of answer, and
these per byte of request. Kinds of request: jobs with their queries, headers, tokens of quotes, and catalogue files.
A seed gives the same changes; what is kept depends on measured times too, so two runs may part.
"""

from __future__ import annotations

import contextlib
import copy
import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace
from random import Random
from typing import Any

from flask.testing import FlaskClient
from tests.builders import client_of, example
from tests.contract.seek_moves import MOVES, Job
from tests.weighing import MOST_ANSWER_BYTES, MOST_LEAST_QUOTES, Asked, Weighed, least_quote_s, send, weigh

from gaugerake.catalogue.store.demo import demo_snapshot

SECRET = "only-for-the-tests-of-what-is-dear"
KEPT = 6
FRESH = 0.15
REFRESH = 25
DOUBTED = 0.6 * MOST_LEAST_QUOTES
"""What seems dearer is asked again: else the best that is kept would be the one with the most noise."""
LONGEST_LINE = 8000
"""Gunicorn reads no longer request line."""
PATHS = ["/v1/quotes", "/v1/quotes", "/v1/return-times", "/v1/pour-plan", "/v1/quantities", "/v1/readiness"]
QUERIES = ["", "units=si", "echo=true", "working=true", "echo=true&working=true&units=si", "x" * 6000]
FORMS = ["application/json", "text/html", "text/csv", "application/xml", "*/*", ", ".join(["a/b;q=0.5"] * 600)]


@dataclass(frozen=True)
class Candidate:
    """A request as what it is made from: a job for a path, or bytes as they are."""

    kind: str
    path: str
    job: Job | None = None
    method: str = "POST"
    headers: dict[str, str] = field(default_factory=dict)

    def asked(self) -> Asked:
        """The request."""
        body = b"" if self.job is None else json.dumps(self.job, ensure_ascii=False).encode("utf-8", "surrogatepass")
        return Asked(self.path, body, self.method, self.headers)


@dataclass(frozen=True)
class Found:
    """A request and what it cost."""

    candidate: Candidate
    weighed: Weighed
    sent_bytes: int

    def scores(self) -> tuple[float, float, float, float]:
        """In the four ways."""
        cost, answered, sent = self.weighed.least_quotes, len(self.weighed.body), self.sent_bytes + 200
        return cost, cost / sent, answered, answered / sent

    def told(self) -> str:
        """In one line."""
        one, path = self.weighed, self.candidate.path
        asked = f"{self.candidate.method} {path if len(path) < 60 else path[:57] + '...'}"
        return f"{one.least_quotes:7.1f} {one.status} {self.sent_bytes:8,} {len(one.body):11,} {asked}"


class Search:
    """What was found so far, and the next to try; ``known`` are jobs to begin from beside the description's own."""

    def __init__(self, seed: int, known: Sequence[Job] = ()) -> None:
        self.chance = Random(seed)
        self.client: FlaskClient = client_of(demo_snapshot(), secrets=lambda: [SECRET])
        self.best: list[list[Found]] = [[], [], [], []]
        self.dear: list[Found] = []
        self.tried = 0
        self._least_s = least_quote_s(self.client, 60)
        self._examples = [example(name) for name in ("least", "full", "metric", "winter", "counter", "slab-only")]
        self._examples += known

    def step(self) -> Found:
        """Try one more."""
        if self.tried % REFRESH == 0:
            self._least_s = least_quote_s(self.client)
        self.tried += 1
        found = self._weighed(self._next())
        if found.weighed.least_quotes > DOUBTED:
            found = replace(found, weighed=weigh(self.client, found.candidate.asked(), most=DOUBTED))
        if (
            found.weighed.least_quotes > MOST_LEAST_QUOTES
            or len(found.weighed.body) > MOST_ANSWER_BYTES
            or found.weighed.status >= 500
        ):
            self.dear.append(found)
        else:
            self._keep(found)
        return found

    def _weighed(self, candidate: Candidate) -> Found:
        asked = candidate.asked()
        took_s, status, body = send(self.client, asked)
        sent = len(asked.body) + len(asked.path) + sum(map(len, candidate.headers.values()))
        return Found(candidate, Weighed(took_s / self._least_s, status, body), sent)

    def _keep(self, found: Found) -> None:
        for way, kept in enumerate(self.best):
            kept.append(found)
            kept.sort(key=lambda one: one.scores()[way], reverse=True)
            del kept[KEPT:]

    def _next(self) -> Candidate:
        chance = self.chance
        kept = chance.choice(self.best)
        if not kept or chance.random() < FRESH:
            start = Candidate("job", chance.choice(PATHS), copy.deepcopy(chance.choice(self._examples)))
        else:
            start = chance.choice(kept).candidate
        return chance.choice(CHANGES)(self, start)


def _job(search: Search, start: Candidate) -> Candidate:
    """The job changed, in one to four ways."""
    job = copy.deepcopy(start.job) if start.job is not None else example("full")
    for _ in range(search.chance.choice([1, 1, 2, 3, 4])):
        _moved(job, search.chance)
    path = start.path if start.job is not None else "/v1/quotes"
    return replace(start, kind="job", path=path, job=job, method="POST")


def _moved(job: Job, chance: Random) -> None:
    # a job may be spoiled so before that this change has nothing to change
    with contextlib.suppress(AttributeError, TypeError, KeyError, IndexError):
        chance.choice(MOVES)(job, chance)


def _query(search: Search, start: Candidate) -> Candidate:
    """Another address, query and way of asking for the same job."""
    chance = search.chance
    path = f"{chance.choice(PATHS)}?{chance.choice(QUERIES)}"
    return replace(start, path=path) if start.job is not None else start


def _headers(search: Search, start: Candidate) -> Candidate:
    """Headers of any length that nginx and gunicorn would let through."""
    chance = search.chance
    headers = {"Accept": chance.choice(FORMS), "Accept-Encoding": chance.choice(["gzip", "gzip;q=0.1, " * 400 + "br"])}
    names = ["Cookie", "If-None-Match", "Traceparent", "Origin", "X-Api-Key", "Forwarded", "Accept-Language"]
    name = chance.choice(names)
    headers[name] = chance.choice(['"a", ' * 1300, "a=b; " * 1600, "é" * 4000, "0" * 8000, "W/" * 4000])
    return replace(start, headers=headers)


def _token(search: Search, start: Candidate) -> Candidate:
    """The quote of a job opened again by its token, whole or spoiled, in one of its forms."""
    chance, job = search.chance, start.job or example("full")
    body = json.dumps(job, ensure_ascii=False).encode("utf-8", "surrogatepass")
    answer: Any = search.client.post("/v1/quotes", data=body, content_type="application/json").get_json(force=True)
    token = answer.get("token") or "x" * chance.choice([10, 4000])
    if chance.random() < 0.2:
        cut = chance.randrange(len(token))
        token = token[:cut] + chance.choice(["", "A", "_" * 3000, "."]) + token[cut:]
    headers = {"Accept": chance.choice(FORMS), "Accept-Encoding": chance.choice(["", "gzip"])}
    return Candidate("token", f"/v1/quotes/{token}"[:LONGEST_LINE], None, "GET", headers)


CHANGES: list[Callable[[Search, Candidate], Candidate]] = [_job] * 8 + [_query, _query, _headers, _token]
