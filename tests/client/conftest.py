"""Node and the packages that check the page's scripts; without them the tests are skipped, and fail where CI is set."""

import os
import shutil
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

HERE = Path(__file__).parent
Run = Callable[..., str]


@pytest.fixture(scope="session")
def run() -> Run:
    """Runs a tool of the packages in their folder, with more of an environment; gives what it says if it ends well."""
    tools = HERE / "node_modules" / ".bin"
    if shutil.which("node") is None or not tools.is_dir():
        missing = "no Node, or its packages are not here (./tests/run installs them where npm is)"
        if os.environ.get("CI"):
            pytest.fail(missing)
        pytest.skip(missing)

    def run(*command: str | Path, **environment: str) -> str:
        path = f"{tools}{os.pathsep}{os.environ['PATH']}"
        env = {**os.environ, **environment, "PATH": path}
        done = subprocess.run(command, cwd=HERE, env=env, capture_output=True, text=True, timeout=300)
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout + done.stderr

    return run
