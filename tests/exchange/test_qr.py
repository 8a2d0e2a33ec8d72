"""The QR code: which address it holds, how it is drawn, and when there is none."""

from typing import Any

import numpy as np
import pytest
import segno
import zxingcpp
from flask.testing import FlaskClient
from lxml import etree

from gaugerake.exchange.errors import QrTooLong
from gaugerake.exchange.qr import MOST_CHARACTERS, qr_svg
from gaugerake.web.server.app import create_app

from .conftest import SECRET


def modules(svg: bytes) -> set[tuple[int, int]]:
    """The dark modules that are drawn: a path of horizontal strokes, one module high."""
    path = etree.fromstring(svg).xpath("//*[@class='qrline']")[0].get("d")
    dark, x, y = set(), 0, 0.0
    for command, *figures in _commands(path):
        if command == "M":
            x, y = int(figures[0]), figures[1]
        elif command == "m":
            x, y = x + int(figures[0]), y + figures[1]
        else:
            dark |= {(at, int(y)) for at in range(x, x + int(figures[0]))}
            x += int(figures[0])
    return dark


def _commands(path: str) -> list[tuple[Any, ...]]:
    import re

    return [
        (command, *map(float, re.findall(r"-?[\d.]+", figures)))
        for command, figures in re.findall(r"([Mmh])([^Mmh]*)", path)
    ]


def dark_of(address: str) -> set[tuple[int, int]]:
    """The dark modules of an address by the library, four modules from the edge."""
    rows = segno.make_qr(address, error="l", boost_error=True).matrix
    return {(x + 4, y + 4) for y, row in enumerate(rows) for x, dark in enumerate(row) if dark}


def drawn(client: FlaskClient, job: dict[str, Any]) -> tuple[str, Any]:
    token = client.post("/v1/quotes", json=job).get_json()["token"]
    return token, client.get(f"/v1/quotes/{token}/qr.svg")


def test_it_holds_the_address_of_the_page_with_the_quote_on_it(client: FlaskClient, job: dict[str, Any]) -> None:
    token, response = drawn(client, job)
    assert (response.status_code, response.mimetype) == (200, "image/svg+xml")
    assert modules(response.data) == dark_of(f"http://localhost/#quote={token}")


def read_by_a_reader(svg: bytes) -> str:
    """What a reader of barcodes sees in it, each module drawn 3 pixels wide."""
    _, _, width, height = map(int, etree.fromstring(svg).get("viewBox").split())
    picture = np.full((height, width), 255, np.uint8)
    for x, y in modules(svg):
        picture[y, x] = 0
    (found,) = zxingcpp.read_barcodes(picture.repeat(3, 0).repeat(3, 1))
    assert found.format == zxingcpp.BarcodeFormat.QRCode
    return str(found.text)


def test_what_another_program_reads_in_it_opens_the_quote(client: FlaskClient, job: dict[str, Any]) -> None:
    first = client.post("/v1/quotes", json=job)
    drawn_code = client.get(f"/v1/quotes/{first.get_json()['token']}/qr.svg").data
    page, _, token = read_by_a_reader(drawn_code).partition("#quote=")
    assert page == "http://localhost/"
    assert client.get(f"/v1/quotes/{token}").data == first.data


def test_another_program_reads_the_longest_one() -> None:
    address = "https://floors.example/#quote=" + "aB3-_" * 234
    assert len(address) == MOST_CHARACTERS
    assert read_by_a_reader(qr_svg(address, title="a quote")) == address


def test_it_holds_the_address_that_the_service_is_told(source: Any, job: dict[str, Any]) -> None:
    client = create_app(source, secrets=lambda: (SECRET,), address="https://quotes.example/counter/").test_client()
    token, response = drawn(client, job)
    assert modules(response.data) == dark_of(f"https://quotes.example/counter/#quote={token}")


def test_it_believes_no_forwarded_header(client: FlaskClient, job: dict[str, Any]) -> None:
    token, response = drawn(client, job)
    headers = {"X-Forwarded-Host": "elsewhere.example", "X-Forwarded-Proto": "https", "Forwarded": "host=elsewhere"}
    assert client.get(f"/v1/quotes/{token}/qr.svg", headers=headers).data == response.data


def test_it_is_black_on_white_with_a_quiet_zone(client: FlaskClient, job: dict[str, Any]) -> None:
    _, response = drawn(client, job)
    root = etree.fromstring(response.data)
    _, _, width, height = map(int, root.get("viewBox").split())
    light, dark = root.xpath("//*[local-name()='path']")
    assert (light.get("fill"), dark.get("stroke")) == ("#fff", "#000")
    assert light.get("d") == f"M0 0h{width}v{height}h-{width}z"
    for x, y in modules(response.data):
        assert 4 <= x < width - 4
        assert 4 <= y < height - 4
    assert root.xpath("//*[local-name()='title']/text()") == ["QR code: opens this quote"]


def test_it_is_named_and_known_again(client: FlaskClient, job: dict[str, Any]) -> None:
    token, response = drawn(client, job)
    again = client.get(f"/v1/quotes/{token}/qr.svg", headers={"If-None-Match": response.headers["ETag"]})
    assert (again.status_code, again.data) == (304, b"")


def test_an_address_of_twelve_hundred_characters_is_drawn_and_no_longer_one() -> None:
    assert modules(qr_svg("x" * MOST_CHARACTERS, title="a quote")) == dark_of("x" * 1200)
    with pytest.raises(QrTooLong):
        qr_svg("x" * 1201, title="a quote")


def test_a_longer_address_is_a_404_that_says_so_and_the_page_has_no_code(
    client: FlaskClient, job: dict[str, Any]
) -> None:
    job["rooms"] = [
        {
            "name": f"{n * 7919:x}",
            "shape": {"rectangle": {"length": f"{10 + n / 7:.5f} ft", "width": f"{9 + n / 11:.5f} ft"}},
        }
        for n in range(100)
    ]
    token, response = drawn(client, job)
    assert len(token) > 1200
    assert (response.status_code, response.get_json()["code"]) == (404, "qr-too-long")
    assert "1200 at most" in response.get_json()["detail"]
    page = client.get(f"/v1/quotes/{token}", headers={"Accept": "text/html"})
    assert "<img" not in page.text
