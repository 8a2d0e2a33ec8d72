"""The kept catalogues: immutable revisions, branches' price books, and which of them are in use."""

from __future__ import annotations

import json
from collections.abc import Mapping
from contextlib import AbstractContextManager
from dataclasses import field
from datetime import UTC, datetime
from functools import cached_property
from hashlib import sha256

from sqlalchemy import Engine, select, text
from sqlalchemy.orm import Session

from gaugerake.catalogue.errors import (
    BadBranch,
    BookInUse,
    OtherCurrency,
    Unavailable,
    UnknownBook,
    UnknownRevision,
)
from gaugerake.catalogue.file.faults import FileRemark
from gaugerake.catalogue.file.format import LIST, load_text
from gaugerake.catalogue.file.read import is_code
from gaugerake.catalogue.keys.key import Access, Key
from gaugerake.catalogue.prices.price_book import LoadedBook, read_price_book
from gaugerake.catalogue.store import database
from gaugerake.catalogue.store.snapshot import Snapshot, of_loaded, plain_text, revision_id
from gaugerake.catalogue.store.tables import SCHEMA, ApiKey, Book, Current, Revision, Setting
from gaugerake.floor.product import PriceBook
from gaugerake.floor.system import Catalogue
from gaugerake.floor.values.frozen import dataclass, replace

ONLY_ROW = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """What is in use: a revision, each branch's book by its content, and the live keys; None when none was made."""

    revision: str
    books: Mapping[str, str] = field(default_factory=dict)
    keys: tuple[Key, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedRevision:
    """A revision as it is listed."""

    revision: str
    title: str
    created_at: datetime
    current: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadedRevision:
    """A revision that was loaded: whether it is new, and what may be slips in it."""

    revision: str
    new: bool
    cautions: tuple[FileRemark, ...]


class Store:
    """The database of one address. Nothing is connected until something is asked."""

    def __init__(self, url: str) -> None:
        database.parsed(url)
        self.url = url

    @cached_property
    def _reader(self) -> Engine:
        return database.reader(self.url)

    @cached_property
    def _writer(self) -> Engine:
        return database.writer(self.url)

    def is_ready(self) -> bool:
        """Whether the tables are those of this version, or of a later one, and something is in use."""
        try:
            with database.reading(self._reader) as session:
                _state(session)
                return str(session.scalar(text("SELECT version_num FROM alembic_version"))) >= SCHEMA
        except Unavailable:
            return False

    def state(self) -> State:
        """What is in use, read in one piece and so never a mixture."""
        with database.reading(self._reader) as session:
            return _state(session)

    def source(self, revision: str) -> str:
        """The text of a revision, by its whole id."""
        with database.reading(self._reader) as session:
            return _source(session, revision)

    def snapshot(self, state: State) -> Snapshot:
        """A revision with the books beside it, as values."""
        with database.reading(self._reader) as session:
            row = _revision(session, state.revision)
            bare, loaded_at = of_loaded(state.revision, load_text(row.source)), row.created_at
            whole = _with_books(session, bare, state.books)
        return replace(whole, loaded_at=loaded_at, access=None if state.keys is None else Access.of(state.keys))

    def with_books(self, bare: Snapshot) -> Snapshot:
        """A snapshot of a catalogue that is not in use, with the price books that are."""
        with database.reading(self._reader) as session:
            return _with_books(session, bare, _state(session).books)

    def book(self, book_id: str) -> PriceBook:
        """A branch's price book, by its content."""
        with database.reading(self._reader) as session:
            return _book(session, book_id)

    def setting(self, name: str) -> str | None:
        """A shared setting."""
        with database.reading(self._reader) as session:
            row = session.get(Setting, name)
            return row.value if row else None

    def revisions(self) -> list[ListedRevision]:
        """All revisions, the newest first."""
        with database.reading(self._reader) as session:
            used = _state(session).revision
            rows = session.execute(select(Revision.id, Revision.title, Revision.created_at))
            found = [
                ListedRevision(revision=row.id, title=row.title, created_at=row.created_at, current=row.id == used)
                for row in rows
            ]
        return sorted(found, key=lambda listed: (listed.created_at, listed.revision), reverse=True)

    def resolve(self, name: str) -> str:
        """The whole id of a revision, from its beginning (four characters or more) or the word ``current``.

        Raises
        ------
        UnknownRevision
        """
        if name == "current":
            return self.state().revision
        wanted = name.replace("-", "").lower()
        found = [listed.revision for listed in self.revisions() if listed.revision.startswith(wanted)]
        if len(wanted) < 4 or len(found) != 1:
            raise UnknownRevision(name, found if len(wanted) >= 4 else ())
        return found[0]

    def load(self, text: str) -> LoadedRevision:
        """Keep a catalogue and use it: all of it or nothing.

        Raises
        ------
        FileRefused
            With all faults of the text; what is in use stays so.
        OtherCurrency
        """
        loaded = load_text(text)
        revision = revision_id(text)
        with database.writing(self._writer) as session:
            new = keep(session, text, loaded.catalogue)
            _use(session, revision, loaded.catalogue)
        return LoadedRevision(revision=revision, new=new, cautions=loaded.cautions)

    def use(self, revision: str) -> None:
        """Use a revision that is kept, by its whole id.

        Raises
        ------
        OtherCurrency
        """
        catalogue = load_text(self.source(revision)).catalogue
        with database.writing(self._writer) as session:
            _use(session, revision, catalogue)

    def load_book(self, branch: str, text: str) -> LoadedBook:
        """Keep a branch's price list and use it.

        Raises
        ------
        FileRefused
            With all faults of the text.
        BadBranch
        """
        if branch == LIST or not is_code(branch):
            raise BadBranch(branch)
        with database.writing(self._writer) as session:
            catalogue = load_text(_source(session, _state(session).revision)).catalogue
            loaded = read_price_book(text, branch=branch, currency=catalogue.currency, skus=skus_of(catalogue))
            plain = plain_text(text)
            book_id = sha256(f"{branch}\n{catalogue.currency}\n{plain}".encode()).hexdigest()
            if session.get(Book, book_id) is None:
                row = Book(
                    id=book_id, branch=branch, currency=catalogue.currency, source=plain, created_at=datetime.now(UTC)
                )
                session.add(row)
            _use_books(session, {**_state(session).books, branch: book_id})
        return loaded

    def drop_book(self, branch: str) -> None:
        """Use a branch's price list no longer; quotes made from it can still be opened.

        Raises
        ------
        UnknownBook
        BookInUse
            While a live key has it.
        """
        with database.writing(self._writer) as session:
            state = _state(session)
            books = dict(state.books)
            if books.pop(branch, None) is None:
                raise UnknownBook(branch)
            held = [key.prefix for key in state.keys or () if key.book == branch]
            if held:
                raise BookInUse(branch, held)
            _use_books(session, books)

    def reading(self) -> AbstractContextManager[Session]:
        """A session that reads."""
        return database.reading(self._reader)

    def writing(self) -> AbstractContextManager[Session]:
        """A session that writes all or nothing, and alone."""
        return database.writing(self._writer)


def keep(session: Session, text: str, catalogue: Catalogue) -> bool:
    """Keep a text that was read as ``catalogue``; whether it is new."""
    name = revision_id(text)
    if session.get(Revision, name) is not None:
        return False
    row = Revision(id=name, title=str(catalogue.title), source=plain_text(text), created_at=datetime.now(UTC))
    session.add(row)
    session.flush()
    return True


def _state(session: Session) -> State:
    row = session.get(Current, ONLY_ROW)
    if row is None:
        raise Unavailable("the database holds no catalogue yet: load one with gaugerake catalogue load FILE")
    return State(revision=row.revision_id, books=json.loads(row.books), keys=_keys(session))


def _keys(session: Session) -> tuple[Key, ...] | None:
    rows = session.scalars(select(ApiKey).order_by(ApiKey.prefix)).all()
    return tuple(key_of(row) for row in rows if row.revoked_at is None) if rows else None


def key_of(row: ApiKey) -> Key:
    """A key as a value."""
    return Key(
        prefix=row.prefix,
        digest=row.digest,
        holder=row.holder,
        book=row.book,
        origins=tuple(json.loads(row.origins)),
        rate=row.rate,
    )


def books_in_use(session: Session) -> Mapping[str, str]:
    """Each branch's book by its content."""
    return _state(session).books


def _source(session: Session, revision: str) -> str:
    return _revision(session, revision).source


def _revision(session: Session, revision: str) -> Revision:
    row = session.get(Revision, revision)
    if row is None:
        raise UnknownRevision(revision[:12])
    return row


def _book(session: Session, book_id: str) -> PriceBook:
    row = session.get(Book, book_id)
    if row is None:
        raise UnknownBook(book_id[:12])
    return read_price_book(row.source, branch=row.branch, currency=row.currency).book


def _with_books(session: Session, bare: Snapshot, ids: Mapping[str, str]) -> Snapshot:
    books = {branch: _book(session, book_id) for branch, book_id in ids.items()}
    return replace(bare, books={**books, **bare.books}, book_ids={**ids, **bare.book_ids})


def skus_of(catalogue: Catalogue) -> frozenset[str]:
    """All that a price list may price."""
    return frozenset(sku for product in catalogue.products.values() for sku in product.skus)


def _use(session: Session, revision: str, catalogue: Catalogue) -> None:
    row = session.get(Current, ONLY_ROW)
    if row is None:
        session.add(Current(id=ONLY_ROW, revision_id=revision, books="{}"))
        return
    foreign = [
        branch
        for branch, book_id in json.loads(row.books).items()
        if (book := session.get(Book, book_id)) and book.currency != catalogue.currency
    ]
    if foreign:
        raise OtherCurrency(catalogue.currency, foreign)
    row.revision_id = revision


def _use_books(session: Session, books: Mapping[str, str]) -> None:
    row = session.get_one(Current, ONLY_ROW)
    row.books = json.dumps(dict(books), sort_keys=True)
