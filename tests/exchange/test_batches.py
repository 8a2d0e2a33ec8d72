"""Batches: a line in, a line out, in order; what is wrong with one spoils no other."""

import json
import time
import tracemalloc
from collections.abc import Iterator
from types import SimpleNamespace
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from limits.storage import memory

from gaugerake.web.api import rates
from gaugerake.web.api.resources import batches
from gaugerake.web.api.resources.batches import MOST_JOBS
from gaugerake.web.errors.refusal import MOST_BYTES
from gaugerake.web.server.app import create_app

NDJSON = "application/x-ndjson"


def post(client: FlaskClient, body: str | bytes, **options: Any) -> Any:
    return client.post("/v1/batches", data=body, **{"content_type": NDJSON, **options})


def answers(response: Any) -> list[dict[str, Any]]:
    assert (response.status_code, response.mimetype) == (200, NDJSON)
    assert response.data.endswith(b"\n") or response.data == b""
    return [json.loads(line) for line in response.data.splitlines()]


def lines(*jobs: Any) -> str:
    return "".join(f"{job if isinstance(job, str) else json.dumps(job)}\n" for job in jobs)


@pytest.mark.parametrize("units", ["us", "si"])
def test_each_line_is_the_quote_of_its_job_byte_for_byte(client: FlaskClient, job: dict[str, Any], units: str) -> None:
    jobs = [job | {"order": job["order"] | {"reference": name}} for name in ("A", "B", "C")]
    singles = [client.post("/v1/quotes", json=one, query_string={"units": units}).data for one in jobs]
    response = post(client, lines(*jobs), query_string={"units": units})
    assert response.data == b"".join(single + b"\n" for single in singles)


def test_a_bad_line_is_one_problem_and_spoils_no_other(client: FlaskClient, job: dict[str, Any]) -> None:
    bad = [
        "{",
        "[]",
        '{"system": "level-clear"}',
        json.dumps(job | {"system": "levle"}),
        "\xff",
        '{"a": 1, "a": 2}',
        "NaN",
    ]
    body = b"".join((lines(job) + one + "\n").encode("latin-1") for one in bad) + lines(job).encode()
    found = answers(post(client, body))
    assert [one.get("code") for one in found] == [
        None,
        "not-json",
        None,
        "invalid-job",
        None,
        "invalid-job",
        None,
        "refused-job",
        None,
        "not-utf-8",
        None,
        "doubled-field",
        None,
        "bad-number",
        None,
    ]
    assert [one["line"] for one in found if "code" in one] == [2, 4, 6, 8, 10, 12, 14]
    assert len({one["token"] for one in found if "token" in one}) == 1


def test_the_problem_of_a_line_is_that_of_the_job_alone(client: FlaskClient, job: dict[str, Any]) -> None:
    job["rooms"][0]["shape"] = {"rectangle": {"length": "42", "width": "28 ft"}}
    headers = {"X-Request-Id": "same"}
    alone = client.post("/v1/quotes", json=job, headers=headers).get_json(force=True)
    (line,) = answers(post(client, lines(job), headers=headers))
    assert line == alone | {"line": 1}
    assert line["errors"][0]["pointer"] == "/rooms/0/shape/rectangle/length"


def test_blank_lines_are_passed_over_and_counted(client: FlaskClient, job: dict[str, Any]) -> None:
    found = answers(post(client, f"\n  \r\n{lines(job)}\t\n{{\n\n"))
    assert ["fingerprint" in one for one in found] == [True, False]
    assert found[1]["line"] == 5


@pytest.mark.parametrize("end", ["\n", "\r\n", ""])
def test_a_line_ends_as_lines_do_and_the_last_may_not(client: FlaskClient, job: dict[str, Any], end: str) -> None:
    first = client.post("/v1/quotes", json=job).data
    assert post(client, json.dumps(job) + "\r\n" + json.dumps(job) + end).data == (first + b"\n") * 2


def test_nothing_in_is_told_and_not_passed_over(client: FlaskClient) -> None:
    response = post(client, "", environ_overrides={"CONTENT_LENGTH": "0"})
    assert (response.status_code, response.get_json(force=True)["code"]) == (400, "empty-body")
    for body in ("", "\n"):  # of no stated length, or blank
        [last] = answers(post(client, body))
        assert (last["code"], "line" in last) == ("empty-body", False)


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_a_line_has_the_bound_of_a_job(client: FlaskClient, job: dict[str, Any], end: str) -> None:
    text = json.dumps(job)
    most = text + " " * (MOST_BYTES - len(text))
    body = f"{most}{end}{most} {end}{'x' * 3 * MOST_BYTES}{end}{text}{end}"
    found = answers(post(client, body))
    assert [one.get("code") for one in found] == [None, "too-large", "too-large", None]
    assert [one.get("line") for one in found] == [None, 2, 3, None]


def test_more_jobs_than_a_batch_may_have_end_it(
    client: FlaskClient, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(batches, "MOST_JOBS", 3)
    assert [one.get("code") for one in answers(post(client, lines(job, job, "", job)))] == [None] * 3
    found = answers(post(client, lines(job, job, job, job, job)))
    assert [one.get("code") for one in found] == [None, None, None, "batch-too-large"]
    assert "3 jobs" in found[-1]["detail"]
    assert "line" not in found[-1]


def test_a_batch_that_says_that_it_is_too_large_is_not_begun(
    client: FlaskClient, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(batches, "MOST_BYTES", 100)
    response = post(client, lines(job))
    assert (response.status_code, response.get_json(force=True)["code"]) == (413, "batch-too-large")


def test_a_batch_that_ends_before_it_is_whole_says_so(client: FlaskClient, job: dict[str, Any]) -> None:
    body = lines(job, job).encode()
    response = post(client, body, environ_overrides={"CONTENT_LENGTH": str(len(body) + 10)})
    assert [one.get("code") for one in answers(response)] == [None, None, "batch-cut-short"]


@pytest.fixture
def rated(app: Flask, monkeypatch: pytest.MonkeyPatch) -> FlaskClient:
    """A client of an app that answers an address four times an hour."""
    monkeypatch.setenv("GAUGERAKE_RATE", "4/hour")
    return create_app(app.extensions["gaugerake.snapshots"]).test_client()


def test_each_job_counts_as_a_request_and_is_refused_in_its_line(rated: FlaskClient, job: dict[str, Any]) -> None:
    response = post(rated, lines(job, "{", "", job, job, job, job))
    found = answers(response)
    refused = ["too-many-requests"] * 2
    assert [one.get("code") for one in found] == [None, "not-json", None, None, *refused]
    assert [one["line"] for one in found[-2:]] == [6, 7]
    assert all(one["status"] == 429 and 3590 < one["retry_after"] <= 3600 for one in found[-2:])
    assert response.headers["RateLimit"].startswith('"address";r=3;')  # as it was when the batch began
    assert post(rated, lines(job)).status_code == 429


def test_a_batch_is_counted_with_what_came_before_it(rated: FlaskClient, job: dict[str, Any]) -> None:
    assert [rated.get("/v1/units").status_code for _ in range(2)] == [200, 200]
    found = answers(post(rated, lines(job, job, job)))
    assert [one.get("code") for one in found] == [None, None, "too-many-requests"]


def test_jobs_are_answered_again_when_the_rate_is(
    rated: FlaskClient, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    later = SimpleNamespace(time=lambda: time.time() + 3601, monotonic=lambda: time.monotonic() + 3601)
    whole, refused = batches._refused, []

    def an_hour_after_the_second(number: int, wait_s: int) -> dict[str, Any]:
        refused.append(number)
        if len(refused) == 2:
            for module in (rates, memory):
                monkeypatch.setattr(module, "time", later)
        return whole(number, wait_s)

    monkeypatch.setattr(batches, "_refused", an_hour_after_the_second)
    found = answers(post(rated, lines(*[job] * 12)))
    hour = [None] * 4 + ["too-many-requests"] * 2
    assert [one.get("code") for one in found] == hour + hour


def test_jobs_are_answered_while_they_cannot_be_counted(
    rated: FlaskClient, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    limiter = next(iter(rated.application.extensions["limiter"]))
    whole, counted = limiter.storage.incr, []

    def once(key: str, *given: Any, **named: Any) -> int:
        counted.append(key)
        if len(counted) > 1:
            raise OSError("away")
        return int(whole(key, *given, **named))

    monkeypatch.setattr(limiter.storage, "incr", once)
    assert [one.get("code") for one in answers(post(rated, lines(*[job] * 6)))] == [None] * 6
    assert len(counted) == 2
    assert sum("are not counted" in record.message for record in caplog.records) == 1


@pytest.mark.parametrize("media_type", ["application/json", "text/plain", ""])
def test_another_media_type_is_a_415(client: FlaskClient, job: dict[str, Any], media_type: str) -> None:
    response = post(client, lines(job), content_type=media_type)
    assert (response.status_code, response.get_json(force=True)["code"]) == (415, "batch-media-type")
    assert response.headers["Accept-Post"] == NDJSON


def test_a_packed_batch_is_a_415(client: FlaskClient, job: dict[str, Any]) -> None:
    response = post(client, lines(job), headers={"Content-Encoding": "gzip"})
    assert (response.status_code, response.get_json(force=True)["code"]) == (415, "encoded-body")


def test_an_answer_in_another_form_is_a_406(client: FlaskClient, job: dict[str, Any]) -> None:
    response = post(client, lines(job), headers={"Accept": "application/json"})
    assert (response.status_code, response.get_json(force=True)["code"]) == (406, "not-acceptable")


def test_a_batch_is_safe_to_repeat_and_so_answers_query(client: FlaskClient, job: dict[str, Any]) -> None:
    response = client.open("/v1/batches", method="QUERY", data=lines(job), content_type=NDJSON)
    assert response.data == post(client, lines(job)).data
    assert response.headers["Accept-Query"] == NDJSON


def test_all_lines_are_answered_from_one_revision(client: FlaskClient, job: dict[str, Any], source: Any) -> None:
    before = source.current.revision

    def body() -> Iterator[bytes]:
        yield lines(job).encode()
        source.current = None  # whatever happens to the source meanwhile
        yield lines(job).encode()

    environ = {"wsgi.input_terminated": True, "wsgi.input": Pieces(body())}
    found = answers(client.open("/v1/batches", method="POST", content_type=NDJSON, environ_overrides=environ))
    assert [one["catalogue_revision"] for one in found] == [before, before]


def test_ten_thousand_lines_go_through_in_the_memory_of_a_few(
    client: FlaskClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    """40 MB in and 200 MB out, with the quote itself left out: it is made and let go of line by line."""
    monkeypatch.setattr(
        batches, "_answer", lambda number, line, _snapshot: {"number": number, "sent": len(line), "pad": "x" * 20_000}
    )
    sent = (b'{"number": %d, "pad": "%s"}\n' % (number, b"y" * 4_000) for number in range(1, MOST_JOBS + 1))
    environ = {"wsgi.input_terminated": True, "wsgi.input": Pieces(sent)}
    tracemalloc.start()
    try:
        response = client.open("/v1/batches", method="POST", content_type=NDJSON, environ_overrides=environ)
        numbers, size = [], 0
        for line in response.iter_encoded():
            numbers.append(json.loads(line)["number"])
            size += len(line)
        peak = tracemalloc.get_traced_memory()[1]
    finally:
        tracemalloc.stop()
    assert numbers == list(range(1, MOST_JOBS + 1))
    assert size > 200_000_000
    assert peak < 16_000_000


class Pieces:
    """A body that comes in pieces, each a line."""

    def __init__(self, pieces: Iterator[bytes]) -> None:
        self.pieces = pieces

    def readline(self, _size: int) -> bytes:
        return next(self.pieces, b"")


def test_what_goes_wrong_here_is_the_problem_of_its_line_alone_and_tells_nothing(
    client: FlaskClient, job: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    whole = batches.resolved_of

    def broken(read: Any, snapshot: Any) -> Any:
        if read.order.reference == "break":
            raise ZeroDivisionError("a secret of the service")
        return whole(read, snapshot)

    monkeypatch.setattr(batches, "resolved_of", broken)
    breaking = job | {"order": {"reference": "break"}}
    response = post(client, lines(job, breaking, job))
    assert [one.get("code") for one in answers(response)] == [None, "internal-error", None]
    assert "secret" not in response.text
