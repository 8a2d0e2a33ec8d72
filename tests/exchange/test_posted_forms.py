"""The forms of a quote straight from the job: the bytes that its token gives."""

from json import dumps
from typing import Any

import pytest
from flask.testing import FlaskClient

from .conftest import Quote, Show

FORMS = ["application/json", "text/html", "text/csv", "application/xml"]


@pytest.mark.parametrize("units", ["us", "si"])
@pytest.mark.parametrize("form", FORMS)
def test_a_form_from_the_job_has_the_bytes_that_its_token_gives(
    client: FlaskClient, quote: Quote, show: Show, job: dict[str, Any], form: str, units: str
) -> None:
    response = client.post("/v1/quotes", json=job, headers={"Accept": form}, query_string={"units": units})
    opened = show(quote(job, units=units)["token"], form)
    assert (response.status_code, response.mimetype) == (200, form)
    assert response.data == opened.data
    assert response.headers["Content-Type"] == opened.headers["Content-Type"]
    assert response.headers.get("Content-Security-Policy") == opened.headers.get("Content-Security-Policy")


@pytest.mark.parametrize("form", FORMS)
def test_nobody_keeps_it_and_it_varies_with_what_is_accepted(
    client: FlaskClient, job: dict[str, Any], form: str
) -> None:
    response = client.post("/v1/quotes", json=job, headers={"Accept": form})
    assert response.headers["Cache-Control"] == "no-store"
    assert "Accept" in response.headers["Vary"]
    assert "ETag" not in response.headers


@pytest.mark.parametrize("form", FORMS)
def test_a_fault_is_a_problem_in_json_whatever_is_accepted(client: FlaskClient, job: dict[str, Any], form: str) -> None:
    job["rooms"][0]["shape"] = {"measured": {"area": "12 yards"}}
    response = client.post("/v1/quotes", json=job, headers={"Accept": form})
    assert (response.status_code, response.content_type) == (422, "application/problem+json")
    assert response.get_json()["errors"][0]["pointer"] == "/rooms/0/shape/measured/area"


def test_ubl_without_a_day_of_issue_is_a_406_that_says_so(client: FlaskClient, job: dict[str, Any]) -> None:
    del job["order"]["issued"]
    response = client.post("/v1/quotes", json=job, headers={"Accept": "application/xml"})
    assert (response.status_code, response.content_type) == (406, "application/problem+json")
    assert response.get_json()["code"] == "quote-not-issued"
    liked = client.post("/v1/quotes", json=job, headers={"Accept": "application/xml, text/csv;q=0.5"})
    assert liked.mimetype == "text/csv"


def test_a_form_that_is_not_made_is_a_406(client: FlaskClient, job: dict[str, Any]) -> None:
    response = client.post("/v1/quotes", json=job, headers={"Accept": "image/png"})
    assert (response.status_code, response.get_json()["code"]) == (406, "not-acceptable")


def test_query_gives_the_forms_too(client: FlaskClient, job: dict[str, Any]) -> None:
    asked = {"json": job, "headers": {"Accept": "text/csv"}}
    assert client.open("/v1/quotes", method="QUERY", **asked).data == client.post("/v1/quotes", **asked).data


# clients that know few media types


def test_a_client_that_accepts_problems_alone_says_nothing_of_the_answer(
    client: FlaskClient, quote: Quote, job: dict[str, Any]
) -> None:
    """openapi-generator's Python names the form of problems alone where the answer is no JSON."""
    accept = {"Accept": "application/problem+json"}
    code = client.get(f"/v1/quotes/{quote(job)['token']}/qr.svg", headers=accept)
    assert (code.status_code, code.mimetype) == (200, "image/svg+xml")
    assert client.post("/v1/quotes", json=job, headers=accept).mimetype == "application/json"


def test_the_code_and_lines_of_json_are_had_as_bytes(client: FlaskClient, quote: Quote, job: dict[str, Any]) -> None:
    octets = "application/octet-stream"
    address = f"/v1/quotes/{quote(job)['token']}/qr.svg"
    drawn = client.get(address, headers={"Accept": octets})
    assert (drawn.mimetype, drawn.data) == (octets, client.get(address).data)
    lines = dumps(job) + "\n"
    plain = client.post("/v1/batches", data=lines, content_type="application/x-ndjson")
    answered = plain.data  # read to its end before the next request
    batch = client.post("/v1/batches", data=lines, content_type=octets, headers={"Accept": octets})
    assert plain.mimetype == "application/x-ndjson"
    assert (batch.status_code, batch.mimetype, batch.data) == (200, octets, answered)
