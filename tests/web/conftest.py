"""The app around the demonstration catalogue, in this process."""

from collections.abc import Callable, Iterator
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient
from tests.builders import Held

from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.web.server.app import create_app


@pytest.fixture(scope="session")
def app() -> Flask:
    return create_app(Held(demo_snapshot()))


@pytest.fixture
def client(app: Flask) -> Iterator[FlaskClient]:
    with app.test_client() as client:
        yield client


Problem = Callable[[Any], dict[str, Any]]


@pytest.fixture(scope="session")
def problem() -> Problem:
    """Takes the problem out of a response and holds it to its form."""
    return _problem


def _problem(response: Any) -> dict[str, Any]:
    body: dict[str, Any] = response.get_json(force=True)
    assert response.content_type == "application/problem+json"
    assert list(body) == ["type", "title", "status", "detail", "code", "request_id", "errors"]
    assert body["status"] == response.status_code
    assert body["request_id"] == response.headers["X-Request-Id"]
    assert body["type"] == f"/problems/{body['code']}"
    for error in body["errors"]:
        assert {"pointer", "code", "detail", "seen", "hint"} <= error.keys()
    return body
