"""A counter of requests that the workers of one machine share: a SQLite file in the folder of the service's run.

A count is one statement and one transaction. The system lets go of a killed worker's locks, and SQLite takes back what
it had half written, so the others go on counting from where it was.
"""

from __future__ import annotations

import sqlite3
import time
from contextlib import closing
from itertools import count
from pathlib import Path
from threading import Lock
from typing import Any

from limits.storage import Storage

SCHEME = "sqlite"
MOST_KEPT = 100_000
"""How many counts are kept, some 10 MB; above it those whose windows end first are dropped."""
TIDIED_EVERY = 1_000
BUSY_SECONDS = 0.5
_MAKE = "CREATE TABLE IF NOT EXISTS counts (name TEXT PRIMARY KEY, count INTEGER, ends REAL) WITHOUT ROWID"
# a window that ends later than a whole one from now was begun before the clock was set back: it is begun anew
_COUNT = """
INSERT INTO counts VALUES (:name, :amount, :now + :seconds) ON CONFLICT (name) DO UPDATE SET
count = CASE WHEN ends > :now AND ends <= :now + :seconds THEN count + :amount ELSE :amount END,
ends = CASE WHEN ends > :now AND ends <= :now + :seconds THEN ends ELSE :now + :seconds END RETURNING count
"""
_SURPLUS = """
DELETE FROM counts WHERE name IN
(SELECT name FROM counts ORDER BY ends LIMIT max(0, (SELECT count(*) FROM counts) - :most))
"""


class SharedCounter(Storage):
    """Fixed windows for `limits`, kept in the file of a URI such as ``sqlite:///dev/shm/run/rates.sqlite3``.

    One for each worker, as no connection of SQLite may be carried through a fork; `make` has made the file before.
    Errors are SQLite's own.
    """

    STORAGE_SCHEME = [SCHEME]  # noqa: RUF012 - as limits declares it

    def __init__(self, uri: str | None = None, wrap_exceptions: bool = False, **options: Any) -> None:
        super().__init__(uri, wrap_exceptions, **options)
        file = (uri or "").removeprefix(f"{SCHEME}://")
        self._lock, self._turns = Lock(), count(1)
        self._file = sqlite3.connect(file, timeout=BUSY_SECONDS, isolation_level=None, check_same_thread=False)
        self._file.execute("PRAGMA synchronous=OFF")  # when the machine goes down, its counts go with it

    @property
    def base_exceptions(self) -> type[Exception]:
        """What goes wrong with the file."""
        return sqlite3.Error

    def incr(self, key: str, expiry: int, amount: int = 1) -> int:
        """Count, in a window of ``expiry`` seconds that begins with its first count; what has been counted in it."""
        if next(self._turns) % TIDIED_EVERY == 0:
            self._tidy()
        said = {"name": key, "amount": amount, "seconds": expiry, "now": time.time()}
        return int(self._rows(_COUNT, said)[0][0])

    def get(self, key: str) -> int:
        """What has been counted in the window that lasts."""
        return next((int(row[0]) for row in self._window(key)), 0)

    def get_expiry(self, key: str) -> float:
        """When the window ends, in seconds of `time.time`; now when none lasts."""
        return next((float(row[1]) for row in self._window(key)), time.time())

    def check(self) -> bool:
        """Whether it can be counted in the file again."""
        try:
            return self.incr("check", 1) > 0
        except sqlite3.Error:
            return False

    def reset(self) -> int | None:
        """Forget all counts; how many there were."""
        return len(self._rows("DELETE FROM counts RETURNING name", {}))

    def clear(self, key: str) -> None:
        """Forget one count."""
        self._rows("DELETE FROM counts WHERE name = :name", {"name": key})

    def _window(self, key: str) -> list[Any]:
        named = {"name": key, "now": time.time()}
        return self._rows("SELECT count, ends FROM counts WHERE name = :name AND ends > :now", named)

    def _tidy(self) -> None:
        """Drop the windows that are over, and the surplus: many addresses take no more room than some."""
        self._rows("DELETE FROM counts WHERE ends <= :now", {"now": time.time()})
        self._rows(_SURPLUS, {"most": MOST_KEPT})

    def _rows(self, statement: str, values: dict[str, Any]) -> list[Any]:
        with self._lock:
            return self._file.execute(statement, values).fetchall()


def make(file: Path) -> None:
    """Make the file, before there are workers: two that turn a new file to its way of writing at once may collide."""
    with closing(sqlite3.connect(file, isolation_level=None)) as made:
        made.execute("PRAGMA journal_mode=WAL")  # readers do not wait for who writes
        made.execute(_MAKE)


def address_of(file: Path) -> str:
    """The URI by which `limits` finds the counter of a file.

    >>> address_of(Path("/dev/shm/run/rates.sqlite3"))
    'sqlite:///dev/shm/run/rates.sqlite3'
    """
    return f"{SCHEME}://{file}"
