"""Long answers are sent packed to clients that take them so, and are the same answers."""

import gzip

import pytest
from flask.testing import FlaskClient
from tests.builders import document

JOB = document()
GZIP = {"Accept-Encoding": "gzip, deflate, br"}
PLAIN = {"Accept-Encoding": "identity"}


def test_a_quote_comes_packed_and_is_the_same_quote(client: FlaskClient) -> None:
    packed = client.post("/v1/quotes", json=JOB, headers=GZIP)
    plain = client.post("/v1/quotes", json=JOB, headers=PLAIN)
    assert packed.headers["Content-Encoding"] == "gzip"
    assert "Content-Encoding" not in plain.headers
    assert gzip.decompress(packed.data) == plain.data
    assert len(packed.data) < len(plain.data) / 3
    assert all("Accept-Encoding" in response.vary for response in (packed, plain))


@pytest.mark.parametrize("headers", [GZIP, PLAIN], ids=["packed", "plain"])
def test_what_was_named_is_not_sent_again(client: FlaskClient, headers: dict[str, str]) -> None:
    first = client.get("/v1/systems", headers=headers)
    again = client.get("/v1/systems", headers={**headers, "If-None-Match": first.headers["ETag"]})
    assert (first.status_code, again.status_code, again.data) == (200, 304, b"")
    assert again.headers["ETag"] == first.headers["ETag"]


def test_a_packed_answer_has_a_tag_of_its_own(client: FlaskClient) -> None:
    tags = {client.get("/v1/systems", headers=headers).headers["ETag"] for headers in (GZIP, PLAIN)}
    assert len(tags) == 2


@pytest.mark.parametrize("asked", ["gzip;q=0", "br", ""])
def test_nobody_gets_what_was_not_asked_for(client: FlaskClient, asked: str) -> None:
    assert "Content-Encoding" not in client.get("/v1/systems", headers={"Accept-Encoding": asked}).headers


def test_a_short_answer_goes_as_it_is(client: FlaskClient) -> None:
    assert "Content-Encoding" not in client.get("/healthz", headers=GZIP).headers
