"""A running service, and a session that talks to it."""

from collections.abc import Iterator

import pytest
import requests
from tests.service import running


@pytest.fixture(scope="session", params=["sqlite", "postgresql"])
def server(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a running service, which keeps its catalogue in each of the databases in turn."""
    database = request.getfixturevalue("new_postgres")() if request.param == "postgresql" else None
    with running(tmp_path_factory.mktemp("service"), database=database) as address:
        yield address


@pytest.fixture
def http(server: str) -> Iterator[requests.Session]:
    """A session whose every address is of the service."""
    with requests.Session() as session:
        session.trust_env = False
        session.base = server  # type: ignore[attr-defined]
        yield session
