"""A service that answers only those who have a key, and its keys."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from tests.service import running

from gaugerake.catalogue.store.first_start import ensure_ready
from gaugerake.catalogue.store.keys import make_key

BRANCH = "sku,price,from\nLB-1,126.40,1\nLB-24,2610.00,1\n"
"""Prices of a branch, that are not the list's."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Keyed:
    """Where it is, and a key for: its own page, pages of the shop, pages of somebody else."""

    address: str
    page: str
    shop: str
    other: str


@contextmanager
def serving(folder: Path, shop: str) -> Iterator[Keyed]:
    """The service, with keys made before it starts; ``shop`` is the origin of the shop's pages."""
    url = f"sqlite:///{folder / 'catalogue.sqlite3'}"
    store = ensure_ready(url)
    store.load_book("north", BRANCH)
    keys = {
        "page": make_key(store, "North branch", book="north", origins=[], rate="600/minute"),
        "shop": make_key(store, "Shop", book=None, origins=[shop], rate="600/minute"),
        "other": make_key(store, "Other shop", book=None, origins=["https://other.example"], rate="600/minute"),
    }
    with running(folder, database=url) as address:
        yield Keyed(address=address, **keys)
