"""The service of the demonstration, for the tests that read nothing but its answers."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from tests.outside.working_service import Service


@pytest.fixture(scope="session")
def demo() -> Iterator[Service]:
    """The demonstration's catalogue."""
    service = Service()
    yield service
    service.close()


@pytest.fixture(scope="session")
def joints() -> Iterator[Service]:
    """A catalogue of what the demonstration leaves out."""
    service = Service(Path(__file__).parent / "working_joints.yaml")
    yield service
    service.close()
