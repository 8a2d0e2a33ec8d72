"""The page for people says all that the description says; the examples in the edge's own docstrings run."""

import doctest
import importlib
import json
import pkgutil
import re
from copy import deepcopy
from html import escape, unescape

import pytest
from flask.testing import FlaskClient
from tests.builders import client_of

import gaugerake.web
from gaugerake.answers.show.describe import MEASURE
from gaugerake.answers.show.words import own_templates, templates
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.measure.choice import SI, US
from gaugerake.measure.dimension import KINDS
from gaugerake.web.api.examples import LEAST
from gaugerake.web.describe import docs_page
from gaugerake.web.describe.description import description
from gaugerake.web.describe.samples.programs import ADDRESS
from gaugerake.web.errors.problems import TABLE


def test_every_operation_object_and_problem_stands_on_the_page(client: FlaskClient) -> None:
    page = client.get("/docs").get_data(as_text=True)
    anchors = set(re.findall(r'id="([^"]+)"', page))
    for path, item in description()["paths"].items():
        assert path in page
        assert {operation["operationId"] for operation in item.values()} <= anchors
    assert description()["components"]["schemas"].keys() <= anchors
    assert all(f"<code>{kind.code}</code>" in page for kind in TABLE.values())


def test_every_link_within_the_page_leads_somewhere(client: FlaskClient) -> None:
    page = client.get("/docs").get_data(as_text=True)
    assert set(re.findall(r'href="#([^"]+)"', page)) <= set(re.findall(r'id="([^"]+)"', page))


def test_the_page_asks_for_nothing_else(client: FlaskClient) -> None:
    response = client.get("/docs")
    page = response.get_data(as_text=True)
    assert not re.search(r"<(script|link|img|iframe)\b", page)
    assert "script-src" not in response.headers["Content-Security-Policy"]


def section(page: str, name: str) -> str:
    """What the page says of an operation or an object."""
    return page[page.index(f'<h3 id="{name}">') :].partition("</section>")[0]


def test_the_page_says_where_an_answer_may_hold_a_null(client: FlaskClient) -> None:
    page = client.get("/docs").get_data(as_text=True)
    line = section(page, "OrderLine")
    assert re.search(r"<code>amount</code> \(required\)</th>\n<td>string or null</td>", line)
    assert re.search(r"<code>packs</code> \(required\)</th>\n<td>integer</td>", line)
    assert "or null" not in section(page, "JobOrder")  # a null in a job is the same as nothing, which is said once


def test_the_page_says_how_to_send_a_key_and_what_each_operation_may_answer_else(client: FlaskClient) -> None:
    page = client.get("/docs").get_data(as_text=True)
    assert "<code>Authorization: Bearer</code>" in page
    for item in description()["paths"].values():
        for operation in item.values():
            told = re.search("<p>Otherwise: (.*?)</p>", section(page, operation["operationId"]), re.DOTALL)
            assert told
            statuses = re.findall(r"\b[3-5][0-9]{2}\b", re.sub("<[^>]*>", "", told[1]))
            assert statuses == [status for status in operation["responses"] if status != "200"]


def test_the_problem_that_is_shown_is_the_one_that_is_told(client: FlaskClient) -> None:
    job = deepcopy(LEAST)
    job["rooms"][0]["shape"]["measured"]["area"] = "1200"
    told = client.post("/v1/quotes", json=job).get_json()
    shown = description()["components"]["responses"]["NotUnderstood"]["content"]["application/problem+json"]["example"]
    assert shown | {"request_id": told["request_id"]} == told


def test_the_batch_that_is_shown_is_answered(client: FlaskClient) -> None:
    batch = description()["paths"]["/v1/batches"]["post"]["requestBody"]["content"]["application/x-ndjson"]["example"]
    answer = client.post("/v1/batches", data=batch, content_type="application/x-ndjson").get_data(as_text=True)
    assert ["token" in json.loads(line) for line in answer.splitlines()] == [True, True]


def test_every_unit_of_an_answer_is_one_that_its_description_names(client: FlaskClient) -> None:
    listed = client.get("/v1/units").get_json()["dimensions"]
    names = {entry["unit"] for dimension in listed for entry in dimension["units"]}
    about = MEASURE["properties"]["unit"]["description"]
    others = {made.unit(kind) for kind in KINDS for made in (US, SI)} - names
    assert all(f"`{name}`" in about for name in others), others


ADDRESSES = ["/docs", "/docs/cart", "/docs/makeQuote"]


def own_words(page: str) -> str:
    """What a page says itself: its text without the description's, its code and its numbers."""
    page = page.partition("<body>")[2]
    page = re.sub(r"<(pre|code)\b.*?</\1>", " ", page, flags=re.DOTALL)
    page = re.sub(r'<(div|tbody|span|li|h1|h2|h3|p|a)\b[^>]* lang="en".*?</\1>', " ", page, flags=re.DOTALL)
    return re.sub(r"<[^>]*>", " ", page)


@pytest.mark.parametrize("template", [docs_page.TEMPLATE, docs_page.OPERATION, docs_page.CART])
def test_the_form_of_a_page_has_no_word_of_its_own(template: str) -> None:
    text = re.sub(r"{{.*?}}|{%.*?%}|<style>.*?</style>", " ", template, flags=re.DOTALL)
    assert set(re.findall(r"[A-Za-z]{2,}", re.sub(r"<[^>]*>", " ", text))) <= {"curl", "Python", "TypeScript"}
    assert re.findall(r'(?:alt|title|aria-label)="([^"]*[A-Za-z][^"]*)"', text) == []


@pytest.mark.parametrize("path", ADDRESSES)
def test_what_a_page_says_around_the_description_is_in_spanish_too(client: FlaskClient, path: str) -> None:
    pages = {one: client.get(path, headers={"Accept-Language": one}) for one in ("en", "es")}
    said = {one: own_words(page.text) for one, page in pages.items()}
    for language, page in pages.items():
        assert f'<html lang="{language}">' in page.text
        assert page.headers["Content-Language"] == language
        assert "Accept-Language" in page.vary
    assert pages["en"].headers["ETag"] != pages["es"].headers["ETag"]
    assert templates("es")["docs-in-english"] in said["es"]
    assert templates("es")["docs-in-english"] not in said["en"]
    assert re.findall(r"\b(?:the|and|with|what|which|Takes|Answers|Problems|Examples)\b", said["es"]) == []


def test_a_heading_and_the_title_of_a_problem_are_in_spanish(client: FlaskClient) -> None:
    page = client.get("/docs?lang=es").text
    assert '<h2 id="problems">Problemas</h2>' in page
    assert f"<td>{templates('es')['title-too-large']}</td>" in page


def headings() -> dict[str, str]:
    """The headings that the description brings, by the codes of their words."""
    found = {f"docs-tag-{tag['name']}": tag["name"] for tag in description()["tags"]}
    found |= {f"docs-about-tag-{tag['name']}": tag["description"] for tag in description()["tags"]}
    operations = [one for item in description()["paths"].values() for one in item.values()]
    return found | {f"docs-operation-{one['operationId']}": one["summary"] for one in operations}


def test_every_heading_of_the_description_has_words_in_both_languages() -> None:
    english, spanish = ({k: v for k, v in own_templates(one).items() if k in headings()} for one in ("en", "es"))
    assert english == headings()
    assert spanish.keys() == english.keys()
    assert [code for code, said in spanish.items() if said == english[code]] == []
    of_none = re.compile(r"docs-(?:tag|about-tag|operation)-")
    assert {code for code in templates("en") if of_none.match(code)} == english.keys()


def test_operations_and_tags_are_headed_in_the_language_of_the_page(client: FlaskClient) -> None:
    pages = {one: client.get(f"/docs?lang={one}").text for one in ("en", "es")}
    for language, page in pages.items():
        heads = [unescape(re.sub("<[^>]*>", "", one)) for one in re.findall(r"<h[123]\b[^>]*>(.*?)</h[123]>", page)]
        listed = unescape(re.sub(r"<[^>]*>", "", re.findall(r"<nav.*?</nav>", page, re.DOTALL)[0]))
        for code in headings():
            said = templates(language)[code]  # type: ignore[index]
            assert said in (listed if code.startswith("docs-about-tag-") else heads), code
    alone = client.get("/docs/makeQuote?lang=es").text
    assert "<h1>Una cotización completa</h1>" in alone
    assert "Una cotización completa</title>" in alone


def test_the_description_file_has_one_language(client: FlaskClient) -> None:
    files = [client.get("/openapi.json", headers={"Accept-Language": one}) for one in ("en", "es")]
    assert files[0].data == files[1].data
    assert all("Content-Language" not in file.headers for file in files)


def test_the_links_go_on_in_the_language_that_was_asked_for(client: FlaskClient) -> None:
    asked = re.findall(r'href="(/[^"]*)"', client.get("/docs?lang=es").text)
    assert {path for path in asked if path != "/openapi.json"} == {path for path in asked if path.endswith("?lang=es")}
    assert 'href="/docs?lang=es#makeQuote"' in client.get("/docs/makeQuote?lang=es").text
    assert not re.search(r'href="/[^"]*lang=', client.get("/docs", headers={"Accept-Language": "es"}).text)


@pytest.mark.parametrize("path", [*ADDRESSES, "/problems/too-large"])
def test_a_language_that_we_do_not_have_is_refused_here_too(client: FlaskClient, path: str) -> None:
    for query in ("lang=fr", "lang=es&lang=en"):
        response = client.get(f"{path}?{query}")
        assert (response.status_code, response.get_json()["code"]) == (422, "bad-parameter")
    assert client.get(f"{path}?other=1").status_code == 200


@pytest.mark.parametrize("path", ADDRESSES)
@pytest.mark.parametrize("host", ["floors.example", "10.0.0.7:9090", "[::1]:9090"])
def test_samples_ask_the_address_that_was_asked(client: FlaskClient, path: str, host: str) -> None:
    page = client.get(path, base_url=f"http://{host}").text
    assert f"http://{host}/v1/quotes" in page
    assert ADDRESS not in page


@pytest.mark.parametrize("path", ADDRESSES)
def test_samples_ask_the_address_that_the_service_says(path: str) -> None:
    client = client_of(demo_snapshot(), address="https://floors.example/quotes/")
    page = client.get(path, base_url="http://10.0.0.7:9090").text
    assert "https://floors.example/quotes/v1/quotes" in page
    assert "10.0.0.7" not in page


@pytest.mark.parametrize("host", ["a$(reboot).example", "a;reboot", "a'b", "a<b", "a&b", "a b", "a`b`"])
def test_a_host_that_is_no_name_stands_in_no_sample(client: FlaskClient, host: str) -> None:
    page = client.get("/docs/cart", headers={"Host": host}).text
    assert f"{ADDRESS}/v1/quotes" in page
    assert [one for one in (host, escape(host), "reboot") if one in page] == []


MODULES = [info.name for info in pkgutil.walk_packages(gaugerake.web.__path__, "gaugerake.web.")]


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_in_the_docstrings_run(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0
