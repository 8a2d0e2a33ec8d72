"""Where the web edge takes the catalogue from."""

from __future__ import annotations

from typing import Protocol, cast

from flask import current_app

from gaugerake.catalogue.snapshot import Snapshot
from gaugerake.web.errors import Unavailable


class Shelf(Protocol):
    """Holds the current snapshot of the catalogue, in memory."""

    def current(self) -> Snapshot | None:
        """The snapshot to answer from; None before there is any."""

    def age_s(self) -> float | None:
        """Seconds since the store last confirmed that the snapshot is the current one; None if it never did."""

    def is_stale(self) -> bool:
        """Whether the store could not be asked in good time, so that the snapshot may be out of date."""


EXTENSION = "gaugerake.shelf"


def the_shelf() -> Shelf:
    """The shelf of the running app."""
    return cast(Shelf, current_app.extensions[EXTENSION])


def the_snapshot() -> Snapshot:
    """The current snapshot.

    Raises
    ------
    Unavailable
        When there is none yet.
    """
    snapshot = the_shelf().current()
    if snapshot is None:
        raise Unavailable()
    return snapshot
