"""The app around the demonstration catalogue, with a secret to sign tokens and a shelf that remembers."""

from collections.abc import Iterator
from copy import deepcopy
from datetime import datetime
from typing import Any

import pytest
from flask import Flask
from flask.testing import FlaskClient

from gaugerake.catalogue.errors import UnknownBook, UnknownRevision
from gaugerake.catalogue.store.demo import demo_snapshot
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.floor.product import PriceBook
from gaugerake.web.server.app import create_app

SECRET = "only-for-the-tests-of-this-folder"
JOB: dict[str, Any] = {
    "system": "level-clear",
    "rooms": [
        {"name": "Proofing room", "shape": {"rectangle": {"length": "42 ft", "width": "28' 6\""}}},
        {"name": "Store", "shape": {"measured": {"area": "410 ft2"}}},
    ],
    "slab": {"age": "45 d", "profile_csp": 4},
    "work": {"start": "2027-03-05T06:00", "zone": "America/Chicago", "reopen_by": "2027-03-12T05:00"},
    "order": {"reference": "PO 4711", "issued": "2027-03-01", "tax_percent": 8.25, "delivery": "45.00"},
}


class Shelf:
    """A shelf whose revisions and branches' books can be changed and forgotten."""

    stale_since: datetime | None = None

    def __init__(self) -> None:
        self.current = demo_snapshot()
        self.revisions = {self.current.revision: self.current}
        self.books: dict[str, PriceBook] = {}

    def revision(self, revision: str) -> Snapshot:
        if revision not in self.revisions:
            raise UnknownRevision(revision)
        return self.revisions[revision]

    def book(self, book_id: str) -> PriceBook:
        if book_id not in self.books:
            raise UnknownBook(book_id)
        return self.books[book_id]


@pytest.fixture
def shelf() -> Shelf:
    return Shelf()


@pytest.fixture
def app(shelf: Shelf) -> Flask:
    return create_app(shelf, secrets=lambda: (SECRET,))


@pytest.fixture
def client(app: Flask) -> Iterator[FlaskClient]:
    with app.test_client() as client:
        yield client


@pytest.fixture
def job() -> dict[str, Any]:
    return deepcopy(JOB)
