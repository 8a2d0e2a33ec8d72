"""What every calculation does: read the job, answer it from the catalogue, show the answer in its envelope."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any

from flask import Response, g, request

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.envelope import envelope
from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.resolve import resolve
from gaugerake.answers.job.resolved import ResolvedJob, Supply
from gaugerake.answers.job.taken import Taken, disputed
from gaugerake.answers.job.taken import asked as taken
from gaugerake.answers.show.render import render
from gaugerake.catalogue.file.format import LIST
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.floor.job import Job
from gaugerake.floor.product import PriceBook
from gaugerake.floor.values.errors import UnknownName
from gaugerake.web.api.access import book_code
from gaugerake.web.api.operations import Asked
from gaugerake.web.api.parameters import MOST_EXPLAINED
from gaugerake.web.api.replies import json_reply
from gaugerake.web.errors.finding import Finding, LocatedFinding
from gaugerake.web.errors.refusal import OtherPriceBook, TooManyExplained
from gaugerake.web.json_in import reading
from gaugerake.web.json_in.document import Document
from gaugerake.web.snapshots import the_snapshot

Answering = Callable[..., Answer[Any]]
"""What makes an answer of a resolved job; ``explained`` says whether with its working."""


def calculate(answer: Answering, schema: Document, asked: Asked) -> Response:
    """The reply to a job.

    Raises
    ------
    Refusal, ValidationError, Refused
        What `problems` makes problems of.
    """
    snapshot = the_snapshot()
    g.document = reading.body(request)
    return calculate_read(answer, schema, asked, snapshot)


def calculate_read(answer: Answering, schema: Document, asked: Asked, snapshot: Snapshot) -> Response:
    """The reply to a job whose document is read already.

    Raises
    ------
    Refusal, ValidationError, Refused
        What `problems` makes problems of.
    """
    job: Job = schema.load(g.document)
    explained = explains(asked, job)
    resolved = resolved_of(job, snapshot)
    found = answer(resolved, explained=explained)
    body = shown(resolved, found)
    if explained:
        body["working"] = render(found.working, g.reader)
    if asked["echo"] == "true":
        body["job"] = schema.write(job, g.reader.units)
    return json_reply(body)


def explains(asked: Asked, job: Job) -> bool:
    """Whether the working of the job is told.

    Raises
    ------
    TooManyExplained
        When it is asked for, and the job has more rooms than are explained.
    """
    explained = asked["working"] == "true"
    if explained and len(job.rooms) > MOST_EXPLAINED:
        place = LocatedFinding("/rooms", Finding("too-many-explained", len(job.rooms), {"most": MOST_EXPLAINED}))
        raise TooManyExplained(place, most=MOST_EXPLAINED)
    return explained


def resolved_of(job: Job, snapshot: Snapshot, *, near: ResolvedJob | None = None) -> ResolvedJob:
    """What an answer to the job is made from; ``near`` is another job that may hold the same readings.

    Raises
    ------
    OtherPriceBook
        When the job asks for another price book than the key's.
    """
    return resolve(job, supply_of(job, snapshot), near=near)


def shown(resolved: ResolvedJob, answer: Answer[Any]) -> dict[str, Any]:
    """The answer beside its envelope, in the units of the request."""
    body: dict[str, Any] = render(answer.body, g.reader)
    body |= render(envelope(resolved.supply, answer.remarks), g.reader)
    return body


@contextmanager
def pointing_into_the_request(*, beside: str) -> Iterator[None]:
    """What is wrong with the job points below the request's ``job``; what points ``beside`` the job stays as it is."""

    def within(pointer: str) -> str:
        return pointer if pointer.startswith(beside) else f"/job{pointer}"

    try:
        yield
    except Refused as error:
        raise Refused(*(Fault(within(fault.pointer), fault.error) for fault in error.faults)) from error
    except (OtherPriceBook, TooManyExplained) as error:
        places = [LocatedFinding(within(place.pointer or ""), place.finding) for place in error.places]
        raise type(error)(*places, **error.params) from error


def supply_of(job: Job, snapshot: Snapshot) -> Supply:
    """The catalogue, and the price book that the request's key has; without a key, the one that the job asks for.

    Raises
    ------
    OtherPriceBook
        When the job asks for another than the key's.
    """
    named, own = job.order.price_book, book_code(snapshot)
    if named not in (None, own) and g.get("key") is not None:
        raise OtherPriceBook(LocatedFinding("/order/price_book", Finding("other-price-book", named)))
    code = own if named is None else named
    return Supply(
        catalogue=snapshot.catalogue,
        revision=snapshot.revision,
        price_book=_price_book(code, snapshot),
        book_id=None if code == LIST else snapshot.book_ids.get(code),
    )


def _price_book(code: str, snapshot: Snapshot) -> Taken[PriceBook]:
    book = snapshot.books.get(code)
    if book is not None:
        return taken(book)
    error = UnknownName("price_book", seen=code, known=snapshot.books)
    return disputed(snapshot.list_book, Fault("/order/price_book", error))
