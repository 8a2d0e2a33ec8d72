"""The steps from an empty database to the tables of today, taken with Alembic.

A step is a module in ``versions`` with ``upgrade`` and ``downgrade``, written by hand: the tables are few, and
``tests/catalogue/test_migrations.py`` prints what a forgotten step would have to do. Steps only add, so that workers
of the version before can still read what those of the next have written.
"""

from __future__ import annotations

from pathlib import Path

from alembic.config import Config
from alembic.runtime.environment import EnvironmentContext
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from alembic.util.exc import CommandError
from sqlalchemy import Connection

from gaugerake.catalogue.errors import Unavailable
from gaugerake.catalogue.store.tables import Base

NOTHING = "base"


def steps() -> ScriptDirectory:
    """The steps that this version knows."""
    return ScriptDirectory(Path(__file__).parent)


def schema_of(connection: Connection) -> str | None:
    """The last step that the database has taken; None for one that has taken none."""
    return MigrationContext.configure(connection).get_current_revision()


def upgrade(connection: Connection, to: str = "head") -> None:
    """Take the steps up to one, within the connection's transaction.

    Raises
    ------
    Unavailable
        When the database was made by another version.
    """
    script = steps()
    _run(connection, script, lambda at, _context: script._upgrade_revs(to, at))


def downgrade(connection: Connection, to: str = NOTHING) -> None:
    """Take the steps back to one, within the connection's transaction. What they added is lost.

    Raises
    ------
    Unavailable
        When the database was made by another version.
    """
    script = steps()
    _run(connection, script, lambda at, _context: script._downgrade_revs(to, at))


def _run(connection: Connection, script: ScriptDirectory, way: object) -> None:
    with EnvironmentContext(Config(), script, fn=way) as environment:
        environment.configure(connection=connection, target_metadata=Base.metadata)
        try:
            environment.run_migrations()
        except CommandError as error:
            at = schema_of(connection)
            raise Unavailable(
                f"the database has taken step {at}, which this version does not know: use the version that made it"
                if at and at not in {step.revision for step in script.walk_revisions()}
                else f"the database cannot be brought there: {error}"
            ) from error
