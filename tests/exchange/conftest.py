"""The app around the demonstration catalogue, with a secret to sign tokens and a source that remembers."""

from collections.abc import Callable, Iterator
from copy import deepcopy
from dataclasses import replace
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

Quote = Callable[..., dict[str, Any]]
Show = Callable[[str, str], Any]


class Source:
    """A source whose revisions and branches' books can be changed and forgotten."""

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
def source() -> Source:
    return Source()


@pytest.fixture
def app(source: Source) -> Flask:
    return create_app(source, secrets=lambda: (SECRET,))


@pytest.fixture
def client(app: Flask) -> Iterator[FlaskClient]:
    with app.test_client() as client:
        yield client


@pytest.fixture
def job() -> dict[str, Any]:
    return deepcopy(JOB)


@pytest.fixture
def quote(client: FlaskClient) -> Quote:
    """Makes the quote of a job."""

    def make(job: dict[str, Any], **query: str) -> dict[str, Any]:
        response = client.post("/v1/quotes", json=job, query_string=query)
        assert response.status_code == 200, response.get_json()
        found: dict[str, Any] = response.get_json()
        return found

    return make


@pytest.fixture
def show(client: FlaskClient) -> Show:
    """Opens a token in a form."""

    def get(token: str, accept: str) -> Any:
        return client.get(f"/v1/quotes/{token}", headers={"Accept": accept})

    return get


def unpriced(source: Source, sku: str) -> None:
    """Take a price out of the catalogue's list."""
    book = source.current.list_book
    prices = {name: price for name, price in book.prices.items() if name != sku}
    source.current = replace(source.current, books={"list": replace(book, prices=prices)})
    source.revisions = {source.current.revision: source.current}
