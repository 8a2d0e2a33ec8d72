"""What answers carry besides their figures: headers, names, the echo; and that the methods mean what they say."""

import json
import logging
import re
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from gaugerake.web.api.page import CLIENT
from gaugerake.web.api.page_words import page_html
from gaugerake.web.observe.traces import JsonLines

LEAST: dict[str, Any] = {
    "system": "level-clear",
    "rooms": [{"shape": {"measured": {"area": "1200 sq ft"}}}],
}
NAMED = ["/v1/systems", "/v1/systems/level-clear", "/v1/units", "/openapi.json", "/docs", "/"]


@pytest.mark.parametrize("path", NAMED)
def test_what_is_named_is_not_sent_twice(client: FlaskClient, path: str) -> None:
    first = client.get(path)
    assert first.status_code == 200
    tag = first.headers["ETag"]
    digits = 16 if path == "/" else 32  # the page is light
    assert re.fullmatch(rf'"[0-9a-f]{{{digits}}}"', tag)
    again = client.get(path, headers={"If-None-Match": tag})
    assert (again.status_code, again.data, again.headers["ETag"]) == (304, b"", tag)
    assert again.headers["Cache-Control"] == first.headers["Cache-Control"] == "no-cache"
    assert client.get(path, headers={"If-None-Match": f'W/{tag}, "other"'}).status_code == 304
    assert client.get(path, headers={"If-None-Match": '"other"'}).status_code == 200


def test_each_choice_of_units_has_a_name_of_its_own(client: FlaskClient) -> None:
    tags = {client.get(f"/v1/systems?units={units}").headers["ETag"] for units in ("us", "si")}
    assert len(tags) == 2


def test_every_address_says_how_it_may_be_kept_and_guarded(app: Flask, client: FlaskClient) -> None:
    for rule in app.url_map.iter_rules():
        method = "GET" if rule.methods and "GET" in rule.methods else "POST"
        response = client.open(rule.rule.replace("<code>", "x"), method=method)
        headers = response.headers
        assert headers["Cache-Control"] in ("no-store", "no-cache"), rule
        assert headers["X-Content-Type-Options"] == "nosniff"
        assert headers["Referrer-Policy"] == "no-referrer"
        assert headers["Content-Security-Policy"].startswith("default-src 'none'")
        assert "frame-ancestors 'none'" in headers["Content-Security-Policy"]
        assert headers["X-Request-Id"]


def test_a_request_id_comes_back_when_it_can_stand_in_a_log(client: FlaskClient) -> None:
    assert client.get("/healthz", headers={"X-Request-Id": "order-17.a_b"}).headers["X-Request-Id"] == "order-17.a_b"
    for bad in ("a b", "x" * 65, 'a"b', "é".encode().decode("latin-1"), ""):
        made = client.get("/healthz", headers={"X-Request-Id": bad}).headers["X-Request-Id"]
        assert re.fullmatch("[0-9a-f]{32}", made)


def test_a_trace_context_is_carried_when_it_is_one(client: FlaskClient) -> None:
    parent = "00-4bf92f3577b34da6a3ce929d0e0e4736-00f067aa0ba902b7-01"  # W3C Trace Context, 3.2.3, its own example
    assert client.get("/healthz", headers={"traceparent": parent}).headers["traceparent"] == parent
    for bad in (
        "00-xyz",
        parent.upper(),
        "ff" + parent[2:],
        parent.replace("4bf92f3577b34da6a3ce929d0e0e4736", "0" * 32),
    ):
        assert "traceparent" not in client.get("/healthz", headers={"traceparent": bad}).headers


def test_the_log_has_a_line_for_each_answer_and_no_body(client: FlaskClient, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.INFO, "gaugerake.access"):
        client.post("/v1/readiness?units=si", json={**LEAST, "order": {"reference": "whisper"}})
    (record,) = [record for record in caplog.records if record.name == "gaugerake.access"]
    line = json.loads(JsonLines().format(record))
    assert (line["method"], line["route"], line["status"]) == ("POST", "/v1/readiness", 200)
    assert line["request_id"]
    assert "whisper" not in json.dumps(line)


def test_an_address_that_is_not_there_is_not_logged(client: FlaskClient, caplog: pytest.LogCaptureFixture) -> None:
    with caplog.at_level(logging.INFO, "gaugerake.access"):
        client.get("/v1/quote/a-token-misplaced")
    assert "a-token" not in "".join(JsonLines().format(record) for record in caplog.records)


def test_query_answers_as_post_does(client: FlaskClient) -> None:
    post = client.post("/v1/readiness", json=LEAST)
    query = client.open("/v1/readiness", method="QUERY", json=LEAST)
    assert post.status_code == query.status_code == 200
    assert post.data == query.data
    assert query.headers["Accept-Query"] == "application/json"


def test_the_same_job_gets_the_same_bytes(client: FlaskClient) -> None:
    answers = {client.post("/v1/readiness?echo=true&working=true", json=LEAST).data for _ in range(3)}
    assert len(answers) == 1


@pytest.mark.parametrize("units", ["us", "si"])
def test_the_echo_is_a_job_that_gets_the_same_answer(client: FlaskClient, units: str) -> None:
    first = client.post(f"/v1/readiness?echo=true&units={units}", json=LEAST).get_json()
    again = client.post(f"/v1/readiness?echo=true&units={units}", json=first["job"]).get_json()
    assert again == first


def test_echo_and_working_come_only_when_asked(client: FlaskClient) -> None:
    plain = client.post("/v1/readiness", json=LEAST).get_json()
    full = client.post("/v1/readiness?echo=true&working=true", json=LEAST).get_json()
    assert full.keys() - plain.keys() == {"job", "working"}
    assert {key: full[key] for key in plain} == plain


def test_every_answer_says_where_it_comes_from(client: FlaskClient) -> None:
    body = client.post("/v1/readiness", json=LEAST).get_json()
    assert {"catalogue_revision", "engine", "catalogue", "assumptions", "cautions", "missing"} <= body.keys()
    assert body["catalogue"]["invented"] is True
    assert "invented-data" in [caution["code"] for caution in body["cautions"]]


def test_liveness_touches_nothing_and_readiness_tells_the_revision(client: FlaskClient) -> None:
    assert client.get("/healthz").get_json() == {"alive": True}
    standing = client.get("/readyz").get_json()
    assert standing["ready"] is True
    assert standing["catalogue_revision"] == client.get("/v1/systems").get_json()["catalogue_revision"]


def test_the_page_is_served_in_words_and_packed_for_those_who_ask(client: FlaskClient) -> None:
    plain = client.get("/")
    assert plain.get_data(as_text=True) == page_html((CLIENT / "index.html").read_text("utf-8"))
    assert plain.content_type == "text/html; charset=utf-8"
    assert "script-src 'self'" in plain.headers["Content-Security-Policy"]
    packed = client.get("/", headers={"Accept-Encoding": "gzip"})
    assert packed.headers["Content-Encoding"] == "gzip"
    assert packed.headers["ETag"] != plain.headers["ETag"]
    assert packed.headers["Vary"] == plain.headers["Vary"] == "Accept-Encoding, Accept-Language, Cookie"


def test_head_is_get_without_its_body(client: FlaskClient) -> None:
    head = client.head("/v1/systems")
    assert head.data == b""
    assert head.headers["ETag"] == client.get("/v1/systems").headers["ETag"]


@pytest.mark.parametrize("path", ["/v1/readiness", "/v1/quantities", "/v1/pour-plan", "/v1/return-times", "/v1/quotes"])
def test_working_is_told_of_100_rooms_and_refused_of_101(client: FlaskClient, path: str) -> None:
    room = {"shape": {"rectangle": {"length": "10 ft", "width": "10 ft"}}}
    assert client.post(f"{path}?working=true", json={**LEAST, "rooms": [room] * 100}).status_code == 200
    refused = client.post(f"{path}?working=true", json={**LEAST, "rooms": [room] * 101})
    problem = refused.get_json()
    assert (refused.status_code, problem["code"]) == (422, "too-many-explained")
    assert [(error["pointer"], error["hint"]) for error in problem["errors"]] == [
        ("/rooms", "Ask without working, or ask about fewer rooms at a time.")
    ]
    assert client.post(path, json={**LEAST, "rooms": [room] * 101}).status_code == 200
