"""Over the wire: what holds in this process holds through gunicorn as well."""

import json
import socket
import subprocess
import sys
from typing import Any
from urllib.parse import urlsplit

import pytest
import requests
from tests.builders import document

LEAST = document()
POSTED = ["/v1/readiness", "/v1/quantities", "/v1/pour-plan", "/v1/return-times", "/v1/quotes"]


def ask(http: requests.Session, method: str, path: str, **options: Any) -> requests.Response:
    return http.request(method, f"{http.base}{path}", timeout=30, **options)  # type: ignore[attr-defined]


@pytest.mark.parametrize("method", ["POST", "QUERY"])
@pytest.mark.parametrize("path", POSTED)
def test_every_calculation_answers(http: requests.Session, path: str, method: str) -> None:
    response = ask(http, method, path, json=LEAST)
    assert response.status_code == 200, response.text
    assert response.headers["Content-Type"] == "application/json"
    assert response.json()["catalogue"]["invented"] is True


@pytest.mark.parametrize(
    "path", ["/", "/v1/systems", "/v1/units", "/openapi.json", "/docs", "/healthz", "/readyz", "/problems/not-json"]
)
def test_every_address_answers(http: requests.Session, path: str) -> None:
    assert ask(http, "GET", path).status_code == 200


def test_a_name_saves_the_body(http: requests.Session) -> None:
    tag = ask(http, "GET", "/v1/systems").headers["ETag"]
    again = ask(http, "GET", "/v1/systems", headers={"If-None-Match": tag})
    assert (again.status_code, again.content, again.headers["ETag"]) == (304, b"", tag)


def test_workers_agree_to_the_byte(http: requests.Session) -> None:
    bodies = {ask(http, "POST", "/v1/quotes?working=true", json=LEAST).content for _ in range(12)}
    assert len(bodies) == 1


def test_a_body_without_a_length_is_read(http: requests.Session) -> None:
    response = ask(
        http,
        "POST",
        "/v1/readiness",
        data=iter([json.dumps(LEAST).encode()]),
        headers={"Content-Type": "application/json"},
    )
    assert response.status_code == 200


def test_a_body_without_a_length_is_read_no_further_than_allowed(http: requests.Session) -> None:
    pieces = (b" " * 65_536 for _ in range(8))
    response = ask(http, "POST", "/v1/readiness", data=pieces, headers={"Content-Type": "application/json"})
    assert (response.status_code, response.json()["code"]) == (413, "too-large")


def test_a_length_that_is_too_great_is_refused_unread(server: str) -> None:
    address = urlsplit(server)
    assert address.hostname
    with socket.create_connection((address.hostname, address.port or 80), timeout=10) as wire:
        wire.sendall(
            b"POST /v1/readiness HTTP/1.1\r\nHost: x\r\nContent-Type: application/json\r\n"
            b"Content-Length: 900000000\r\n\r\n"
        )
        assert wire.recv(200).startswith(b"HTTP/1.1 413 ")


def test_the_problems_of_every_calculation_are_problems(http: requests.Session) -> None:
    for path in POSTED:
        for data, status in ((b"", 400), (b"{", 400), (b"{}", 422), (b'{"system": "x", "rooms": []}', 422)):
            response = ask(http, "POST", path, data=data, headers={"Content-Type": "application/json"})
            assert response.headers["Content-Type"] == "application/problem+json"
            assert (response.status_code, response.json()["status"]) == (status, status)


def test_a_taken_port_is_told_and_ends_with_a_code(server: str) -> None:
    port = urlsplit(server).port
    code = "import sys; from gaugerake.cli import main; sys.exit(main())"
    done = subprocess.run(
        [sys.executable, "-c", code, "serve", "--port", str(port)], capture_output=True, text=True, timeout=60
    )
    assert done.returncode == 3
    assert done.stderr == f"Cannot listen on 127.0.0.1:{port}: Address already in use. Choose another with --port.\n"
