"""``POST /v1/quotes`` and what its token opens: the same quote in four forms, and its address as a QR code."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from hashlib import sha256
from typing import Any

import orjson
from flask import Response, g, request

from gaugerake import __version__
from gaugerake.answers.quote.answer import quote
from gaugerake.answers.quote.asked import Quote
from gaugerake.answers.show.reader import Reader
from gaugerake.answers.show.words import sentence
from gaugerake.catalogue.store.snapshot import Snapshot
from gaugerake.exchange.errors import NoSuchForm
from gaugerake.exchange.lines import order_csv
from gaugerake.exchange.paper import Paper, paper_of
from gaugerake.exchange.print_page import POLICY, print_page
from gaugerake.exchange.qr import fits, qr_svg
from gaugerake.exchange.token import MOST_CHARACTERS, Sealed
from gaugerake.exchange.ubl import quotation
from gaugerake.floor.values.frozen import replace
from gaugerake.measure.choice import choice
from gaugerake.web.api.calculation import calculate_read, resolved_of, shown
from gaugerake.web.api.compression import SUFFIX
from gaugerake.web.api.language import of_name, of_quote
from gaugerake.web.api.operations import BYTES, JSON, OCTETS, Asked, Resource, best
from gaugerake.web.api.own_address import own_address
from gaugerake.web.api.parameters import BESIDE, CALCULATION, ECHO, LANG, OPENED_LANG, PARTS
from gaugerake.web.api.replies import NO_STORE, named_reply
from gaugerake.web.api.tokens import opened, quote_with_token, resolved_again, token_of
from gaugerake.web.api.vary import vary
from gaugerake.web.json_in import reading
from gaugerake.web.json_in.schemas.job import JOB
from gaugerake.web.snapshots import the_snapshot

resource = Resource("quotes")

HTML, CSV, XML, SVG = "text/html", "text/csv", "application/xml", "image/svg+xml"
MINE = "private, no-cache"
"""A quote may hold a customer's own prices: kept by the one who asked, and asked for again each time."""

FORMS_ABOUT: Mapping[str, dict[str, Any]] = {
    HTML: {"type": "string", "description": "A page for print."},
    CSV: {"type": "string", "description": "RFC 4180 with a header; a row for each order line."},
    XML: {"type": "string", "description": "OASIS UBL 2.1 Quotation."},
}
TOKEN = {"token": f"The `token` of a quote, at most {MOST_CHARACTERS:,} characters. It does not age."}


@resource.offers(
    id="makeQuote",
    method="POST",
    path="/v1/quotes",
    summary="A whole quote",
    about=(
        "Slab verdict, order, pour plan and return times of one job, from one catalogue revision and price book. As"
        " HTML, CSV and XML the whole, with the bytes that its token gives; `parts`, `echo` and `working` are for JSON."
        " A problem is JSON, whatever is accepted."
    ),
    takes=JOB,
    answer=Quote,
    forms=FORMS_ABOUT,
    parameters=(*CALCULATION, PARTS, BESIDE),
)
def make_quote(asked: Asked) -> Response:
    """The quote, in the form that is liked best of those that it has."""
    snapshot = the_snapshot()
    g.document = reading.body(request)
    return _best_reply(lambda form: _made(form, asked, snapshot))


@resource.offers(
    id="openQuote",
    path="/v1/quotes/{token}",
    summary="The same quote again",
    about=(
        "A quote from its token alone, in its units, from the catalogue and the prices that it was first made from: as"
        " JSON the bytes of the first answer, as HTML a page for print, as CSV the order lines, as XML a UBL 2.1"
        " Quotation (406 without `order.issued` or without a line). Another version of the engine says so in a caution."
        " `valid_until` says how long the prices hold; the service has no clock and opens the quote after it as well."
        " 410 when the catalogue or the price list is no longer kept. With `echo` the JSON holds the job as well."
    ),
    answer={"$ref": "#/components/schemas/QuoteAnswer"},
    forms=FORMS_ABOUT,
    parameters=(OPENED_LANG, BESIDE, ECHO),
    path_about=TOKEN,
    keyless=True,
    statuses=(304, 404, 410, 503),
)
def open_quote(asked: Asked, token: str) -> Response:
    """The quote, in the form that is liked best of those that it has."""
    sealed = opened(token)
    g.reader = Reader(units=choice(sealed.units), language=of_quote(asked["lang"], sealed.lang))
    return _best_reply(lambda form: _reply(form, sealed, token, asked))


@resource.offers(
    id="drawQuoteCode",
    path="/v1/quotes/{token}/qr.svg",
    summary="The quote's address as a QR code",
    about="The address of the page with this quote opened on it; 404 when it has more than 1,200 characters.",
    media_type=SVG,
    answer={**BYTES, "description": "Black on white, with its quiet zone."},
    forms={OCTETS: {**BYTES, "description": "The same bytes."}},
    parameters=(LANG,),
    path_about=TOKEN,
    keyless=True,
    statuses=(304, 404),
)
def draw_quote_code(_asked: Asked, token: str) -> Response:
    """The code."""
    opened(token)
    title = sentence("qr-title", {}, g.reader)
    return named_reply(qr_svg(_address(token), title=title), best((SVG, OCTETS)) or SVG, cache=MINE)


def _best_reply(reply: Callable[[str], Response]) -> Response:
    """The reply in the form that is liked best of those that the quote has."""
    lacking: NoSuchForm | None = None
    left = [JSON, *_FORMS]
    while form := best(left):
        try:
            response = reply(form)
        except NoSuchForm as error:
            lacking = lacking or error
            left.remove(form)
        else:
            vary(response, "Accept")
            if form == HTML:
                response.headers["Content-Security-Policy"] = POLICY
            return response
    assert lacking is not None  # the operation's guard has seen that some form is accepted
    raise lacking


def _made(form: str, asked: Asked, snapshot: Snapshot) -> Response:
    """The quote of the job that is posted, in one form."""
    if form == JSON:
        return calculate_read(quote_with_token, JOB, asked, snapshot)
    make, content_type = _FORMS[form]
    resolved = resolved_of(JOB.load(g.document), snapshot)
    token, said = token_of(resolved)
    response = Response(make(paper_of(resolved, said, g.reader, token=token), asked), content_type=content_type)
    response.headers["Cache-Control"] = NO_STORE
    return response


def _reply(form: str, sealed: Sealed, token: str, asked: Asked) -> Response:
    """The quote in one form, or 304 to those who have it: what it is follows from token, engine and address alone."""
    parts = (form, g.reader.language, asked["beside"], __version__, _address(token), asked["echo"])
    known = sha256("\n".join(parts).encode()).hexdigest()[:32]
    if _has(known):
        resolved_again(sealed)
        body = b""
    else:
        body = _body(form, sealed, token, asked)
    return named_reply(body, JSON if form == JSON else _FORMS[form][1], cache=MINE, etag=known)


def _has(tag: str) -> bool:
    return any(request.if_none_match.contains_weak(name) for name in (tag, tag + SUFFIX))


def _body(form: str, sealed: Sealed, token: str, asked: Asked) -> bytes:
    resolved, said = resolved_again(sealed)
    if form != JSON:
        return _FORMS[form][0](paper_of(resolved, said, g.reader, token=token), asked)
    found = quote(resolved, token=token)
    body = shown(resolved, replace(found, remarks=(*said, *found.remarks)))
    if asked["echo"] == "true":
        body["job"] = JOB.write(resolved.asked, g.reader.units)
    return orjson.dumps(body)


def _page(paper: Paper, asked: Asked) -> bytes:
    return print_page(paper, qr=_code(paper.quote.token), beside=of_name(asked["beside"]))


def _code(token: str | None) -> bytes | None:
    """The QR code of the quote's address; None where there is none to draw."""
    if token is None or not fits(_address(token)):
        return None
    return qr_svg(_address(token), title=sentence("qr-title", {}, g.reader))


_FORMS: Mapping[str, tuple[Callable[[Paper, Asked], bytes], str]] = {
    HTML: (_page, f"{HTML}; charset=utf-8"),
    CSV: (lambda paper, _: order_csv(paper), f"{CSV}; charset=utf-8; header=present"),
    XML: (lambda paper, _: quotation(paper), XML),
}


def _address(token: str) -> str:
    """Where people open the quote: the page, with the token in the fragment, which no server and no log ever sees."""
    return f"{own_address()}/#quote={token}"
