"""The folder that the workers of one service share while it runs: their metrics, and the spare copy of the catalogue.

It is in memory where there is such, and its owner's alone. A service that was killed leaves its folder behind; the
next one to start clears it away. Whether a folder is in use is told by a lock on a file in it, which the system lets
go of when the last process of its service is gone.
"""

from __future__ import annotations

import fcntl
import os
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import IO

PREFIX = "gaugerake-"
MARK = "in-use"
_MEMORY = Path("/dev/shm")


@contextmanager
def run_folder(place: Path | None = None) -> Iterator[Path]:
    """A folder for as long as the block lasts; workers that are forked within leave it to the process that made it."""
    place = place or (_MEMORY if os.access(_MEMORY, os.W_OK) else Path(tempfile.gettempdir()))
    clear(place)
    folder = Path(tempfile.mkdtemp(prefix=PREFIX, dir=place))
    begun_in = os.getpid()
    with _mark(folder):
        try:
            yield folder
        finally:
            if os.getpid() == begun_in:
                shutil.rmtree(folder, ignore_errors=True)


def clear(place: Path) -> None:
    """Remove the folders that no service uses any more."""
    for mark in place.glob(f"{PREFIX}*/{MARK}"):
        if not _is_in_use(mark):
            shutil.rmtree(mark.parent, ignore_errors=True)


def _mark(folder: Path) -> IO[str]:
    """The locked file. It gets its name when it is locked: nobody ever sees one that is not."""
    file = (folder / "new").open("w")
    fcntl.flock(file, fcntl.LOCK_EX)
    (folder / "new").rename(folder / MARK)
    return file


def _is_in_use(mark: Path) -> bool:
    try:
        with mark.open("r+") as file:
            fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
    except OSError:  # locked, gone, or another user's
        return True
    return False
