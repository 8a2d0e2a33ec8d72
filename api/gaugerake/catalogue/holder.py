"""What a worker serves from: the snapshot in use, looked after by a thread that notices when another is used.

A request takes `SnapshotHolder.current` once and works with it throughout, so it sees one revision and its books, never
parts of two. No request asks the database. While the database is away the last snapshot is served on.
"""

from __future__ import annotations

import logging
import os
import threading
from datetime import UTC, datetime
from functools import lru_cache

from gaugerake.catalogue.errors import CatalogueError
from gaugerake.catalogue.faults import FileRefused
from gaugerake.catalogue.snapshot import Snapshot
from gaugerake.catalogue.store import State, Store
from gaugerake.floor.system import PriceBook

POLL_SECONDS = 2.0
KEPT_REVISIONS = 8
_log = logging.getLogger(__name__)


class SnapshotHolder:
    """Holds the snapshot in use and keeps it fresh, in each process that asks for it."""

    def __init__(self, store: Store, *, poll_seconds: float = POLL_SECONDS) -> None:
        self._store = store
        self._poll_seconds = poll_seconds
        self._lock = threading.Lock()
        self._held: tuple[State, Snapshot] | None = None
        self._process: int | None = None
        self._stale_since: datetime | None = None
        self._stop = threading.Event()
        self._old = lru_cache(KEPT_REVISIONS)(self._read_revision)
        self._books = lru_cache(KEPT_REVISIONS)(store.book)

    @property
    def current(self) -> Snapshot:
        """The snapshot in use.

        Raises
        ------
        CatalogueError
            When none was ever read, as the database is away or empty.
        FileRefused
            When the revision in use cannot be read by this version.
        """
        if self._process != os.getpid():
            self._begin()
        assert self._held is not None
        return self._held[1]

    @property
    def stale_since(self) -> datetime | None:
        """Since when the database could not be asked; None while it answers."""
        return self._stale_since

    def revision(self, revision: str) -> Snapshot:
        """Any revision by its whole id, with its list prices alone.

        Raises
        ------
        UnknownRevision
        Unavailable
        """
        held = self._held
        if held and held[0] == State(revision=revision):
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

    def _begin(self) -> None:
        """Read the first snapshot and start to look for others: once in each process, so also after a fork."""
        with self._lock:
            if self._process == os.getpid():
                return
            if self._held is None:
                self._held = self._read(self._store.state())
            else:
                self.refresh()  # it may have been read long ago, before a fork or while nobody asked
            threading.Thread(target=self._watch, name="catalogue-watch", daemon=True).start()
            self._process = os.getpid()

    def _read(self, state: State) -> tuple[State, Snapshot]:
        return state, self._store.snapshot(state)

    def _watch(self) -> None:
        while not self._stop.wait(self._poll_seconds):
            try:
                self.refresh()
            except Exception:  # noqa: BLE001 - whatever it is, the thread lives on and the outage is seen
                self._grow_stale()
                _log.exception("the catalogue could not be refreshed")

    def refresh(self) -> None:
        """Ask once whether another revision or other prices are in use, and take them if so."""
        try:
            state = self._store.state()
            if self._held is None or self._held[0] != state:
                self._held = self._read(state)
                _log.info("catalogue revision %s in use", state.revision[:12])
            self._stale_since = None
        except (CatalogueError, FileRefused) as error:
            if self._grow_stale():
                _log.warning("the catalogue cannot be refreshed and is served as last read: %s", error)

    def _grow_stale(self) -> bool:
        """Note since when what is served may be old; whether that is news."""
        news = self._stale_since is None
        self._stale_since = self._stale_since or datetime.now(UTC)
        return news
