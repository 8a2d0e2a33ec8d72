"""``POST /v1/quotes`` and what its token opens: the same quote in four forms, and its address as a QR code."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from hashlib import sha256
from typing import Any

import orjson
from flask import Response, current_app, g, request

from gaugerake import __version__
from gaugerake.answers.quote.answer import Quote, quote
from gaugerake.answers.show.reader import Reader
from gaugerake.answers.show.words import sentence
from gaugerake.exchange.errors import NoSuchForm
from gaugerake.exchange.lines import order_csv
from gaugerake.exchange.paper import Paper, paper_of
from gaugerake.exchange.print_page import POLICY, print_page
from gaugerake.exchange.qr import fits, qr_svg
from gaugerake.exchange.token import MOST_CHARACTERS, Sealed
from gaugerake.exchange.ubl import quotation
from gaugerake.measure.choice import choice
from gaugerake.web.api.calculation import calculate, shown
from gaugerake.web.api.compression import SUFFIX
from gaugerake.web.api.operations import JSON, Asked, Resource, accepted
from gaugerake.web.api.parameters import CALCULATION, ECHO
from gaugerake.web.api.replies import named_reply
from gaugerake.web.api.tokens import opened, quote_with_token, resolved_again
from gaugerake.web.json_in.schemas.job import JOB

resource = Resource("quotes")

HTML, CSV, XML, SVG = "text/html", "text/csv", "application/xml", "image/svg+xml"
MINE = "private, no-cache"
"""A quote may hold a customer's own prices: kept by the one who asked, and asked for again each time."""

_TOKEN = {"token": f"The `token` of a quote, at most {MOST_CHARACTERS:,} characters. It does not age."}


@resource.offers(
    id="makeQuote",
    method="POST",
    path="/v1/quotes",
    summary="A whole quote",
    about="Slab verdict, order, pour plan and return times of one job, from one catalogue revision and price book.",
    takes=JOB,
    answer=Quote,
    parameters=CALCULATION,
)
def make_quote(asked: Asked) -> Response:
    """The quote."""
    return calculate(quote_with_token, JOB, asked)


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
    forms={
        HTML: {"type": "string", "description": "A page for print."},
        CSV: {"type": "string", "description": "RFC 4180 with a header; a row for each order line."},
        XML: {"type": "string", "description": "OASIS UBL 2.1 Quotation."},
    },
    parameters=(ECHO,),
    path_about=_TOKEN,
    keyless=True,
    statuses=(304, 404, 410, 503),
)
def open_quote(asked: Asked, token: str) -> Response:
    """The quote, in the form that is liked best of those that it has."""
    sealed = opened(token)
    g.reader = Reader(units=choice(sealed.units))
    lacking: NoSuchForm | None = None
    left = list(_FORMS)
    while form := _best(left):
        try:
            return _reply(form, sealed, token, asked)
        except NoSuchForm as error:
            lacking = lacking or error
            left.remove(form)
    assert lacking is not None  # the operation's guard has seen that some form is accepted
    raise lacking


@resource.offers(
    id="drawQuoteCode",
    path="/v1/quotes/{token}/qr.svg",
    summary="The quote's address as a QR code",
    about="The address of the page with this quote opened on it; 404 when it has more than 1,200 characters.",
    media_type=SVG,
    answer={"type": "string", "description": "Black on white, with its quiet zone."},
    path_about=_TOKEN,
    keyless=True,
    statuses=(304, 404),
)
def draw_quote_code(_asked: Asked, token: str) -> Response:
    """The code."""
    opened(token)
    title = sentence("qr-title", {}, g.reader)
    return named_reply(qr_svg(_address(token), title=title), SVG, cache=MINE)


def _best(left: list[str]) -> str | None:
    """The form that the request likes best of those left; the first when it does not say."""
    liked = accepted()
    return liked.best_match(left) if liked else next(iter(left), None)


def _reply(form: str, sealed: Sealed, token: str, asked: Asked) -> Response:
    """The quote in one form, or 304 to those who have it: what it is follows from token, engine and address alone."""
    make, content_type = _FORMS[form]
    known = sha256("\n".join((form, __version__, _address(token), asked["echo"])).encode()).hexdigest()[:32]
    if _has(known):
        resolved_again(sealed)
        body = b""
    else:
        body = make(sealed, token, asked)
    response = named_reply(body, content_type, cache=MINE, etag=known)
    response.vary.add("Accept")
    if form == HTML:
        response.headers["Content-Security-Policy"] = POLICY
    return response


def _has(tag: str) -> bool:
    return any(request.if_none_match.contains_weak(name) for name in (tag, tag + SUFFIX))


def _json(sealed: Sealed, token: str, asked: Asked) -> bytes:
    resolved, said = resolved_again(sealed)
    found = quote(resolved, token=token)
    body = shown(resolved, replace(found, remarks=(*said, *found.remarks)))
    if asked["echo"] == "true":
        body["job"] = JOB.write(resolved.asked, g.reader.units)
    return orjson.dumps(body)


def _page(sealed: Sealed, token: str, _asked: Asked) -> bytes:
    # relative, so that it holds behind any proxy's prefix
    qr = f"{token}/qr.svg" if fits(_address(token)) else None
    return print_page(_paper(sealed, token), qr=qr)


def _lines(sealed: Sealed, token: str, _asked: Asked) -> bytes:
    return order_csv(_paper(sealed, token))


def _ubl(sealed: Sealed, token: str, _asked: Asked) -> bytes:
    return quotation(_paper(sealed, token))


def _paper(sealed: Sealed, token: str) -> Paper:
    return paper_of(*resolved_again(sealed), g.reader, token=token)


_FORMS: dict[str, tuple[Callable[[Sealed, str, Asked], bytes], str]] = {
    JSON: (_json, JSON),
    HTML: (_page, f"{HTML}; charset=utf-8"),
    CSV: (_lines, f"{CSV}; charset=utf-8; header=present"),
    XML: (_ubl, XML),
}


def _address(token: str) -> str:
    """Where people open the quote: the page, with the token in the fragment, which no server and no log ever sees."""
    base: Any = current_app.config["ADDRESS"] or request.host_url
    return f"{base.rstrip('/')}/#quote={token}"
