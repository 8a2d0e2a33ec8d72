"""A copy of what is in use, beside the service: for a worker that begins while the database is away.

It is a SQLite database of the same form, with one revision, the books beside it and all else that is kept: a service
that asks for keys does so from its spare as well. Any worker that has read something new writes it; one that can read
nothing starts from it, and says that it is stale.
"""

from __future__ import annotations

import logging
from pathlib import Path
from typing import Any

from sqlalchemy import Select, Table, select
from sqlalchemy.engine import URL

from gaugerake.catalogue.errors import CatalogueError
from gaugerake.catalogue.store import database
from gaugerake.catalogue.store.revisions import State, Store
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.catalogue.store.tables import Base, Book, Revision

FILE = "spare.sqlite3"
_log = logging.getLogger(__name__)


class Spare:
    """The copy in a folder that all workers of one service share."""

    def __init__(self, folder: Path) -> None:
        url = URL.create("sqlite", database=str(folder / FILE)).render_as_string()
        self.store = Store(url)

    def read(self) -> tuple[State, Snapshot] | None:
        """What was copied last; None when there is nothing."""
        try:
            state = self.store.state()
            return state, self.store.snapshot(state)
        except CatalogueError:
            return None

    def setting(self, name: str) -> str | None:
        """A shared setting as it was copied last."""
        try:
            return self.store.setting(name)
        except CatalogueError:
            return None

    def keep(self, source: Store, state: State) -> None:
        """Copy what is in use. A copy that cannot be made is told and no more: it is a spare."""
        try:
            with (
                database.reading(database.reader(source.url)) as kept,
                database.writing(database.writer(self.store.url)) as copy,
            ):
                Base.metadata.create_all(copy.connection())
                for table in reversed(Base.metadata.sorted_tables):
                    copy.execute(table.delete())
                for table in Base.metadata.sorted_tables:
                    rows = kept.execute(_in_use(table, state)).mappings().all()
                    if rows:
                        copy.execute(table.insert(), [dict(row) for row in rows])
        except CatalogueError as error:
            _log.warning("no spare copy of the catalogue could be made: %s", error)


def _in_use(table: Table, state: State) -> Select[Any]:
    """The rows of a table that a worker needs; of revisions and books, those in use alone."""
    if table.name == Revision.__tablename__:
        return select(table).where(table.c.id == state.revision)
    if table.name == Book.__tablename__:
        return select(table).where(table.c.id.in_(list(state.books.values())))
    return select(table)
