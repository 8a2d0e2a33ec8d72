# ruff: noqa: T201 - what a command prints is what it is for
"""The commands that look after keys of the API, and the database's steps."""

from __future__ import annotations

import argparse
import sys

from gaugerake.catalogue.keys.key import LIVE_PER_HOLDER, USUAL_RATE
from gaugerake.catalogue.store.database import database_url

DONE = 0


def add_keys(parser: argparse.ArgumentParser) -> None:
    """Add the commands below ``gaugerake key``."""
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")
    make = commands.add_parser(
        "make",
        help="make a key and tell it, this once",
        description="Make a key. It is told this once, on the standard output; only its SHA-256 is kept."
        f" From the first key on, nobody is answered without one. A holder has at most {LIVE_PER_HOLDER} live keys.",
    )
    make.add_argument("holder", metavar="HOLDER", help="who will have it")
    make.add_argument("--book", metavar="BRANCH", help="code of the branch whose prices it has (list prices)")
    make.add_argument(
        "--origin", metavar="URL", action="append", default=[], help="origin of pages that may use it; may be repeated"
    )
    make.add_argument("--rate", metavar="N/minute", default=USUAL_RATE, help="how often it may ask (%(default)s)")
    make.set_defaults(run=_make)
    commands.add_parser("list", help="list the keys, revoked ones too").set_defaults(run=_list)
    revoke = commands.add_parser("revoke", help="take a key back; the service stays closed without keys")
    revoke.add_argument("prefix", metavar="PREFIX", help="beginning of the key, as it is listed")
    revoke.set_defaults(run=_revoke)
    commands.add_parser("open", help="forget the revoked keys, so that no key is asked for").set_defaults(run=_open)


def add_database(parser: argparse.ArgumentParser) -> None:
    """Add the commands below ``gaugerake database``."""
    commands = parser.add_subparsers(title="commands", required=True, metavar="COMMAND")
    commands.add_parser("upgrade", help="take the steps of this version").set_defaults(run=_upgrade)
    back = commands.add_parser(
        "downgrade",
        help="go back to an earlier step, before an older version is put in place",
        description="Go back to an earlier step. What later steps added is lost: before 0002 there are no keys, and"
        " nobody needs one.",
    )
    back.add_argument("step", metavar="STEP", help="number of the step, such as 0001")
    back.set_defaults(run=_downgrade)
    commands.add_parser("steps", help="list the steps and which was taken last").set_defaults(run=_steps)


def _make(asked: argparse.Namespace) -> int:
    from gaugerake.catalogue.store.first_start import ensure_ready
    from gaugerake.catalogue.store.keys import make_key

    text = make_key(ensure_ready(database_url()), asked.holder, book=asked.book, origins=asked.origin, rate=asked.rate)
    print(text, flush=True)
    print("Keep it now: it is not shown again. Workers take it within 5 s.", file=sys.stderr)
    return DONE


def _list(_asked: argparse.Namespace) -> int:
    from gaugerake.catalogue.store.first_start import ensure_ready
    from gaugerake.catalogue.store.keys import list_keys

    for listed in list_keys(ensure_ready(database_url())):
        key = listed.key
        ended = f"revoked {listed.revoked_at:%Y-%m-%d}" if listed.revoked_at else "live"
        made = f"{listed.created_at:%Y-%m-%d}"
        print("  ".join((key.prefix, made, ended, key.rate, key.book or "list", key.holder, *key.origins)))
    return DONE


def _revoke(asked: argparse.Namespace) -> int:
    from gaugerake.catalogue.store.first_start import ensure_ready
    from gaugerake.catalogue.store.keys import revoke_key

    key = revoke_key(ensure_ready(database_url()), asked.prefix)
    print(f"{key.prefix} of {key.holder} is revoked; workers refuse it within 5 s")
    return DONE


def _open(_asked: argparse.Namespace) -> int:
    from gaugerake.catalogue.store.first_start import ensure_ready
    from gaugerake.catalogue.store.keys import open_again

    count = open_again(ensure_ready(database_url()))
    print(f"{count} revoked keys are forgotten; no key is asked for")
    return DONE


def _upgrade(_asked: argparse.Namespace) -> int:
    from gaugerake.catalogue.store.first_start import prepare

    prepare(database_url())
    return _steps(_asked)


def _downgrade(asked: argparse.Namespace) -> int:
    from gaugerake.catalogue.errors import UnknownStep
    from gaugerake.catalogue.store import database, migrations

    if asked.step not in {step.revision for step in migrations.steps().walk_revisions()}:
        raise UnknownStep(asked.step)  # Alembic also takes "base", which would drop every table
    with database.writing(database.writer(database_url())) as session:
        migrations.downgrade(session.connection(), asked.step)
    return _steps(asked)


def _steps(_asked: argparse.Namespace) -> int:
    from gaugerake.catalogue.store import database, migrations

    with database.reading(database.reader(database_url())) as session:
        taken = migrations.schema_of(session.connection())
    for step in reversed(list(migrations.steps().walk_revisions())):
        print(f"{'*' if step.revision == taken else ' '} {step.revision}  {step.doc}")
    return DONE
