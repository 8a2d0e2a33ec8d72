"""Where the web edge takes the catalogue from.

Decisions:

* One request, one snapshot (``the_snapshot()`` keeps it): key, book and catalogue are never of two moments. Readers are
  REPEATABLE READ, or one SQLite transaction.
"""

from __future__ import annotations

from datetime import datetime
from typing import Protocol, cast

from flask import current_app, g

from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.floor.product import PriceBook

EXTENSION = "gaugerake.snapshots"


class SnapshotSource(Protocol):
    """Holds the current snapshot of the catalogue in memory, as ``catalogue.store.holder.SnapshotHolder`` does."""

    @property
    def current(self) -> Snapshot:
        """The snapshot to answer from.

        Raises
        ------
        CatalogueError, FileRefused
            When there is none yet.
        """

    @property
    def stale_since(self) -> datetime | None:
        """Since when the store could not be asked; None while it answers."""

    def revision(self, revision: str) -> Snapshot:
        """Any revision that is kept, by its whole id, with its list prices alone.

        Raises
        ------
        UnknownRevision, FileRefused
        Unavailable
            When the store does not answer.
        """

    def book(self, book_id: str) -> PriceBook:
        """A branch's price book by its content, whether it is still in use or not.

        Raises
        ------
        UnknownBook, FileRefused
        Unavailable
            When the store does not answer.
        """


def the_source() -> SnapshotSource:
    """The source of the running app."""
    return cast(SnapshotSource, current_app.extensions[EXTENSION])


def the_snapshot() -> Snapshot:
    """The snapshot that this request is answered from, and it alone: the one in use when it was first asked for.

    Raises
    ------
    CatalogueError, FileRefused
    """
    found: Snapshot | None = g.get("snapshot")
    if found is None:
        found = g.snapshot = the_source().current
    return found
