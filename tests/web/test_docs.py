"""The page for people says all that the description says; the examples in the edge's own docstrings run."""

import doctest
import importlib
import pkgutil
import re

import pytest
from flask.testing import FlaskClient

import gaugerake.web
from gaugerake.web.description import description
from gaugerake.web.problems import TABLE


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


MODULES = [info.name for info in pkgutil.walk_packages(gaugerake.web.__path__, "gaugerake.web.")]


@pytest.mark.parametrize("name", MODULES)
def test_the_examples_in_the_docstrings_run(name: str) -> None:
    assert doctest.testmod(importlib.import_module(name)).failed == 0
