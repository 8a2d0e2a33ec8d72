"""Several processes may start on an empty place at once: one fills it, all of them are ready."""

import subprocess
import sys
from pathlib import Path

import pytest
from sqlalchemy import text

from gaugerake.catalogue.store import database

START = """
import sys
from gaugerake.catalogue.store.first_start import ensure_ready
print(ensure_ready(sys.argv[1]).state().revision)
"""


@pytest.mark.parametrize("url", ["sqlite", "postgresql"], indirect=True)
def test_processes_that_start_together_agree(url: str) -> None:
    starts = [
        subprocess.Popen([sys.executable, "-c", START, url], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        for _ in range(4)
    ]
    ends = [(start.communicate(timeout=120), start.returncode) for start in starts]
    assert [code for _, code in ends] == [0] * 4, ends
    assert len({told for (told, _), _ in ends}) == 1
    with database.reading(database.reader(url)) as session:
        counts = [session.scalar(text(f"SELECT count(*) FROM {table}")) for table in ("revisions", "settings")]
    assert counts == [1, 1]


def test_a_start_that_was_cut_short_is_made_good(url: str) -> None:
    file = Path(url.removeprefix("sqlite:///"))
    file.parent.mkdir()
    file.touch()  # a process that was ended right after it had made the file
    end = subprocess.run([sys.executable, "-c", START, url], capture_output=True, text=True, timeout=120)
    assert end.returncode == 0, end.stderr
