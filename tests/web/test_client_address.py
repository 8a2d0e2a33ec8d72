"""Rates count IPv6 clients by their network of 64 bits (RFC 4291, 2.2 for the spellings; 2.5.5.2 for mapped ones)."""

from collections.abc import Callable

import pytest
from flask import Flask
from flask.testing import FlaskClient

from gaugerake.web.server.app import create_app
from gaugerake.web.server.client_address import counted_as


@pytest.mark.parametrize(
    ("address", "counted"),
    [
        ("2001:DB8:0:0:8:800:200C:417A", "2001:db8::/64"),
        ("2001:db8::8:800:200c:417a", "2001:db8::/64"),
        ("2001:db8:0:1::", "2001:db8:0:1::/64"),
        ("2001:db8:0:1:ffff:ffff:ffff:ffff", "2001:db8:0:1::/64"),
        ("fe80::1%eth0", "fe80::/64"),
        ("::1", "::/64"),
        ("::FFFF:129.144.52.38", "129.144.52.38"),
        ("129.144.52.38", "129.144.52.38"),
        ("no address", "no address"),
        ("2001:db8::g", "2001:db8::g"),
        ("", "unknown"),
        (None, "unknown"),
    ],
)
def test_a_client_is_counted_as(address: str | None, counted: str) -> None:
    assert counted_as(address) == counted


@pytest.fixture
def behind_a_proxy(monkeypatch: pytest.MonkeyPatch, app: Flask) -> Callable[[str], int]:
    """The status of one request from an address, with three of them an hour for each."""
    monkeypatch.setenv("GAUGERAKE_RATE", "3/hour")
    monkeypatch.setenv("GAUGERAKE_PROXY_HOPS", "1")
    client: FlaskClient = create_app(app.extensions["gaugerake.snapshots"]).test_client()
    return lambda address: client.get("/v1/units", headers={"X-Forwarded-For": address}).status_code


def test_a_new_address_of_the_same_network_brings_no_new_rate(behind_a_proxy: Callable[[str], int]) -> None:
    assert [behind_a_proxy(f"2001:db8:0:7::{number:x}") for number in range(5)] == [200, 200, 200, 429, 429]
    assert behind_a_proxy("2001:db8:0:8::1") == 200


def test_an_ipv4_address_is_counted_whole(behind_a_proxy: Callable[[str], int]) -> None:
    assert [behind_a_proxy(f"192.0.2.{number}") for number in range(5)] == [200] * 5
