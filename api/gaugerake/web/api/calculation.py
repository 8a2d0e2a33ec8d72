"""What every calculation does: read the job, answer it from the catalogue, show the answer in its envelope."""

from __future__ import annotations

from typing import Any, Protocol

from flask import Response, g, request

from gaugerake.answers.job.answer import Answer
from gaugerake.answers.job.envelope import envelope
from gaugerake.answers.job.errors import Fault, Refused
from gaugerake.answers.job.resolve import resolve
from gaugerake.answers.job.resolved import ResolvedJob, Supply
from gaugerake.answers.show.render import render
from gaugerake.catalogue.file.format import LIST
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.floor.job import Job
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


class Answering(Protocol):
    """What makes an answer of a job."""

    def __call__(self, resolved: ResolvedJob, *, explained: bool = False) -> Answer[Any]: ...


def calculate(answer: Answering, schema: Document, asked: Asked) -> Response:
    """The reply to a job.

    Raises
    ------
    Refusal, ValidationError, Refused
        What `problems` makes problems of.
    """
    snapshot = the_snapshot()
    g.document = reading.body(request)
    job: Job = schema.load(g.document)
    explained = asked["working"] == "true"
    if explained and len(job.rooms) > MOST_EXPLAINED:
        place = LocatedFinding("/rooms", Finding("too-many-explained", len(job.rooms), {"most": MOST_EXPLAINED}))
        raise TooManyExplained(place, most=MOST_EXPLAINED)
    resolved = resolved_of(job, snapshot)
    found = answer(resolved, explained=explained)
    body = shown(resolved, found)
    if explained:
        body["working"] = render(found.working, g.reader)
    if asked["echo"] == "true":
        body["job"] = schema.write(job, g.reader.units)
    return json_reply(body)


def resolved_of(job: Job, snapshot: Snapshot) -> ResolvedJob:
    """What an answer to the job is made from.

    Raises
    ------
    Refused
        When the job names a system or a price book that there is not.
    """
    code = book_of(job, snapshot)
    supply = Supply(
        catalogue=snapshot.catalogue,
        revision=snapshot.revision,
        book=snapshot.books[code],
        book_id=None if code == LIST else snapshot.book_ids[code],
    )
    return resolve(job, supply)


def shown(resolved: ResolvedJob, answer: Answer[Any]) -> dict[str, Any]:
    """The answer beside its envelope, in the units of the request."""
    body: dict[str, Any] = render(answer.body, g.reader)
    body |= render(envelope(resolved.supply, answer.remarks), g.reader)
    return body


def book_of(job: Job, snapshot: Snapshot) -> str:
    """The code of the price book that the request's key has; without a key, of the one that the job asks for.

    Raises
    ------
    Refused
        When there is no such book.
    OtherPriceBook
        When the job asks for another than the key's.
    """
    asked, own = job.order.price_book, book_code(snapshot)
    if asked is None or asked == own:
        return own
    if g.get("key") is not None:
        raise OtherPriceBook(LocatedFinding("/order/price_book", Finding("other-price-book", asked)))
    if asked not in snapshot.books:
        raise Refused(Fault("/order/price_book", UnknownName("price_book", seen=asked, known=snapshot.books)))
    return asked
