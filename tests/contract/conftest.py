"""The service as it runs: gunicorn on a free port, with a database of its own filled with the demonstration."""

import os
import socket
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
import requests


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


@pytest.fixture(scope="session")
def server(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of a running service."""
    folder: Path = tmp_path_factory.mktemp("service")
    port = free_port()
    environment = {**os.environ, "GAUGERAKE_DATABASE": f"sqlite:///{folder / 'catalogue.sqlite3'}"}
    command = [sys.executable, "-c", "import sys; from gaugerake.cli import main; sys.exit(main())"]
    with (folder / "log").open("wb") as log:
        process = subprocess.Popen(
            [*command, "serve", "--port", str(port)], env=environment, stdout=log, stderr=subprocess.PIPE
        )
        assert process.stderr is not None
        said = process.stderr.readline().decode()
        assert said == f"gaugerake serves on http://127.0.0.1:{port} with 2 workers\n"
        yield f"http://127.0.0.1:{port}"
        process.terminate()
        assert process.wait(timeout=30) == 0
        process.stderr.close()


@pytest.fixture
def http(server: str) -> Iterator[requests.Session]:
    """A session whose every address is of the service."""
    with requests.Session() as session:
        session.trust_env = False
        session.base = server  # type: ignore[attr-defined]
        yield session
