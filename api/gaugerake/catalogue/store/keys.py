"""Making, listing and revoking keys of the API."""

from __future__ import annotations

import json
from collections.abc import Iterable
from datetime import UTC, datetime

from sqlalchemy import delete, select
from sqlalchemy.orm import Session

from gaugerake.catalogue.errors import BadKeyDetail, UnknownBook, UnknownKey
from gaugerake.catalogue.keys.key import (
    LIVE_PER_HOLDER,
    MARK,
    USUAL_RATE,
    Key,
    ListedKey,
    holder_name,
    new_key,
    origins_of,
    rate_of,
)
from gaugerake.catalogue.store.revisions import Store, books_in_use, key_of
from gaugerake.catalogue.store.tables import ApiKey

LEAST_CHARACTERS = 4


def make_key(
    store: Store, holder: str, *, book: str | None = None, origins: Iterable[str] = (), rate: str = USUAL_RATE
) -> str:
    """A new key, which is told this once. From the first one on, the service answers no one without a key.

    Raises
    ------
    BadKeyDetail
        Also when the holder has two live keys, which is what it takes to change one for another.
    UnknownBook
    """
    text, prefix, digest = new_key()
    name = holder_name(holder)
    row = ApiKey(
        prefix=prefix,
        digest=digest,
        holder=name,
        book=book,
        origins=json.dumps(origins_of(origins)),
        rate=rate_of(rate),
        created_at=datetime.now(UTC),
    )
    with store.writing() as session:
        if book is not None and book not in books_in_use(session):
            raise UnknownBook(book)
        held = [key.prefix for key in _live(session) if key.holder == name]
        if len(held) >= LIVE_PER_HOLDER:
            raise BadKeyDetail(f"{name} has {' and '.join(held)} already: revoke one first (gaugerake key revoke)")
        session.add(row)
    return text


def list_keys(store: Store) -> list[ListedKey]:
    """All keys, by holder and age, revoked ones too."""
    with store.reading() as session:
        rows = session.scalars(select(ApiKey).order_by(ApiKey.holder, ApiKey.created_at, ApiKey.prefix)).all()
        return [ListedKey(key=key_of(row), created_at=row.created_at, revoked_at=row.revoked_at) for row in rows]


def revoke_key(store: Store, prefix: str) -> Key:
    """Take a key back, by its prefix or the beginning of it.

    Raises
    ------
    UnknownKey
    """
    wanted = prefix.removeprefix(f"{MARK}_")
    with store.writing() as session:
        found = [row for row in _live(session) if row.prefix.startswith(wanted)]
        if len(wanted) < LEAST_CHARACTERS or len(found) != 1:
            raise UnknownKey(prefix[:16], [row.prefix for row in found] if len(wanted) >= LEAST_CHARACTERS else ())
        found[0].revoked_at = datetime.now(UTC)
        return key_of(found[0])


def open_again(store: Store) -> int:
    """Forget the revoked keys, so that the service asks for none; how many they were.

    Raises
    ------
    BadKeyDetail
        While there are live ones.
    """
    with store.writing() as session:
        live = [row.prefix for row in _live(session)]
        if live:
            raise BadKeyDetail(f"there are live keys: {', '.join(live)}; revoke them first")
        gone = len(session.scalars(select(ApiKey)).all())
        session.execute(delete(ApiKey))
        return gone


def _live(session: Session) -> list[ApiKey]:
    return list(session.scalars(select(ApiKey).where(ApiKey.revoked_at.is_(None)).order_by(ApiKey.prefix)))
