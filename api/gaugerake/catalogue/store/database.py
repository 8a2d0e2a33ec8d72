"""Where the catalogue is kept, and how it is reached.

``GAUGERAKE_DATABASE`` is an SQLAlchemy URL; without it the database is a SQLite file beside the service. No connection
is held between uses: none is ever shared across a fork, and a database that was restarted is simply reached again.
SQLite keeps its rollback journal, so that the database stays one file and readers can open it read-only.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any
from urllib.parse import quote

from sqlalchemy import Connection, Engine, create_engine, event, make_url, text
from sqlalchemy.engine import URL
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError, SQLAlchemyError
from sqlalchemy.orm import Session
from sqlalchemy.pool import NullPool

from gaugerake.catalogue.errors import BadDatabase, Unavailable
from gaugerake.shipped import CHECKOUT, in_checkout

VARIABLE = "GAUGERAKE_DATABASE"
FILE = "gaugerake.sqlite3"
WAIT_SECONDS = 20.0
# how long PostgreSQL is waited for, by libpq's names; an address may say otherwise
_PATIENCE: Mapping[str, str | int] = {
    "connect_timeout": 3,
    "options": "-c statement_timeout=20s -c lock_timeout=20s",
    "keepalives_idle": 5,
    "keepalives_interval": 2,
    "keepalives_count": 3,
    "tcp_user_timeout": 10_000,
}
_POSTGRESQL = ("postgres", "postgresql")
_LOOK = "SELECT 1 FROM sqlite_master LIMIT 1"
_LOCK = 0x6761756765  # the number of our advisory lock in PostgreSQL


def database_url() -> str:
    """The address of the database, from the environment or beside the service."""
    given = os.environ.get(VARIABLE, "").strip()
    return given or URL.create("sqlite", database=str(state_directory() / FILE)).render_as_string()


def state_directory() -> Path:
    """Where the service keeps its own files: ``api/state`` in a checkout, else the user's state directory."""
    if in_checkout():
        return CHECKOUT / "api" / "state"
    return Path(os.environ.get("XDG_STATE_HOME") or Path.home() / ".local" / "state") / "gaugerake"


def parsed(url: str) -> URL:
    """The address in its parts; ``postgres://`` and ``postgresql://`` take the driver that we have.

    >>> parsed("postgres://shop@db/gaugerake").drivername
    'postgresql+psycopg'

    Raises
    ------
    BadDatabase
        When it is no address, or one of a database that lives in memory and that no other worker would see.
    """
    try:
        made = make_url(url)
    except ArgumentError:
        raise BadDatabase(f"{VARIABLE} is not an SQLAlchemy URL, such as sqlite:////srv/gaugerake.sqlite3") from None
    if made.drivername in _POSTGRESQL:
        return made.set(drivername="postgresql+psycopg")
    if _is_sqlite(made) and made.database in (None, "", ":memory:"):
        raise BadDatabase(f"{VARIABLE} must name a SQLite file: what is in memory no other worker would see")
    if _is_sqlite(made) and str(made.database).startswith("file:"):
        raise BadDatabase(f"{VARIABLE} must name a SQLite file by its plain path")
    return made


def _is_sqlite(url: URL) -> bool:
    return url.get_backend_name() == "sqlite"


def reader(url: str) -> Engine:
    """An engine that only reads, and in each transaction what stood there at one moment."""
    made = parsed(url)
    if not _is_sqlite(made):
        return _engine(made, isolation_level="REPEATABLE READ")
    file = Path(made.database or "").resolve()
    engine = _engine(made, creator=lambda: _opened_to_read(file))
    event.listen(engine, "connect", _leave_transactions_to_us)
    event.listen(engine, "begin", _read_as_of_now)
    return engine


def writer(url: str) -> Engine:
    """An engine that may write; a SQLite file and its directory are made when they are missing."""
    made = parsed(url)
    if not _is_sqlite(made):
        return _engine(made)
    _make_room(Path(made.database or ""))
    engine = _engine(made, connect_args={"timeout": WAIT_SECONDS})
    event.listen(engine, "connect", _leave_transactions_to_us)
    event.listen(engine, "begin", _lock_at_once)
    return engine


def _opened_to_read(file: Path) -> sqlite3.Connection:
    """A connection that only reads. What a writer that was killed left half written is taken back first.

    SQLite does so as a file is read, but for who opens it read-only: that one would be refused until somebody writes.
    """
    connection = _opened(file, "ro")
    try:
        connection.execute(_LOOK)
    except sqlite3.DatabaseError as error:
        if error.sqlite_errorcode != sqlite3.SQLITE_READONLY_ROLLBACK:
            connection.close()
            raise
        with closing(_opened(file, "rw")) as recovering:
            recovering.execute(_LOOK)
    return connection


def _opened(file: Path, mode: str) -> sqlite3.Connection:
    return sqlite3.connect(f"file:{quote(str(file))}?mode={mode}", uri=True, timeout=WAIT_SECONDS)


def _engine(url: URL, **options: Any) -> Engine:
    if url.get_backend_name() == "postgresql":
        options["connect_args"] = {name: value for name, value in _PATIENCE.items() if name not in url.query}
    try:
        # what is written may be a secret, and an error must not tell it
        return create_engine(url, poolclass=NullPool, hide_parameters=True, **options)
    except (ModuleNotFoundError, NoSuchModuleError) as error:
        ours = " (pip install 'gaugerake[postgresql]')" if url.drivername == "postgresql+psycopg" else ""
        raise BadDatabase(
            f"{VARIABLE} begins with {url.drivername}, and its driver is not installed{ours}: {error}"
        ) from None


def _make_room(file: Path) -> None:
    try:
        file.parent.mkdir(parents=True, exist_ok=True)
        file.touch(mode=0o600)  # it holds the secret of the tokens
    except OSError as error:
        raise Unavailable(f"{file} cannot be written: {error.strerror}") from None


def _leave_transactions_to_us(connection: sqlite3.Connection, _record: object) -> None:
    connection.isolation_level = None  # else the driver begins too late to make a table within a transaction


def _read_as_of_now(connection: Connection) -> None:
    connection.exec_driver_sql("BEGIN")  # else the driver begins none before a SELECT


def _lock_at_once(connection: Connection) -> None:
    connection.exec_driver_sql("BEGIN IMMEDIATE")


@contextmanager
def reading(engine: Engine) -> Iterator[Session]:
    """A session that reads.

    Raises
    ------
    Unavailable
        When the database does not answer.
    """
    try:
        with Session(engine) as session:
            yield session
    except SQLAlchemyError as error:
        raise _unavailable(error) from error


@contextmanager
def writing(engine: Engine) -> Iterator[Session]:
    """A session that writes all or nothing, and alone: other writers wait until it is done.

    Raises
    ------
    Unavailable
        When the database does not answer or cannot be written.
    """
    try:
        with Session(engine, expire_on_commit=False) as session, session.begin():
            if engine.dialect.name == "postgresql":
                session.execute(text("SELECT pg_advisory_xact_lock(:number)"), {"number": _LOCK})
            yield session
    except SQLAlchemyError as error:
        raise _unavailable(error) from error


def _unavailable(error: SQLAlchemyError) -> Unavailable:
    cause = error.orig if isinstance(error, DBAPIError) else error
    return Unavailable(f"the catalogue's database does not answer: {' '.join(str(cause).split())}")
