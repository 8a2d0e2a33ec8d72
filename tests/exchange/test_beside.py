"""Print in two languages: what people read stands in both, side by side, and what is the same stands once."""

import re
from html import unescape
from typing import Any

import pytest
from flask.testing import FlaskClient
from tests.builders import client_of, example

from gaugerake.answers.show.words import templates
from gaugerake.catalogue.store.demo import demo_snapshot

PRINT = {"Accept": "text/html"}
TWICE = re.compile(r'<span class="twice"><span>(.*?)</span><span lang="(\w+)">(.*?)</span></span>', re.S)


@pytest.fixture(scope="module")
def client() -> FlaskClient:
    return client_of(demo_snapshot(), secrets=lambda: ("a secret of sixteen",))


def printed(client: FlaskClient, address: str) -> str:
    response = client.post(address, json=example("full"), headers=PRINT)
    assert response.status_code == 200
    return response.text


@pytest.mark.parametrize("path", ["day-sheets", "quotes"])
def test_a_caution_stands_beside_itself_in_the_other_language(client: FlaskClient, path: str) -> None:
    page = printed(client, f"/v1/{path}?lang=en&beside=es")
    pairs = {unescape(first): unescape(second) for first, _, second in TWICE.findall(page)}
    for code in ("invented-data", "before-sawing"):
        assert pairs[templates("en")[code]] == templates("es")[code]
    assert {language for _, language, _ in TWICE.findall(page)} == {"es"}


@pytest.mark.parametrize("path", ["day-sheets", "quotes"])
def test_each_side_is_what_a_page_in_its_language_says(client: FlaskClient, path: str) -> None:
    both = printed(client, f"/v1/{path}?lang=en&beside=es")
    plain = {one: re.sub(r"\s+", " ", printed(client, f"/v1/{path}?lang={one}")) for one in ("en", "es")}
    pairs = TWICE.findall(both)
    assert len(pairs) > 20
    for first, _, second in pairs:
        assert first != second
        assert first in plain["en"], first
        assert second in plain["es"], second


BOTH = re.compile(r'<span class="both"><span>(.*?)</span> / <span lang="es">(.*?)</span></span>')


def cells(page: str) -> list[str]:
    """The figures, dates and times of a page's tables."""
    return re.findall(r'<t[dh][^>]* class="(?:figure|key)">(.*?)</t[dh]>', page.partition("<main>")[2], re.S)


@pytest.mark.parametrize("path", ["day-sheets", "quotes"])
def test_a_figure_or_a_date_stands_once_with_its_words_in_both(client: FlaskClient, path: str) -> None:
    english, spanish = (cells(printed(client, f"/v1/{path}?lang={one}")) for one in ("en", "es"))
    both = cells(printed(client, f"/v1/{path}?lang=en&beside=es"))
    rows = [row for row in zip(english, spanish, both, strict=True) if "<span" not in BOTH.sub("", row[2])]
    assert len(rows) > 40
    for first, second, once in rows:
        said = BOTH.sub(r"\1", once), BOTH.sub(r"\2", once)
        assert said == (first, second) or once == min(first, second, key=len), once
    differing = [once for first, second, once in rows if first != second]
    dates = {"quotes": ("Thu", "jue"), "day-sheets": ("Thu Mar 11", "jue 11 mar")}[path]
    assert any('<span>{}</span> / <span lang="es">{}</span>'.format(*dates) in once for once in differing)


def test_an_area_stands_once_as_its_sign(client: FlaskClient) -> None:
    page = printed(client, "/v1/quotes?lang=en&beside=es")
    assert "sq ft</td>" not in page
    assert len(re.findall(r'<td class="figure">[0-9.,]+ ft²</td>', page)) >= 4
    assert '<td class="figure">24 <span class="both"><span>mixes</span> / <span lang="es">mezclas</span>' in page


def test_spanish_may_come_first(client: FlaskClient) -> None:
    page = printed(client, "/v1/day-sheets?lang=es&beside=en")
    assert '<html lang="es">' in page
    assert '<span class="twice"><span>Labores</span><span lang="en">Work</span></span>' in page


def test_what_is_no_text_of_the_page_has_one_language(client: FlaskClient) -> None:
    page = printed(client, "/v1/day-sheets?lang=en&beside=es")
    assert re.search(r"<title>Day sheets of quote [0-9a-f-]+</title>", page)
    assert not re.search(r'aria-label="[^"]*span', page)


def test_the_same_language_twice_is_said_once(client: FlaskClient) -> None:
    assert printed(client, "/v1/quotes?lang=es&beside=es") == printed(client, "/v1/quotes?lang=es")


def test_a_link_opens_it_too_with_a_tag_of_its_own(client: FlaskClient) -> None:
    token = client.post("/v1/quotes", json=example("full")).get_json()["token"]
    for path in (f"/v1/quotes/{token}", f"/v1/quotes/{token}/day-sheet"):
        alone, beside = (client.get(f"{path}?lang=en{more}", headers=PRINT) for more in ("", "&beside=es"))
        assert len(TWICE.findall(beside.text)) > 20 > len(TWICE.findall(alone.text))
        assert alone.headers["ETag"] != beside.headers["ETag"]


def test_json_has_one_language(client: FlaskClient) -> None:
    asked: Any = {"json": example("full")}
    alone, beside = (client.post(f"/v1/day-sheets?lang=en{more}", **asked).data for more in ("", "&beside=es"))
    assert alone == beside


def test_an_unknown_second_language_is_refused(client: FlaskClient) -> None:
    (error,) = client.post("/v1/quotes?beside=fr", json=example("full")).get_json()["errors"]
    assert (error["parameter"], error["hint"]) == ("beside", "Known here: en, es.")
