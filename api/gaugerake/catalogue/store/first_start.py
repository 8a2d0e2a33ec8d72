"""The first start: an empty database gets its tables, the demonstration catalogue and a secret for the tokens.

The start after an update is a first start too: it takes the steps that the new version has added.
"""

from __future__ import annotations

import secrets

from gaugerake.catalogue.store import database
from gaugerake.catalogue.store.demo import demo_catalogue, demo_text
from gaugerake.catalogue.store.revisions import ONLY_ROW, Store, keep
from gaugerake.catalogue.store.snapshot import revision_id
from gaugerake.catalogue.store.tables import Current, Setting

TOKEN_SECRET = "token-secret"
"""The setting that holds the embedded database's own secret for signing tokens."""


def ensure_ready(url: str) -> Store:
    """The store at ``url``, made and filled if it is empty. Several processes may do this at once; one does it.

    Raises
    ------
    BadDatabase
    Unavailable
        When the database does not answer or cannot be written.
    """
    store = Store(url)
    if not store.is_ready():
        prepare(url)
    return store


def prepare(url: str) -> None:
    """Make what is missing; harmless to repeat. Others wait while one does it."""
    from gaugerake.catalogue.store import migrations  # not at each start: it is seldom wanted, and loads Alembic

    with database.writing(database.writer(url)) as session:
        migrations.upgrade(session.connection())
        if session.get(Setting, TOKEN_SECRET) is None:
            session.add(Setting(name=TOKEN_SECRET, value=secrets.token_hex(32)))
        if session.get(Current, ONLY_ROW) is None:
            keep(session, demo_text(), demo_catalogue())
            session.add(Current(id=ONLY_ROW, revision_id=revision_id(demo_text()), books="{}"))
