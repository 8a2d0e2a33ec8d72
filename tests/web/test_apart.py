"""Work in a process of its own: how it ended is known, and nothing of it stays."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest

WORK = """
import os, sys
from gaugerake.web.server.apart import apart

def work():
    import colorsys
    {work}

print(apart(work), "colorsys" in sys.modules)
"""
START = """
import sys
from gaugerake.web.server import serving

class Service:
    def __init__(self, *given):
        pass

    def run(self):
        print([name for name in ("alembic", "mako") if name in sys.modules])

serving._Service = Service
sys.exit(serving.serve(port=0))
"""


def python(program: str, **environment: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", program],
        capture_output=True,
        text=True,
        timeout=120,
        env={**os.environ, **environment},
    )


@pytest.mark.parametrize(
    ("work", "told"),
    [
        ("return 0", "0 False"),
        ("return 3", "3 False"),
        ("raise ValueError('a slip')", "1 False"),
        (f"os.kill(os.getpid(), {int(signal.SIGKILL)})", f"{-signal.SIGKILL} False"),
    ],
)
def test_how_it_ended_is_known_and_nothing_of_it_stays(work: str, told: str) -> None:
    done = python(WORK.format(work=work))
    assert done.stdout == f"{told}\n", done.stderr
    assert ("ValueError: a slip" in done.stderr) is ("ValueError" in work)


def test_what_only_a_first_start_needs_is_not_in_the_service(tmp_path: Path) -> None:
    database = tmp_path / "catalogue.sqlite3"
    done = python(START, GAUGERAKE_DATABASE=f"sqlite:///{database}")
    assert (done.returncode, done.stdout) == (0, "[]\n"), done.stderr
    assert database.exists()


def test_a_first_start_that_is_ended_says_so(tmp_path: Path) -> None:
    ended = "serving._make_ready = lambda url: __import__('os').abort()\nsys.exit"
    done = python(START.replace("sys.exit", ended), GAUGERAKE_DATABASE=f"sqlite:///{tmp_path / 'catalogue.sqlite3'}")
    assert done.returncode == 3
    assert done.stderr.endswith(
        f"The catalogue cannot be opened: signal {signal.SIGABRT:d} ended the process that does so\n"
    )
