"""The page for people says all that the description says; the examples in the edge's own docstrings run."""

import doctest
import importlib
import json
import pkgutil
import re
from copy import deepcopy

import pytest
from flask.testing import FlaskClient

import gaugerake.web
from gaugerake.answers.show.describe import MEASURE
from gaugerake.measure.choice import SI, US
from gaugerake.measure.dimension import KINDS
from gaugerake.web.api.examples import LEAST
from gaugerake.web.describe.description import description
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


MODULES = [info.name for info in pkgutil.walk_packages(gaugerake.web.__path__, "gaugerake.web.")]


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_in_the_docstrings_run(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0
