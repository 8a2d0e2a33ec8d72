"""``POST /v1/day-sheets``, and the sheets of a quote from its token: who does what on each day, and with what."""

from __future__ import annotations

from collections.abc import Callable
from hashlib import sha256

import orjson
from flask import Response, g, request

from gaugerake import __version__
from gaugerake.answers.day_sheet.answer import DaySheet, day_sheet
from gaugerake.answers.show.reader import Reader
from gaugerake.exchange.day_page import SHEET_POLICY, SheetPaper, sheet_page, sheet_paper
from gaugerake.exchange.token import Sealed
from gaugerake.floor.values.frozen import replace
from gaugerake.measure.choice import choice
from gaugerake.web.api.calculation import calculate, resolved_of, shown
from gaugerake.web.api.examples import DATED
from gaugerake.web.api.language import of_name, of_quote
from gaugerake.web.api.operations import JSON, Asked, Resource, best
from gaugerake.web.api.parameters import BESIDE, CALCULATION, OPENED_LANG
from gaugerake.web.api.replies import NO_STORE, named_reply
from gaugerake.web.api.resources.quotes import HTML, MINE, TOKEN
from gaugerake.web.api.tokens import opened, resolved_again
from gaugerake.web.api.vary import vary
from gaugerake.web.json_in import reading
from gaugerake.web.json_in.schemas.job import JOB
from gaugerake.web.snapshots import the_snapshot

resource = Resource("day-sheets")

HTML_TYPE = f"{HTML}; charset=utf-8"
PRINTED = {HTML: {"type": "string", "description": "For print: a page for all days, then a page for each."}}


@resource.offers(
    id="makeDaySheets",
    method="POST",
    path="/v1/day-sheets",
    summary="A sheet for each day of the work",
    about=(
        "For the crew: each day's steps with their hours, rooms and hands, the packs to bring, what must be at its"
        " mixing temperature by when, the pour with its marks, what to aim at, and when to read floor, air and spread."
        " As JSON, or as HTML for print with lines to write on. 422 without `work.start`, as days have dates. With"
        " `working`, the first 60 days are told."
    ),
    takes=JOB,
    answer=DaySheet,
    forms=PRINTED,
    parameters=(*CALCULATION, BESIDE),
    examples=DATED,
)
def make_day_sheets(asked: Asked) -> Response:
    """The sheets, in the form that is liked best."""
    if _form() == JSON:
        response = calculate(day_sheet, JOB, asked)
    else:
        snapshot = the_snapshot()
        g.document = reading.body(request)
        resolved = resolved_of(JOB.load(g.document), snapshot)
        response = Response(_printed(sheet_paper(resolved, (), g.reader), asked), content_type=HTML_TYPE)
        response.headers["Cache-Control"] = NO_STORE
        response.headers["Content-Security-Policy"] = SHEET_POLICY
    vary(response, "Accept")
    return response


@resource.offers(
    id="openDaySheets",
    path="/v1/quotes/{token}/day-sheet",
    summary="The day sheets of a quote",
    about=(
        "Those of its job, from its token alone, in its units, from the catalogue that the quote was made from: as JSON"
        " what the job is answered, as HTML a page for print. 422 where the job has no start."
    ),
    answer={"$ref": "#/components/schemas/DaySheetAnswer"},
    forms=PRINTED,
    parameters=(OPENED_LANG, BESIDE),
    path_about=TOKEN,
    keyless=True,
    statuses=(304, 404, 410, 503),
)
def open_day_sheets(asked: Asked, token: str) -> Response:
    """The sheets, in the form that is liked best."""
    sealed = opened(token)
    g.reader = Reader(units=choice(sealed.units), language=of_quote(asked["lang"], sealed.lang))
    g.document = sealed.document
    form = _form()
    make, content_type = _FORMS[form]
    parts = ("day-sheet", form, g.reader.language, asked["beside"], __version__, token)
    known = sha256("\n".join(parts).encode()).hexdigest()[:32]
    response = named_reply(make(sealed, asked), content_type, cache=MINE, etag=known)
    vary(response, "Accept")
    if form == HTML:
        response.headers["Content-Security-Policy"] = SHEET_POLICY
    return response


def _form() -> str:
    """JSON or HTML, as the request likes best; JSON when it does not say."""
    return best((JSON, HTML)) or JSON


def _json(sealed: Sealed, _asked: Asked) -> bytes:
    resolved, said = resolved_again(sealed)
    found = day_sheet(resolved)
    return orjson.dumps(shown(resolved, replace(found, remarks=(*said, *found.remarks))))


def _page(sealed: Sealed, asked: Asked) -> bytes:
    return _printed(sheet_paper(*resolved_again(sealed), g.reader), asked)


def _printed(paper: SheetPaper, asked: Asked) -> bytes:
    return sheet_page(paper, beside=of_name(asked["beside"]))


_FORMS: dict[str, tuple[Callable[[Sealed, Asked], bytes], str]] = {JSON: (_json, JSON), HTML: (_page, HTML_TYPE)}
