"""What answers are made from: one catalogue revision and its price books, whole and unchanging."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from datetime import datetime
from hashlib import sha256

from gaugerake.catalogue.file.format import LIST, Loaded, load_text
from gaugerake.catalogue.keys.key import Access
from gaugerake.floor.product import PriceBook
from gaugerake.floor.system import Catalogue
from gaugerake.floor.values.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Snapshot:
    """A catalogue revision and the price books that go with it.

    ``revision`` is the revision's whole id; ``books`` holds the list prices under ``list`` and each branch's under
    its code; ``book_ids`` names the content of each, so that a quote can be made again from the same prices.
    ``access`` holds the live keys, where the service asks for one.
    ``loaded_at`` is when the revision was first kept, where that is known; no answer depends on it.
    """

    revision: str
    catalogue: Catalogue
    books: Mapping[str, PriceBook]
    book_ids: Mapping[str, str]
    access: Access | None = None
    loaded_at: datetime | None = field(default=None, compare=False)

    @property
    def list_book(self) -> PriceBook:
        """The prices that the catalogue itself carries."""
        return self.books[LIST]


def revision_id(text: str) -> str:
    """The name of a catalogue's text: its SHA-256, whatever the line ends and with or without a byte order mark.

    >>> revision_id("a: 1\\r\\n") == revision_id("\\ufeffa: 1\\n")
    True
    """
    return sha256(plain_text(text).encode("utf-8", "surrogatepass")).hexdigest()


def plain_text(text: str) -> str:
    """The text as it is kept: Unix line ends, no byte order mark, one line end at its end."""
    return text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").rstrip("\n") + "\n"


def snapshot_of(text: str) -> Snapshot:
    """The snapshot of a catalogue's text alone, with no branch's prices.

    Raises
    ------
    FileRefused
        With all faults of the text.
    """
    return of_loaded(revision_id(text), load_text(text))


def of_loaded(revision: str, loaded: Loaded) -> Snapshot:
    """The snapshot of a catalogue that was read, with no branch's prices."""
    return Snapshot(
        revision=revision,
        catalogue=loaded.catalogue,
        books={LIST: loaded.list_book},
        book_ids={LIST: revision},
    )
