"""What a worker serves from: the snapshot in use, looked after by a thread that notices when another is used.

A request takes `SnapshotHolder.current` once and works with it throughout, so it sees one revision and its books, never
parts of two. No request asks the database, nor waits for it. While the database is away the last snapshot is served on;
a worker that begins then takes the spare copy.
"""

from __future__ import annotations

import logging
import os
import threading
import time
from contextlib import nullcontext
from datetime import UTC, datetime, timedelta
from functools import lru_cache

from gaugerake.catalogue.errors import CatalogueError, Unavailable
from gaugerake.catalogue.file.faults import FileRefused
from gaugerake.catalogue.file.pace import in_turns
from gaugerake.catalogue.keys.key import Access
from gaugerake.catalogue.store.revisions import State, Store
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.catalogue.store.spare import Spare
from gaugerake.floor.product import PriceBook
from gaugerake.floor.values.frozen import replace

POLL_SECONDS = 2.0
EMPTY_POLL_SECONDS = 0.25  # while there is nothing to serve
FIRST_LOOK_SECONDS = 5.0  # so long a process waits for the database before it begins without
LATE_LOOKS = 3  # so many looks late, and the database is taken to be away
KEPT_REVISIONS = 8
_log = logging.getLogger(__name__)


class SnapshotHolder:
    """Holds the snapshot in use and keeps it fresh, in each process that asks for it."""

    def __init__(self, store: Store, *, poll_seconds: float = POLL_SECONDS, spare: Spare | None = None) -> None:
        self._store = store
        self._spare = spare
        self._poll_seconds = poll_seconds
        self._lock = threading.Lock()
        self._held: tuple[State, Snapshot] | None = None
        self._process: int | None = None
        self._stale_since: datetime | None = None
        self._looked_at: float | None = None
        self._first_look = threading.Event()
        self._stop = threading.Event()
        self._old = lru_cache(KEPT_REVISIONS)(self._read_revision)
        self._books = lru_cache(KEPT_REVISIONS)(store.book)

    @property
    def current(self) -> Snapshot:
        """The snapshot in use.

        Raises
        ------
        Unavailable
            When none was ever read: the database is away or empty, or its catalogue is not one for this version.
        """
        if self._process != os.getpid():
            self.start()
        if self._held is None:
            raise Unavailable("no catalogue could be read yet")
        return self._held[1]

    @property
    def stale_since(self) -> datetime | None:
        """Since when the database could not be asked; None while it answers. One that hangs does not answer."""
        if self._stale_since is None and self._looked_at is not None:
            ago = time.monotonic() - self._looked_at
            if ago > LATE_LOOKS * self._poll_seconds + 1:
                return datetime.now(UTC) - timedelta(seconds=ago)
        return self._stale_since

    def revision(self, revision: str) -> Snapshot:
        """Any revision by its whole id, with its list prices alone.

        Raises
        ------
        UnknownRevision
        Unavailable
        """
        held = self._held
        if held and held[0].revision == revision and not held[0].books:
            return held[1]
        return self._old(revision)

    def book(self, book_id: str) -> PriceBook:
        """A branch's price book by its content, whether it is still in use or not.

        Raises
        ------
        UnknownBook
        Unavailable
        """
        return self._books(book_id)

    def close(self) -> None:
        """Look for nothing new any more."""
        self._stop.set()

    def _read_revision(self, revision: str) -> Snapshot:
        return self._store.snapshot(State(revision=revision))

    def start(self, *, within: float = FIRST_LOOK_SECONDS) -> None:
        """Look once and go on looking, in a thread: once in each process, so also after a fork.

        The first look is waited for, but no longer than ``within`` seconds.
        """
        with self._lock:
            if self._process == os.getpid():
                return
            self._first_look = threading.Event()
            threading.Thread(target=self._watch, name="catalogue-watch", daemon=True).start()
            looked = self._first_look.wait(within)
            if self._spare is not None and (not looked or self._stale_since is not None):
                self._take_spare(self._spare)
            self._process = os.getpid()

    def _take_spare(self, spare: Spare) -> None:
        """What was read before a fork may be older than what another process has read since."""
        self._held = spare.read() or self._held
        if self._held is not None:
            self._grow_stale()
            _log.warning("catalogue revision %s in use, from the spare copy", self._held[0].revision[:12])

    def _watch(self) -> None:
        while True:
            try:
                self.refresh()
            except Exception:  # noqa: BLE001 - whatever it is, the thread lives on and the outage is seen
                self._grow_stale()
                _log.exception("the catalogue could not be refreshed")
            self._first_look.set()
            if self._stop.wait(EMPTY_POLL_SECONDS if self._held is None else self._poll_seconds):
                return

    def _read(self, state: State) -> Snapshot:
        """What is in use; when the keys alone are others, with the catalogue as it was read."""
        if self._held and replace(self._held[0], keys=state.keys) == state:
            return replace(self._held[1], access=None if state.keys is None else Access.of(state.keys))
        with in_turns() if self._held else nullcontext():  # nobody waits for a newer one, and all for the first
            return self._store.snapshot(state)

    def refresh(self) -> None:
        """Ask once whether another revision or other prices are in use, and take them if so."""
        try:
            state = self._store.state()
            if self._held is None or self._held[0] != state:
                self._held = state, self._read(state)
                _log.info("catalogue revision %s in use", state.revision[:12])
                if self._spare is not None:
                    self._spare.keep(self._store, state)
            self._looked_at = time.monotonic()
            self._stale_since = None
        except (CatalogueError, FileRefused) as error:
            if self._grow_stale():
                _log.warning("the catalogue cannot be refreshed and is served as last read: %s", error)

    def _grow_stale(self) -> bool:
        """Note since when what is served may be old; whether that is news."""
        news = self._stale_since is None
        self._stale_since = self._stale_since or datetime.now(UTC)
        return news
