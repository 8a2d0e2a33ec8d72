"""What a service shares among its workers goes with it, or with the next one when it was killed."""

import stat
import subprocess
import sys
from pathlib import Path

from gaugerake.web.server.run_folder import run_folder

KILLED = """
import os, signal, sys
from pathlib import Path
from gaugerake.web.server.run_folder import run_folder
with run_folder(Path(sys.argv[1])) as folder:
    (folder / "kept").write_text("a secret")
    os.kill(os.getpid(), signal.SIGKILL)
"""

FORKED = """
import os, sys
from pathlib import Path
from gaugerake.web.server.run_folder import run_folder
with run_folder(Path(sys.argv[1])) as folder:
    child = os.fork()
    if child:
        assert os.waitpid(child, 0)[1] == 0
        assert folder.is_dir()
"""


def test_it_is_its_owners_alone_and_goes_at_the_end(tmp_path: Path) -> None:
    with run_folder(tmp_path) as folder:
        assert stat.S_IMODE(folder.stat().st_mode) == 0o700
        (folder / "kept").write_text("something")
    assert list(tmp_path.iterdir()) == []


def test_what_a_killed_service_left_is_cleared_by_the_next(tmp_path: Path) -> None:
    subprocess.run([sys.executable, "-c", KILLED, str(tmp_path)], check=False)
    (left,) = tmp_path.iterdir()
    assert (left / "kept").exists()
    with run_folder(tmp_path) as folder:
        assert list(tmp_path.iterdir()) == [folder]


def test_what_another_service_uses_is_left(tmp_path: Path) -> None:
    with run_folder(tmp_path) as one, run_folder(tmp_path) as other:
        assert sorted(tmp_path.iterdir()) == sorted([one, other])


def test_a_folder_of_anything_else_is_left(tmp_path: Path) -> None:
    (tmp_path / "gaugerake-notes").mkdir()
    with run_folder(tmp_path):
        pass
    assert (tmp_path / "gaugerake-notes").is_dir()


def test_a_worker_that_ends_takes_nothing_away(tmp_path: Path) -> None:
    command = [sys.executable, "-c", FORKED, str(tmp_path)]
    done = subprocess.run(command, capture_output=True, text=True)
    assert (done.returncode, done.stderr) == (0, "")
    assert list(tmp_path.iterdir()) == []
