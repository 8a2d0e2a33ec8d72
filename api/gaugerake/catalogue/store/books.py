"""Price books by name: the list prices, the book of a branch, or any that is kept, by the beginning of its id."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from gaugerake.catalogue.errors import UnknownBook
from gaugerake.catalogue.file.format import LIST, load_text
from gaugerake.catalogue.prices.price_book import LoadedBook, price_rows, read_price_book
from gaugerake.catalogue.store.revisions import Store, books_in_use, skus_of
from gaugerake.catalogue.store.tables import Book
from gaugerake.floor.product import PriceBook
from gaugerake.floor.system import Catalogue
from gaugerake.floor.values.frozen import dataclass

LEAST_CHARACTERS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class ListedBook:
    """A price book that is kept: its id, when it was loaded first, how many skus it prices, and whether it is used."""

    book: str
    created_at: datetime
    prices: int
    in_use: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class NamedBook:
    """A price book and the file that it was read from; the catalogue's own is written as one."""

    book: PriceBook
    source: str


def catalogue_in_use(store: Store) -> Catalogue:
    """The catalogue whose products a price list prices."""
    return load_text(store.source(store.state().revision)).catalogue


def check_book(text: str, catalogue: Catalogue) -> LoadedBook:
    """A price list as it would be loaded beside a catalogue.

    Raises
    ------
    FileRefused
        With all faults of the text.
    """
    return read_price_book(text, branch="checked", currency=catalogue.currency, skus=skus_of(catalogue))


def books_of(store: Store, branch: str) -> list[ListedBook]:
    """All price books of a branch that are kept, the newest first.

    Raises
    ------
    UnknownBook
        When it never had one.
    """
    with store.reading() as session:
        used = books_in_use(session).get(branch)
        rows = session.scalars(select(Book).where(Book.branch == branch)).all()
        found = [
            ListedBook(book=row.id, created_at=row.created_at, prices=len(_read(row).prices), in_use=row.id == used)
            for row in rows
        ]
    if not found:
        raise UnknownBook(branch)
    return sorted(found, key=lambda listed: (listed.created_at, listed.book), reverse=True)


def named_book(store: Store, name: str) -> NamedBook:
    """The price book of a branch, ``list`` of the catalogue, or one that is kept, by the beginning of its id.

    Raises
    ------
    UnknownBook
        Also when several begin so.
    """
    if name == LIST:
        book = load_text(store.source(store.state().revision)).list_book
        return NamedBook(book=book, source=price_rows(book))
    with store.reading() as session:
        row = _row(session, name)
        return NamedBook(book=_read(row), source=row.source)


def _row(session: Session, name: str) -> Book:
    used = books_in_use(session).get(name)
    if used is not None:
        return session.get_one(Book, used)
    wanted = name.lower()
    ids = [book_id for book_id in session.scalars(select(Book.id)) if book_id.startswith(wanted)]
    if len(wanted) < LEAST_CHARACTERS or len(ids) != 1:
        raise UnknownBook(name)
    return session.get_one(Book, ids[0])


def _read(row: Book) -> PriceBook:
    return read_price_book(row.source, branch=row.branch, currency=row.currency).book
