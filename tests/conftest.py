"""What all tests share: no example has a deadline, as a busy machine is no defect; one PostgreSQL; some processes."""

import shutil
import tempfile
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path
from typing import Any

import pytest
from hypothesis import settings

settings.register_profile("house", deadline=None)
settings.load_profile("house")

NewDatabase = Callable[[], str]
TOGETHER = ("tests/faults/",)
"""Folders whose tests stay in one process, as they share what is dear to start: nginx with its replicas, PostgreSQL."""
LONGEST_FIRST = (
    *TOGETHER,
    *("tests/browser/", "tests/contract/", "tests/client/", "tests/structure/test_recipes"),
    *("tests/catalogue/", "tests/outside/", "tests/web/", ""),
)


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Where processes share the tests, begin with what takes longest, so that all end at about the same time."""
    if hasattr(config, "workerinput"):
        items.sort(key=lambda item: next(n for n, begin in enumerate(LONGEST_FIRST) if item.nodeid.startswith(begin)))


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config: pytest.Config, log: Any) -> Any:
    """Keep the tests of a file in one process, and those of some folders."""
    from xdist.scheduler import LoadScopeScheduling

    class Scheduling(LoadScopeScheduling):
        def _split_scope(self, nodeid: str) -> str:
            return next((folder for folder in TOGETHER if nodeid.startswith(folder)), nodeid.split("::")[0])

    return Scheduling(config, log)


@pytest.fixture(scope="session")
def new_postgres() -> Iterator[NewDatabase]:
    """Makes an empty database in a PostgreSQL of the tests' own and gives its address."""
    from tests.faults.processes import Postgres

    folder = Path(tempfile.mkdtemp(prefix="gaugerake-pg-", dir="/tmp"))
    server = Postgres(folder)
    server.start()
    numbers = count(1)

    yield lambda: server.new(f"kept_{next(numbers)}")
    server.stop()
    shutil.rmtree(folder, ignore_errors=True)
