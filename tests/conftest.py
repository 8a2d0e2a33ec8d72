"""What all tests share: no example has a deadline, as a busy machine is no defect; and one PostgreSQL."""

import shutil
import tempfile
from collections.abc import Callable, Iterator
from itertools import count
from pathlib import Path

import pytest
from hypothesis import settings

settings.register_profile("house", deadline=None)
settings.load_profile("house")

NewDatabase = Callable[[], str]


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
