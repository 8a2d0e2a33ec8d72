"""A running service, and a session that talks to it."""

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from functools import cache

import pytest
import requests
from tests.service import running

Started = Callable[[str], str]


@pytest.fixture(scope="session")
def service_with(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Started]:
    """Starts a service with a database of this kind, once: files go from one kind to the other and back."""
    with ExitStack() as services:

        @cache
        def start(kind: str) -> str:
            database = request.getfixturevalue("new_postgres")() if kind == "postgresql" else None
            return services.enter_context(running(tmp_path_factory.mktemp("service"), database=database))

        yield start


@pytest.fixture(scope="session", params=["sqlite", "postgresql"])
def server(request: pytest.FixtureRequest, service_with: Started) -> str:
    """The address of a running service, which keeps its catalogue in each of the databases in turn."""
    return service_with(request.param)


@pytest.fixture
def http(server: str) -> Iterator[requests.Session]:
    """A session whose every address is of the service."""
    with requests.Session() as session:
        session.trust_env = False
        session.base = server  # type: ignore[attr-defined]
        yield session
