"""The commands below ``gaugerake database``."""

from __future__ import annotations

import argparse

from gaugerake.cli.commands import Group
from gaugerake.cli.outcome import Outcome


def add(commands: Group) -> None:
    """Add the commands."""
    commands.command("upgrade", _upgrade, "take the steps of this version")
    commands.command(
        "downgrade",
        _downgrade,
        "go back to an earlier step, before an older version is put in place",
        (("STEP", "number of the step, such as 0001"),),
        more="What later steps added is lost: before 0002 there are no keys, and nobody needs one.",
    )
    commands.command("steps", _steps, "list the steps and which was taken last")


def _upgrade(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.store.database import database_url
    from gaugerake.catalogue.store.first_start import prepare

    prepare(database_url())
    return _steps(asked)


def _downgrade(asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.errors import UnknownStep
    from gaugerake.catalogue.store import database, migrations

    if asked.step not in {step.revision for step in migrations.steps().walk_revisions()}:
        raise UnknownStep(asked.step)  # Alembic also takes "base", which would drop every table
    with database.writing(database.writer(database.database_url())) as session:
        migrations.downgrade(session.connection(), asked.step)
    return _steps(asked)


def _steps(_asked: argparse.Namespace) -> Outcome:
    from gaugerake.catalogue.store import database, migrations

    with database.reading(database.reader(database.database_url())) as session:
        taken = migrations.schema_of(session.connection())
    listed = list(reversed(list(migrations.steps().walk_revisions())))
    return Outcome(
        lines=[f"{'*' if step.revision == taken else ' '} {step.revision}  {step.doc}" for step in listed],
        data=[{"step": step.revision, "about": step.doc, "taken_last": step.revision == taken} for step in listed],
    )
