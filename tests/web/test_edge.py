"""Whom the service believes: hosts, hops and schemes are named, and nothing else that is forwarded counts."""

from collections.abc import Callable, Mapping
from typing import Any

import pytest
from flask import Flask, request
from flask.testing import FlaskClient

from gaugerake.web.server.app import create_app
from gaugerake.web.server.edge import BadSetting, page_address, proxy_hops, trusted_hosts

Read = Callable[[Any], dict[str, Any]]
CLOUD = {
    "X-Forwarded-For": "198.51.100.7, 203.0.113.9",
    "X-Forwarded-Proto": "https",
    "X-Forwarded-Host": "evil.example",
}


@pytest.fixture
def given(monkeypatch: pytest.MonkeyPatch, app: Flask) -> Callable[..., FlaskClient]:
    """A client of an app with these settings."""

    def made(**settings: str) -> FlaskClient:
        for name, value in settings.items():
            monkeypatch.setenv(name, value)
        made = create_app(app.extensions["gaugerake.snapshots"])
        made.add_url_rule("/whom", "whom", lambda: {"address": request.remote_addr, "host": request.host_url})
        return made.test_client()

    return made


@pytest.mark.parametrize(
    ("hops", "address", "host"),
    [
        ("0", "127.0.0.1", "http://localhost/"),
        ("1", "203.0.113.9", "https://localhost/"),
        ("2", "198.51.100.7", "https://localhost/"),
    ],
)
def test_as_many_hops_are_believed_as_are_named(
    given: Callable[..., FlaskClient], hops: str, address: str, host: str
) -> None:
    client = given(GAUGERAKE_PROXY_HOPS=hops)
    assert client.get("/whom", headers=CLOUD).get_json() == {"address": address, "host": host}


@pytest.mark.parametrize("hops", ["-1", "one", "11", "1.0", "²", "99999999999"])
def test_hops_that_are_no_number_of_hops_are_refused(hops: str) -> None:
    with pytest.raises(BadSetting, match="GAUGERAKE_PROXY_HOPS is the number of proxies in front, 0 to 10"):
        proxy_hops({"GAUGERAKE_PROXY_HOPS": hops})


@pytest.mark.parametrize("environment", [{}, {"GAUGERAKE_PROXY_HOPS": ""}, {"GAUGERAKE_PROXY_HOPS": " 0 "}])
def test_nobody_is_believed_unless_it_is_said(environment: Mapping[str, str]) -> None:
    assert (proxy_hops(environment), trusted_hosts(environment)) == (0, None)


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("floors.example", 200),
        ("floors.example:8443", 200),
        ("north.shop.example", 200),
        ("127.0.0.1:8080", 200),
        ("localhost", 200),
        ("evil.example", 400),
        ("floors.example.evil.example", 400),
        ("notfloors.example", 400),
        ("floors.example@evil.example", 400),
    ],
)
def test_only_named_hosts_are_answered(
    given: Callable[..., FlaskClient], problem: Read, host: str, status: int
) -> None:
    client = given(GAUGERAKE_TRUSTED_HOSTS="floors.example, .shop.example")
    response = client.get("/v1/units", headers={"Host": host})
    assert response.status_code == status
    if status == 400:
        assert problem(response)["code"] == "bad-request"
        assert "evil" not in response.text


def test_browsers_are_told_to_stay_with_tls_behind_it_alone(given: Callable[..., FlaskClient]) -> None:
    client = given(GAUGERAKE_PROXY_HOPS="1")
    assert "Strict-Transport-Security" not in client.get("/healthz").headers
    behind = client.get("/healthz", headers={"X-Forwarded-Proto": "https"})
    assert behind.headers["Strict-Transport-Security"] == "max-age=31536000"


def test_a_client_cannot_say_that_it_came_by_tls(client: FlaskClient) -> None:
    assert "Strict-Transport-Security" not in client.get("/healthz", headers=CLOUD).headers


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("GET", "/"), ("GET", "/v1/systems"), ("GET", "/v1/systems/none"), ("POST", "/v1/quotes"), ("GET", "/docs"),
        ("GET", "/openapi.json"), ("GET", "/healthz"), ("GET", "/readyz"), ("GET", "/metrics"), ("GET", "/nothing"),
        ("DELETE", "/v1/quotes"), ("GET", "/v1/quotes/none"), ("GET", "/problems/not-json"),
    ],
)  # fmt: skip
def test_every_answer_has_the_headers_that_guard_it(client: FlaskClient, method: str, path: str) -> None:
    headers = client.open(path, method=method).headers
    assert headers["X-Content-Type-Options"] == "nosniff"
    assert headers["Referrer-Policy"] == "no-referrer"
    assert headers["X-Frame-Options"] == "DENY"
    assert headers["Cache-Control"]
    policy = headers["Content-Security-Policy"]
    assert policy.startswith("default-src 'none'")
    assert "frame-ancestors 'none'" in policy
    assert "unsafe" not in policy
    assert "http:" not in policy


@pytest.mark.parametrize("address", ["floors.example", "javascript:alert(1)", "https://", "https://floors.example/#x"])
def test_an_address_that_no_code_could_lead_to_is_refused(address: str) -> None:
    with pytest.raises(BadSetting, match=r"such as https://floors\.example"):
        page_address({"GAUGERAKE_ADDRESS": address})


def test_an_address_may_have_a_path_and_may_be_left_out() -> None:
    assert (
        page_address({"GAUGERAKE_ADDRESS": " https://shop.example:8443/floors/ "})
        == "https://shop.example:8443/floors/"
    )
    assert page_address({"GAUGERAKE_ADDRESS": ""}) is None
